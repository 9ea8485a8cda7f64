"""What the ledger keeps of a single reading, and the sentence of each of its events."""

from measurements.readings.models import Reading
from measurements.readings.strips import signed_text
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.records import register_record

TEXTS = (
    "unit", "expanded_u", "condition", "set_up", "temperature", "part_coefficient", "gauge_coefficient",
    "minimum", "maximum", "mean", "verdict", "reason", "conformity", "evaluator_version",
)  # fmt: skip
NAMED = ("row", "gauge", "calibration", "source", "outer", "inner", "corrects", "taken_by")
KINDS = {
    "reading.taken": "{read} was read on {part}, {characteristic}: {verdict}.",
    "reading.corrected": "A reading of {part}, {characteristic} was corrected to {read}: {verdict}.",
    "reading.derived": "{read} follows for {part}, {characteristic}: {verdict}.",
    "fit.judged": "The fit {part}, {characteristic} is {read}: {verdict}.",
}


def register() -> None:
    register_record(Reading, content=content, private=("correction_reason",))
    protect(Reading)
    for kind, words in KINDS.items():
        register_kind(kind, sentence=_says(words))


def kind_of(reading: Reading) -> str:
    if reading.outer_id:
        return "fit.judged"
    if reading.source_id:
        return "reading.derived"
    return "reading.corrected" if reading.corrects_id else "reading.taken"


def content(reading: Reading) -> dict[str, object]:
    return {
        **{name: str(getattr(reading, name)) for name in TEXTS},
        **{name: _key(getattr(reading, f"{name}_id")) for name in NAMED},
        "points": [list(point) for point in reading.points],
        "taken_at": moment(reading.taken_at),
        "received_at": moment(reading.received_at),
        "sequence": str(reading.sequence),
    }


def _key(key: object) -> str | None:
    return None if key is None else str(key)


def _says(words: str):  # type: ignore[no-untyped-def]
    def sentence(event: LedgerEvent) -> str:
        kept, facts = event.body["content"], event.body["facts"]
        ends = (signed_text(kept[end], bool(kept["outer"])) for end in ("minimum", "maximum"))
        read = " to ".join(dict.fromkeys(ends))
        return words.format(**facts, read=f"{read} {facts['unit']}", verdict=kept["verdict"])

    return sentence
