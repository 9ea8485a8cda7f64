"""What the data of an adjustment must say, a sentence for each thing that is wrong."""

from collections.abc import Iterator, Mapping
from typing import Any

from engines.steps.selecting import FILING, METHOD, RODS, SETTINGS, SHIMS
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from measurements.metrology.selection.shims import MOST_KINDS, MOST_SHIMS

NEEDED = ("what", "unit", "least", "greatest")
OTHERS = ("places", "positions", "raises")
OF_METHOD: dict[str, tuple[str, ...]] = {
    SETTINGS: (SETTINGS,),
    RODS: (RODS, "rocker_ratio"),
    SHIMS: (SHIMS, "most", "closed_by_thickness"),
    FILING: (),
}
OPTIONAL = ("most",)
ROWS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {  # the keys of a row, and which of them are figures
    SETTINGS: (("name", "spring", "washers", "turns", "pressure"), ("turns", "pressure")),
    RODS: (("name", "length"), ("length",)),
    SHIMS: (("thickness", "count"), ("thickness",)),
}
WHOLE = ("washers", "count")


def wrong_adjustment(details: Mapping[str, Any]) -> Iterator[str]:
    what = details.get("what")
    if not isinstance(what, str) or what not in METHOD:
        yield f"what is one of {', '.join(METHOD)}"
        return
    mine = OF_METHOD[METHOD[what]]
    yield from (f"{what} knows no details “{each}”" for each in details if each not in (*NEEDED, *OTHERS, *mine))
    needed = [each for each in (*NEEDED, *mine) if each not in OPTIONAL and (each != "closed_by_thickness" or what == "backlash")]
    yield from (f"{name} is missing" for name in needed if name not in details)
    yield from (f"{name} is one text" for name in ("unit", "raises") if not isinstance(details.get(name, ""), str))
    yield from _wrong_limits(details)
    yield from _wrong_lists(details)
    yield from _wrong_figures(details)
    for name in (name for name in ROWS if name in mine and name in details):
        yield from _wrong_rows(name, details[name])


def _wrong_limits(details: Mapping[str, Any]) -> Iterator[str]:
    least, greatest = (number(details.get(name, "0")) for name in ("least", "greatest"))
    for name in ("least", "greatest"):
        if name in details and not number(details[name]):
            yield f"{name} “{details[name]}” is no number above zero"
    if least and greatest and least > greatest:
        yield "the least is above the greatest"
    if details.get("raises", "outside") != "outside":
        yield "raises is outside, or left out"


def _wrong_lists(details: Mapping[str, Any]) -> Iterator[str]:
    for name in ("places", "positions"):
        given = details.get(name, ["one"])
        if not isinstance(given, list) or not given or not all(isinstance(each, str) for each in given):
            yield f"{name} are a list of texts"
        elif len(set(given)) < len(given):
            yield f"{name} stand there twice"
    if details["what"] == "backlash" and len(details.get("positions", ())) < 2:
        yield "a backlash is read at two positions of the mesh or more: positions"


def _wrong_figures(details: Mapping[str, Any]) -> Iterator[str]:
    for name in ("rocker_ratio", "closed_by_thickness"):
        if name in details and not number(details[name]):
            yield f"{name} “{details[name]}” is no number but nought"
    if number(details.get("rocker_ratio", "1")) is not None and str(details.get("rocker_ratio", "")).startswith("-"):
        yield "the rocker_ratio is above zero"
    if "most" in details and not (_is_whole(details["most"]) and 1 <= int(details["most"]) <= MOST_SHIMS):
        yield f"most is a whole number from 1 to {MOST_SHIMS}"


def _wrong_rows(name: str, rows: object) -> Iterator[str]:
    keys, figures = ROWS[name]
    if not isinstance(rows, list) or not rows or not all(isinstance(each, dict) and set(each) == set(keys) for each in rows):
        yield f"{name} are a list, each with {', '.join(keys)}"
        return
    first = [str(each[keys[0]]) for each in rows]
    yield from (f"{name} have “{each}” twice" for each in dict.fromkeys(first) if first.count(each) > 1)
    for row in rows:
        yield from (f"{key} “{row[key]}” is no number" for key in figures if number(row[key]) is None)
        yield from (f"{key} “{row[key]}” is no whole number" for key in WHOLE if key in row and not _is_whole(row[key]))
        yield from (f"{key} is above zero" for key in ("length", "thickness") if (number(row.get(key, "1")) or 0) <= 0)
    if name == SHIMS and len(rows) > MOST_KINDS:
        yield f"at most {MOST_KINDS} thicknesses can be searched"


def number(text: object) -> Any:
    """The exact figure, None where the text is none."""
    try:
        return read_number(str(text))
    except MeasureError:
        return None


def _is_whole(text: object) -> bool:
    return isinstance(text, str) and text.isascii() and text.isdigit() and len(text) < 5
