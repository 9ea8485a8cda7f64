"""What to fit so that a value comes within its limits: the permitted combinations are data, the choice is computed exactly."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from measurements.metrology.errors import MeasureError, NoAnswer
from measurements.metrology.numbers import plain_ratio, read_number
from measurements.metrology.selection.oil_pressure import Setting, setting_for
from measurements.metrology.selection.push_rods import push_rod_for
from measurements.metrology.selection.ring_gap import filing
from measurements.metrology.selection.shims import MOST_SHIMS, for_backlash, shims_for

SETTINGS, RODS, SHIMS, FILING = "settings", "rods", "shims", "filing"
METHOD = {
    "oil pressure": SETTINGS,
    "end play": SHIMS,
    "backlash": SHIMS,
    "dry clearance": RODS,
    "push rod length": RODS,
    "ring gap": FILING,
}
FILED, ANOTHER, OTHER, NO_SHIM = "filed", "another ring", "none of these", "0"


@dataclass(frozen=True)
class Selected:
    """What is to be fitted, blank where nothing permitted helps, and in words what to expect or why there is none."""

    fit: str
    words: str


def method_of(details: Mapping[str, Any]) -> str:
    return METHOD[details["what"]]


def names_in(details: Mapping[str, Any]) -> list[str]:
    """The permitted combinations by name, where they have one; what may be done to a ring otherwise."""
    method = method_of(details)
    return [FILED, ANOTHER] if method == FILING else [each["name"] for each in details.get(method, ()) if method != SHIMS]


def is_within(details: Mapping[str, Any], read: str) -> bool:
    return read_number(details["least"]) <= read_number(read) <= read_number(details["greatest"])


def select(details: Mapping[str, Any], fitted: str, read: Sequence[str]) -> Selected:
    """From what was read at every position with what is fitted now: every position has to come within the limits."""
    figures = [read_number(each) for each in read]
    try:
        return _select(details, fitted, min(figures), read_number(details["greatest"]) - (max(figures) - min(figures)))
    except MeasureError as error:
        return Selected("", str(error))


def _select(details: Mapping[str, Any], fitted: str, read: Decimal, high: Decimal) -> Selected:
    """All positions move together, so the least is moved and the spread is taken from the greatest."""
    low, unit, method = read_number(details["least"]), details["unit"], method_of(details)
    if high < low:
        raise NoAnswer("The positions differ by more than the limits allow. Look for the cause: run-out, seats, wear.")
    if method == SETTINGS:
        chosen = setting_for(read, fitted, [_setting(each) for each in details[SETTINGS]], low, high)
        return Selected(chosen.setting.name, f"{_plain(chosen.expected)} {unit} to be expected")
    if method == RODS:
        lengths = {each["name"]: read_number(each["length"]) for each in details[RODS]}
        rod = push_rod_for(read, fitted, lengths, low, high, read_number(details["rocker_ratio"]))
        return Selected(rod.name, f"{_plain(rod.clearance)} {unit} to be expected")
    if method == SHIMS:
        share = read_number(details.get("closed_by_thickness", "1"))
        wanted = for_backlash(read, low, high, sum(map(read_number, shims_in(fitted)), Decimal()), share)
        pack = shims_for(wanted, box_of(details), most_of(details))
        as_written = {Fraction(read_number(each["thickness"])): each["thickness"] for each in details[SHIMS]}
        fit = ", ".join(as_written[Fraction(shim)] for shim in pack.shims)
        return Selected(fit or NO_SHIM, f"together {_plain(pack.total)} {unit}")
    off = filing(read, low, high)
    return Selected(FILED, f"take off at least {_plain(off.least)} and at most {_plain(off.greatest)} {unit}")


def shims_in(text: str) -> list[str]:
    """`0.010, 0.004` as its thicknesses; none for a nought. Each is checked by whoever keeps it."""
    return [] if text.strip() == NO_SHIM else [each.strip() for each in text.split(",")]


def box_of(details: Mapping[str, Any]) -> dict[Decimal | Fraction | int, int]:
    return {read_number(each["thickness"]): int(each["count"]) for each in details[SHIMS]}


def most_of(details: Mapping[str, Any]) -> int:
    return int(details.get("most", MOST_SHIMS))


def wrong_shims(details: Mapping[str, Any], text: str, *, from_the_box: bool) -> str:
    """Why these shims cannot be what is fitted; blank where they can."""
    try:
        shims = [read_number(each) for each in shims_in(text)]
    except MeasureError as error:
        return str(error)
    box = box_of(details)
    if any(shim <= 0 for shim in shims):
        return "a shim is thicker than nothing: type 0 alone where none is fitted"
    if not from_the_box:
        return ""
    if len(shims) > most_of(details):
        return f"the data allow at most {most_of(details)} shims"
    wrong = [f"{shim:f}" for shim in shims if shims.count(shim) > box.get(shim, 0)]
    return f"the data do not permit so many of {wrong[0]}" if wrong else ""


def _setting(row: Mapping[str, str]) -> Setting:
    turns, pressure = read_number(row["turns"]), read_number(row["pressure"])
    return Setting(row["name"], row["spring"], int(row["washers"]), turns, pressure)


def _plain(value: Fraction) -> str:
    return plain_ratio(value.numerator, value.denominator)
