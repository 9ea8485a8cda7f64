"""Checking what the data ask of outside work when they are loaded, a sentence for each thing that is wrong."""

from collections.abc import Iterator

from engines.catalogue.data import Operation, PackData
from engines.steps.details import is_texts, missing_texts, unknown

NEEDED = ("work", "part", "asked")
KNOWN = (*NEEDED, "evidence", "read_again", "unless")
LONGEST = {"work": 120, "part": 120, "asked": 600}
PAPER = 60


def wrong_details(kind: str, operation: Operation, data: PackData) -> Iterator[str]:
    details = operation.details
    yield from unknown(kind, details, KNOWN)
    yield from missing_texts(details, [*NEEDED, *(["unless"] if "unless" in details else [])])
    for name, most in LONGEST.items():
        if len(str(details.get(name, ""))) > most:
            yield f"{name} is longer than {most} letters"
    if not is_texts(details.get("evidence")) or any(len(each) > PAPER for each in details["evidence"]):
        yield f"evidence lists the papers that must come back, each once, in at most {PAPER} letters"
    for line in (data.line_by_code[name] for name in operation.names if name in data.line_by_code):
        if line.renew or line.tracking == "none":
            yield f"“{line.line}” has no identity that could go out and come back"
    yield from _wrong_rows(operation, data)


def _wrong_rows(operation: Operation, data: PackData) -> Iterator[str]:
    """Every row that is read again is read, of a part that goes out, and at some operation of the route."""
    if "read_again" not in operation.details:
        return
    names = operation.details["read_again"]
    if not is_texts(names):
        yield "read_again lists rows of the limits, each once"
        return
    rows = {row["row"]: row for row in data.limits}
    read = {name for each in data.operations if each.kind == "reading" for name in each.names}
    for name in names:
        row = rows.get(name)
        if row is None or row["outer_row"] or row["inner_row"] or row["from_row"]:
            yield f"read_again names “{name}”, which is no row that is read"
        elif row["part"] not in operation.names:
            yield f"read_again names “{name}”, which is read on “{row['part']}”, not on what goes out"
        elif name not in read:
            yield f"read_again names “{name}”, which no operation of the route reads"
