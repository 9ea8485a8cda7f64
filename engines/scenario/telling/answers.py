"""What a good hand answers at a step that asks one thing after the other: the whole of it, in the order in which it is asked."""

from collections.abc import Callable, Iterator, Mapping
from datetime import timedelta
from decimal import Decimal
from fractions import Fraction
from typing import Any

from engines.scenario.telling.bench import Bench, Given, picture_of
from engines.scenario.telling.parts_answers import cleaned, fated, kept_here, paired, scrapped, tested
from engines.steps import adjusting, selecting
from engines.steps.kinds import adjust_and_select as adjust
from engines.steps.kinds import closure_count as count
from engines.steps.kinds import heat_or_chill_fit as heat
from engines.steps.kinds import lubricate_or_seal as seal
from engines.steps.kinds.hand_seated_joint import HOME
from engines.steps.kinds.locking import GOOD
from engines.steps.picture import numbers_of
from engines.steps.stretch import FREE
from engines.steps.torque import adapter_of, range_of
from engines.steps.torque_forms import ALIGNED
from engines.steps.work import Work
from measurements.metrology.numbers import read_number

WRENCH_LENGTH, DRAG = Decimal("10.0"), Decimal("5")
SHELF_LIFE = timedelta(days=300)


def answers(work: Work, bench: Bench) -> list[Given] | None:
    """None for a kind that is not asked through: its positions are answered one by one."""
    told = ASKED_THROUGH.get(work.operation.kind)
    return list(told(work, bench)) if told else None


def _torque(work: Work, bench: Bench) -> Iterator[Given]:
    details = work.operation.details
    drag = DRAG if "run_down" in details else Decimal(0)
    for number, each in enumerate(details["passes"], start=1):
        low, high = (_shown_at(details, figure + drag) for figure in range_of(details, str(number)))
        yield {
            "wrench": bench.reaching(details["unit"], low, high),
            "threads": details["condition"],
            "wrench_length": f"{WRENCH_LENGTH}",
        }
        is_last = number == len(details["passes"])
        for turn, fastener in enumerate(each["order"]):
            shown = round((low + high) / 2) + turn % 2
            slot = ALIGNED if "castle" in details and is_last else ""
            yield {"fastener": fastener, "torque": f"{shown}", "run_down": f"{DRAG}", "slot": slot, "read_again": True}


def _shown_at(details: Mapping[str, Any], figure: Decimal) -> Fraction:
    adapter = adapter_of(details)
    return adapter.setting(Fraction(figure), WRENCH_LENGTH) if adapter else Fraction(figure)


def _stretch(work: Work, bench: Bench) -> Iterator[Given]:
    details = work.operation.details
    free, low, high = (read_number(text) for text in (details["set"][FREE], details["low"], details["high"]))
    grown = ((low + high) / 2).quantize(low)
    lengths = [free + (turn % 5) * Decimal("0.0001") for turn, _ in enumerate(details["order"])]
    yield {"gauge": bench.reaching(details["unit"], free, free + high)}
    for more in (Decimal(0), grown):
        for fastener, length in zip(details["order"], lengths, strict=True):
            yield {"fastener": fastener, "length": f"{length + more:.4f}", "read_again": True}


def _locks(work: Work, bench: Bench) -> Iterator[Given]:
    details = work.operation.details
    joint = work.data.operation_by_code[details["joint"]]
    return ({"fastener": number, "lies": GOOD[details["method"]]} for number in numbers_of(joint.details))


def _seated(work: Work, bench: Bench) -> Iterator[Given]:
    yield {"seated": HOME, "why": ""}


def _marks(work: Work, bench: Bench) -> Iterator[Given]:
    met = {f"pair_{index}": "yes" for index, _ in enumerate(work.operation.details["pairs"])}
    yield {**met, "photo": picture_of(work.operation.title)}


def _views(work: Work, bench: Bench) -> Iterator[Given]:
    return ({"view": view, "photo": picture_of(view)} for view in work.operation.details["views"])


