"""The plan for a group: which class each surface takes, what it is ground to, what to order and what must follow."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadLimits, NothingGiven
from measurements.metrology.regrind.classes import SizeClass, band_of, in_order
from measurements.metrology.regrind.refusals import Reason, Refusal
from measurements.metrology.regrind.rules import Bounds, Policy, Rules, bounds_of
from measurements.metrology.regrind.surface import Surface, stock_of
from measurements.metrology.regrind.taking import Work, take


class Outcome(StrEnum):
    """What becomes of the group."""

    AS_IT_STANDS = "use as it stands"
    GRIND = "grind"
    REJECT = "reject"


@dataclass(frozen=True)
class Plan(Checked):
    """The outcome, the work on each surface (none when rejected), and why classes nearer standard fail or all do.

    `orders` is what to order with how many, `follows` what the data ask for after the grinding, each once.
    """

    outcome: Outcome
    works: tuple[Work, ...] = ()
    refusals: tuple[Refusal, ...] = ()
    orders: tuple[tuple[str, int], ...] = ()
    follows: tuple[str, ...] = ()


def plan(surfaces: Sequence[Surface], classes: Sequence[SizeClass], rules: Rules) -> Plan:
    """The least metal to take off so that every surface of the group is true and in a permitted class.

    Units: one length throughout. Shape: at least one surface and one class, each name once. Raises: NothingGiven, BadLimits for
    contradictory classes or readings, BadFigure. Run-out beyond its limit, or no class left, is a plan that rejects.
    Source: TM 5-3805-262-34, 4-1 (one ground, all ground); TM 5-4320-300-14, 6-11 (sizes that need no grinding).
    """
    bounds = bounds_of(rules)
    choices = in_order(classes, rules.kind)
    _check(surfaces, choices, rules, bounds)
    bent = _beyond_runout(surfaces, rules, bounds)
    if bent:
        return Plan(Outcome.REJECT, refusals=bent)
    if rules.policy is Policy.EACH:
        return _each(surfaces, choices, rules, bounds)
    if rules.policy is Policy.GROUND_ALIKE:
        standing = _each(surfaces, choices, rules, bounds)
        if standing.outcome is Outcome.AS_IT_STANDS:
            return standing
    return _alike(surfaces, choices, rules, bounds)


def _each(surfaces: Sequence[Surface], choices: Sequence[SizeClass], rules: Rules, bounds: Bounds) -> Plan:
    works: list[Work] = []
    refusals: list[Refusal] = []
    lost: list[Refusal] = []
    for surface in surfaces:
        for size_class in choices:
            taken = take(surface, size_class, rules.kind, bounds)
            if isinstance(taken, Work):
                works.append(taken)
                break
            refusals.append(taken)
        else:
            lost.append(Refusal(surface.name, "", Reason.NO_CLASS))
    return Plan(Outcome.REJECT, refusals=(*refusals, *lost)) if lost else _planned(works, refusals, rules)


def _alike(surfaces: Sequence[Surface], choices: Sequence[SizeClass], rules: Rules, bounds: Bounds) -> Plan:
    refusals: list[Refusal] = []
    for size_class in choices:
        taken = [take(surface, size_class, rules.kind, bounds) for surface in surfaces]
        against = [one for one in taken if isinstance(one, Refusal)]
        if not against:
            return _planned([one for one in taken if isinstance(one, Work)], refusals, rules)
        refusals.extend(against)
    stuck = [one.surface for one in refusals if one.size_class == choices[-1].name]
    return Plan(Outcome.REJECT, refusals=(*refusals, *(Refusal(name, "", Reason.NO_CLASS) for name in stuck)))


def _planned(works: Sequence[Work], refusals: Sequence[Refusal], rules: Rules) -> Plan:
    ground = [work.size_class for work in works if work.ground]
    parts = [work.size_class.order for work in works if work.size_class.order]
    wanted = [*(rules.follows if ground else ()), *(step for one in ground for step in one.follows)]
    return Plan(
        Outcome.GRIND if ground else Outcome.AS_IT_STANDS,
        tuple(works),
        tuple(refusals),
        tuple((part, parts.count(part)) for part in dict.fromkeys(parts)),
        tuple(dict.fromkeys(wanted)),
    )


def _check(surfaces: Sequence[Surface], choices: Sequence[SizeClass], rules: Rules, bounds: Bounds) -> None:
    if not surfaces:
        raise NothingGiven("No surface was read: measure at least one journal or bore.")
    if len({surface.name for surface in surfaces}) < len(surfaces):
        raise BadLimits("Two surfaces have the same name: name each once.")
    for choice in choices:
        band = band_of(choice, rules.kind)
        if choice.ground and band.greatest - band.least < bounds.room:
            raise BadLimits(f"Class {choice.name} is narrower than the room the grinder needs. Check both against the page.")


def _beyond_runout(surfaces: Sequence[Surface], rules: Rules, bounds: Bounds) -> tuple[Refusal, ...]:
    stocks = [(surface.name, stock_of(surface, rules.kind).runout) for surface in surfaces]
    limit = bounds.runout
    return tuple(Refusal(name, "", Reason.RUN_OUT, out - limit) for name, out in stocks if limit is not None and out > limit)
