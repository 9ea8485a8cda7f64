"""What the data ask of a torque group: its passes, what the fastener gets through an adapter, and whether the details suffice."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from engines.catalogue.data import Operation, PackData
from engines.steps.details import wrong_figures, wrong_minutes, wrong_names, wrong_texts, wrong_unit, wrong_words
from engines.steps.picture import is_each_once, numbers_of, wrong_layout
from measurements.metrology.fasteners.adapter import EXACT_COSINES, applied_by, setting_for
from measurements.metrology.numbers import plain_ratio, read_number

WET, DRY = CONDITIONS = ("wet", "dry")
NEEDED = ("unit", "passes", "condition", "over")
OTHERS = ("fasteners", "circle", "lubricant", "adapter", "run_down", "castle", "minutes", "set_wrench", "seated_by")
TEXTS = ("unit", "condition", "over", "lubricant", "run_down", "castle", "minutes", "set_wrench", "seated_by")
PASS, ADAPTER = ("low", "high", "order"), ("length", "unit", "angle")
SEATED = "hand-seated-joint"


@dataclass(frozen=True)
class Adapter:
    """Its length in `unit`, and degrees from straight ahead; only angles whose cosine is exact."""

    length: Decimal
    unit: str
    angle: Decimal

    def gets(self, indicated: Fraction, wrench_length: Decimal) -> Fraction:
        return applied_by(indicated, wrench_length, self.length, self.angle).value

    def setting(self, wanted: Fraction, wrench_length: Decimal) -> Fraction:
        return setting_for(wanted, wrench_length, self.length, self.angle).value


def adapter_of(details: Mapping[str, Any]) -> Adapter | None:
    given = details.get("adapter")
    return Adapter(read_number(given["length"]), given["unit"], read_number(given["angle"])) if given else None


def range_of(details: Mapping[str, Any], number: str) -> tuple[Decimal, Decimal]:
    """What a fastener gets in that pass, at least and at most."""
    wanted = details["passes"][int(number) - 1]
    return read_number(wanted["low"]), read_number(wanted["high"])


def drawn_in(low: Fraction | Decimal, high: Fraction | Decimal) -> tuple[str, str]:
    """Both ends as short as they can be written without leaving the range."""
    for scale in (10, 100, 1000):
        ends = math.ceil(Fraction(low) * scale), math.floor(Fraction(high) * scale)
        if ends[0] <= ends[1]:
            break
    return plain_ratio(ends[0], scale), plain_ratio(ends[1], scale)


def wrong_details(kind: str, operation: Operation, data: PackData) -> Iterator[str]:
    details = operation.details
    wrong = [*wrong_names(kind, details, NEEDED, OTHERS), *wrong_texts(details, TEXTS), *wrong_layout(details)]
    wrong += wrong_words(details, "condition", CONDITIONS)
    for flag in ("castle", "set_wrench"):
        wrong += wrong_words(details, flag, ("yes",))
    wrong += wrong_words(details, "run_down", ("added",))
    if not wrong:
        wrong += [*_wrong_passes(details), *wrong_unit(details["unit"], "torque", ""), *_wrong_adapter(details.get("adapter"))]
        wrong += _wrong_rest(operation, data)
    yield from wrong


def _wrong_rest(operation: Operation, data: PackData) -> Iterator[str]:
    details = operation.details
    yield from wrong_minutes(details)
    if (details["condition"] == WET) != ("lubricant" in details):
        yield "wet names its lubricant, dry names none"
    if seated := details.get("seated_by"):
        found = data.operation_by_code.get(seated)
        if found is None or found.kind != SEATED:
            yield f"seated_by “{seated}” is no {SEATED} of the route"
        elif seated not in operation.after:
            yield f"it must be after “{seated}”, which seats it"


def _wrong_passes(details: Mapping[str, Any]) -> Iterator[str]:
    passes, numbers = details["passes"], numbers_of(details)
    if not isinstance(passes, list) or not passes or not all(isinstance(each, dict) for each in passes):
        yield f"passes are a list, each with {', '.join(PASS)}"
        return
    for number, each in enumerate(passes, start=1):
        wrong = [*wrong_names("pass", each, PASS), *wrong_figures(each, ("low", "high"))]
        if not wrong and read_number(each["low"]) > read_number(each["high"]):
            wrong.append(f"low {each['low']} is above high {each['high']}")
        if not wrong and not is_each_once(each["order"], numbers):
            wrong.append(f"order names every fastener once: {', '.join(numbers)}")
        yield from (f"pass {number}: {sentence}" for sentence in wrong)


def _wrong_adapter(given: Any) -> Iterator[str]:
    if given is None:
        return
    if not isinstance(given, dict):
        yield f"adapter has {', '.join(ADAPTER)}"
        return
    wrong = [*wrong_names("adapter", given, ADAPTER), *wrong_texts(given, ADAPTER)]
    wrong += wrong_figures(given, ("length",)) if not wrong else ()
    wrong += wrong_unit(given["unit"], "length", "adapter: ") if not wrong else ()
    if not wrong and given["angle"] not in map(str, EXACT_COSINES):
        wrong.append(f"angle is one of {', '.join(map(str, EXACT_COSINES))} degrees, where the setting is exact")
    yield from wrong