def _openings(work: Work, bench: Bench) -> Iterator[Given]:
    openings = work.operation.details["openings"]
    for turn, spot in enumerate(work.spots):
        yield {"spot": spot, **{f"opening_{index}": str(turn + 360 * index // len(openings)) for index, _ in enumerate(openings)}}


def _put_on(work: Work, bench: Bench) -> Iterator[Given]:
    details = work.operation.details
    taken = {"product": details["products"][0], "lot": "demo-7", "use_by": bench.day + SHELF_LIFE}
    for place in details["places"]:
        yield {"asked": f"{seal.APPLY}: {place}", **taken}
        if "open_minutes" in details:
            yield {"asked": f"{seal.CLOSE}: {place}", "answer": seal.CLOSED}


def _joined(work: Work, bench: Bench) -> Iterator[Given]:
    details = work.operation.details
    found = {
        heat.OUTER: _inside(details["outer"]),
        heat.INNER: _inside(details["inner"]),
        heat.TIME: f"{read_number(details['seconds']) / 2:f}",
        heat.COLD: _inside(details["cold"]),
    }
    for place in details["places"]:
        for act in heat.ORDER:
            yield {"asked": f"{act}: {place}", "answer": found.get(act, heat.YES)}


def _inside(bounds: Mapping[str, str]) -> str:
    figures = [read_number(bounds[name]) for name in heat.BOUNDS if name in bounds]
    return f"{sum(figures) / len(figures):f}"


def _counted(work: Work, bench: Bench) -> Iterator[Given]:
    details = work.operation.details
    numbers = [each["number"] for each in details["closures"]]
    counts = {
        count.CLOSURES: str(len(numbers)),
        **{each["tool"]: each["count"] for each in details["tools"]},
        "rags": details["rags"],
    }
    yield from ({"asked": count.OUT, "number": number} for number in numbers)
    yield from ({"asked": f"{count.COUNT}: {what}", "counted": counted} for what, counted in counts.items())
    if "shaft" in details:
        yield {"asked": count.HOLD_DOWN, "answer": count.OFF}
        plates = details["shaft"]["plates"]
        yield from ({"asked": f"{count.PLATE}: {plate}", "answer": count.FITTED} for plate in plates)
        yield {"asked": count.TURN, "answer": count.TURNED}
    yield from ({"asked": count.IN, "number": number} for number in numbers)


def _adjusted(work: Work, bench: Bench) -> Iterator[Given]:
    """What is fitted gives a value well within the limits, so nothing is changed."""
    details, method = work.operation.details, selecting.method_of(work.operation.details)
    least, greatest = (read_number(details[name]) for name in ("least", "greatest"))
    fitted = details[method][0][adjusting.ROWS[method][0][0]] if method != selecting.FILING else ""
    step = (greatest - least) / 8
    for turn, place in enumerate(details.get("places", [work.operation.title])):
        if fitted:
            yield {"asked": f"{adjust.FOUND}: {place}", "fitted": fitted}
        for further, position in enumerate(details.get("positions", [""])):
            at = f"{adjust.AT}{position}" if position else ""
            read = (least + step * (3 + (turn + further) % 3)).quantize(least)
            yield {"asked": f"{adjust.READ}: {place}{at}", "read": f"{read:f}", "read_again": True}


ASKED_THROUGH: dict[str, Callable[[Work, Bench], Iterator[Given]]] = {
    "torque-group": _torque,
    "stretch-group": _stretch,
    "locking": _locks,
    "hand-seated-joint": _seated,
    "index-marks": _marks,
    "photo": _views,
    "angular-separation": _openings,
    "lubricate-or-seal": _put_on,
    "heat-or-chill-fit": _joined,
    "closure-count": _counted,
    "adjust-and-select": _adjusted,
    "accessory-fate": fated,
    "cleaning": cleaned,
    "outside-work": kept_here,
    "crack-test": tested,
    "permitted-pairing": paired,
    "not-repairable": scrapped,
}
