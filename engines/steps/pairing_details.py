"""Checking the details of a permitted pairing when its data are loaded, a sentence for each thing that is wrong."""

from collections.abc import Iterator, Mapping
from typing import Any

from engines.catalogue.data import CITED, PackData
from engines.steps.details import is_records, is_texts, unknown

PAIR = ("places", "mates")
TABLES = ("permitted", "fit")
MATE, KNOWN_BY = ("mate", "told_by"), ("row", "line")
ROW = ("first", "second", *CITED)


def wrong_pairing(kind: str, details: Mapping[str, Any], data: PackData) -> Iterator[str]:
    yield from unknown(kind, details, (*PAIR, *TABLES, "sets"))
    if any(name in details for name in (*PAIR, *TABLES)):
        yield from _wrong_pair(details, data)
    elif "sets" not in details:
        yield "it names neither what is paired nor a set"
    yield from _wrong_sets(details, data)


def _wrong_pair(details: Mapping[str, Any], data: PackData) -> Iterator[str]:
    if not is_texts(details.get("places")):
        yield "places name where the mates meet, each once"
        return
    if not _are_mates(details.get("mates")):
        yield "mates are two, each with mate and told_by, and with row or line where the data know it"
        return
    for mate in details["mates"]:
        yield from _wrong_mate(mate, details["places"], data)
    if ("permitted" in details) == ("fit" in details):
        yield "either permitted holds the table, or fit names the fit whose pairings it is"
    elif "fit" in details:
        yield from _wrong_fit(details, data)
    else:
        yield from _wrong_table(details["permitted"])


def _are_mates(given: object) -> bool:
    if not isinstance(given, list) or len(given) != 2:
        return False
    return (
        all(
            isinstance(each, dict)
            and set(MATE) <= set(each) <= {*MATE, *KNOWN_BY}
            and len(set(KNOWN_BY) & set(each)) < 2
            and all(isinstance(text, str) and text for text in each.values())
            for each in given
        )
        and len({each["mate"] for each in given}) == 2
    )


def _wrong_mate(mate: Mapping[str, str], places: list[str], data: PackData) -> Iterator[str]:
    lines = data.line_by_code
    if row := mate.get("row"):
        found = next((each for each in data.limits if each["row"] == row), None)
        if found is None or found["outer_row"] or found["from_row"] or found["part"] not in lines:
            yield f"“{row}” is no row that is read"
            return
        yield from _not_among(mate["mate"], places, found["places"] or lines[found["part"]].places)
    elif line := mate.get("line"):
        if line not in lines:
            yield f"the parts list has no “{line}”"
        elif len(lines[line].places) > 1:
            yield from _not_among(mate["mate"], places, lines[line].places)


def _not_among(mate: str, places: list[str], known: Any) -> Iterator[str]:
    yield from (f"the data have no {mate} at “{place}”" for place in places if place not in known)


def _wrong_fit(details: Mapping[str, Any], data: PackData) -> Iterator[str]:
    """The first mate is the outer one, so that its class is looked up in the right column."""
    fit = details["fit"]
    row = next((each for each in data.limits if each["row"] == fit and each["outer_row"]), None)
    if row is None or all(each.fit != fit for each in data.pairings):
        yield f"the data have no fit “{fit}” with permitted pairings"
        return
    for mate, own in zip(details["mates"], (row["outer_row"], row["inner_row"]), strict=True):
        if mate.get("row", own) != own:
            yield f"{mate['mate']} is read as “{mate['row']}”, the fit wants “{own}” there"


def _wrong_table(table: object) -> Iterator[str]:
    if not is_records(table, ROW):
        yield f"permitted is a table, each line with {', '.join(ROW)}"
        return
    assert isinstance(table, list)
    pairs = [(row["first"], row["second"]) for row in table]
    yield from (f"“{' with '.join(pair)}” is permitted twice" for pair in dict.fromkeys(pairs) if pairs.count(pair) > 1)


def _wrong_sets(details: Mapping[str, Any], data: PackData) -> Iterator[str]:
    if "sets" not in details:
        return
    if not is_texts(details["sets"]):
        yield "sets name parts renewed only together, each once"
        return
    known = {each.code for each in data.renewed_sets}
    yield from (f"the data have no set “{code}” that is renewed only together" for code in details["sets"] if code not in known)
