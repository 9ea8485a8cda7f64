"""Which act comes next: what somebody who knows the job would do, or whatever else comes into somebody's head."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from tests.walking.acts import findings, leaving, moving, operations, parts, stand
from tests.walking.attempt import Attempt
from tests.walking.gates import half_conceded, must_hold_release, open_ones, ran_well, undone_decisions, waiting

if TYPE_CHECKING:
    from tests.walking.walk import Walk

Act = Callable[["Walk"], Attempt | None]
# With each, what of it the rows say there is to do.
USEFUL: dict[Act, Callable[["Walk"], object]] = {
    operations.type_in: operations.to_do,
    operations.put_name: lambda walk: operations.to_sign(walk) + operations.to_accept(walk),
    operations.read_again: operations.to_read_again,
    moving.move_on: moving.can_move,
    moving.bring_back: moving.left_behind,
    findings.raise_gone: findings.gone,
    findings.decide_it: lambda walk: open_ones(walk.visit.pk),
    findings.do_it: lambda walk: undone_decisions(walk.visit.pk),
    findings.sign_again: lambda walk: half_conceded(walk.visit.pk),
    findings.reply: lambda walk: waiting(walk.visit.pk),
    stand.run_on: lambda walk: walk.stages["engine"] == "test" and not ran_well(walk.desk),
    leaving.let_go: lambda walk: not must_hold_release(walk.desk),
}
# In place or out of it, and how often.
OTHER: dict[Act, int] = {
    **dict.fromkeys(USEFUL, 6),
    operations.put_name: 12,
    moving.move_on: 8,
    operations.open_page: 6,
    operations.take_reading: 6,
    operations.correct_reading: 2,
    operations.open_again: 1,
    moving.move_back: 1,
    moving.change_bench: 2,
    moving.receive: 2,
    findings.raise_in_words: 4,
    findings.raise_a_reading: 4,
    findings.ask: 4,
    findings.call_serious: 2,
    stand.begin: 4,
    parts.scrap: 2,
    leaving.put_right: 2,
    leaving.see: 2,
}
GONE: dict[Act, int] = {leaving.put_right: 2, leaving.see: 1, moving.receive: 4}
MOSTLY, CARE, HASTE = 0.65, 5, 0.8


def choose(walk: "Walk") -> Attempt | None:
    """Who does the useful thing is careful about it."""
    if walk.visit is None:
        return moving.receive(walk)
    is_useful = walk.rng.random() < MOSTLY
    walk.rng.care = CARE if is_useful else HASTE
    acts = (_useful(walk) if is_useful else {}) or OTHER
    return walk.rng.choices(list(acts), list(acts.values()))[0](walk)


def _useful(walk: "Walk") -> dict[Act, int]:
    return GONE if walk.is_closed else {act: 1 for act, is_there in USEFUL.items() if is_there(walk)}
