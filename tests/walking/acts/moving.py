"""An engine comes in; an area moves on, back, or to another bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engines.catalogue.data import AREA_STAGES, ENGINE_STAGES
from engines.release.errors import Held
from engines.release.queries import blockers_of, situation_of
from engines.release.services import advance, send_back
from engines.traveler.services import open_visit
from engines.visits.queries import areas, visible_visits
from engines.visits.services import move_to_bench
from shopfloor.people.permissions import Permission
from tests.walking.attempt import Attempt
from tests.walking.dice import slip
from tests.walking.gates import may_hold, must_hold

if TYPE_CHECKING:
    from tests.walking.walk import Walk


def receive(walk: Walk) -> Attempt:
    """Another engine, or one that is here already, or another customer's."""
    here = walk.visit is not None
    serial = (
        walk.visit.engine.item.serial
        if here and (not walk.is_closed or slip(walk.rng, 0.5)) and not slip(walk.rng, 0.04)
        else f"T2-{walk.seed}-{walk.steps}"
    )
    customer = walk.crew.stranger.customer if slip(walk.rng, 0.05) else walk.crew.customer
    given = {
        "pack": walk.crew.pack,
        "serial": serial,
        "customer": customer,
        "scope": "overhaul",
        "reasons": ("time",),
        "bench": "1",
    }
    if slip(walk.rng, 0.05):
        given["reasons"] = ()

    def do(by, at):
        visit = open_visit(**given, by=by, at=at)
        walk.take_up(visible_visits(walk.crew.manager).get(pk=visit.pk))
        return visit

    return Attempt(f"receives {serial}", Permission.RECEIVE_ENGINES, ("benches:receive", walk.crew.pack.pk), do)


def move_on(walk: Walk) -> Attempt | None:
    """One area, mostly one whose work is done. What its page says holds it must be what the move is refused for."""
    code = walk.rng.one_of(can_move(walk), otherwise=walk.in_a_hurry())
    if code is None:
        return None
    area = walk.area(code)
    before = walk.rng.choice(AREA_STAGES) if slip(walk.rng, 0.05) else area.stage

    def do(by, at):
        told = [each.sentence for each in blockers_of(situation_of(areas().get(pk=area.pk)))]
        must, may = must_hold(walk.desk, code), may_hold(walk.desk, code)
        try:
            moved = advance(area=area, before=before, by=by, at=at)
        except Held as held:
            walk.expect([each.sentence for each in held.blockers] == told, f"{code} is held for other reasons than told: {told}")
            walk.expect(bool(may), f"nothing holds {code}, yet it is held: {told}")
            raise
        walk.expect(not told, f"{code} moved on although its page says: {told}")
        walk.expect(not must, f"{code} moved on although: {must}")
        return moved

    return Attempt(f"moves {code} on from {before}", Permission.MOVE_AREAS, ("benches:move-on", area.pk), do)


def left_behind(walk: Walk) -> list[tuple[str, str]]:
    """Areas that stand past something that is not complete, and the stage of that."""
    found = {}
    for each in walk.planned:
        stages = ENGINE_STAGES if each.area == "engine" else AREA_STAGES
        if not each.is_complete and stages.index(each.stage) < stages.index(each.area_stage):
            found.setdefault(each.area, each.stage)
    return list(found.items())


def bring_back(walk: Walk) -> Attempt | None:
    """To where something was left."""
    found = walk.rng.one_of(left_behind(walk))
    return _back(walk, *found, "seen again") if found else None


def can_move(walk: Walk) -> list[str]:
    return [code for code in walk.stages if walk.is_worked_off(code) and not must_hold(walk.desk, code)]


def move_back(walk: Walk) -> Attempt | None:
    code = walk.rng.one_of(list(walk.stages))
    if code is None:
        return None
    stages = ENGINE_STAGES if code == "engine" else AREA_STAGES
    earlier = stages[: stages.index(walk.stages[code])]
    after = walk.rng.choice(earlier[-2:] if earlier and not slip(walk.rng) else stages)
    return _back(walk, code, after, "" if slip(walk.rng) else "seen again")


def _back(walk: Walk, code: str, after: str, reason: str) -> Attempt:
    area = walk.area(code)
    return Attempt(
        f"moves {code} back to {after}",
        Permission.MOVE_AREAS,
        ("benches:move-back", area.pk),
        lambda by, at: send_back(area=area, before=area.stage, after=after, reason=reason, by=by, at=at),
    )


def change_bench(walk: Walk) -> Attempt | None:
    code = walk.rng.one_of(list(walk.stages))
    if code is None:
        return None
    area, bench = walk.area(code), walk.rng.choice(["1", "2", " "])
    return Attempt(
        f"moves {code} to bench {bench!r}",
        Permission.MOVE_AREAS,
        ("benches:rebench", area.pk),
        lambda by, at: move_to_bench(area=area, bench=bench, by=by, at=at),
    )
