"""What differs between two revisions of the data of a model, as plain values. No Django."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from engines.catalogue.data import PackData, Source, source_of

WORDS = {
    "areas": "area",
    "lines": "parts list line",
    "operations": "operation",
    "pairings": "pairing",
    "renewed_sets": "set renewed together",
    "cautions": "caution",
    "directives": "directive",
    "run_steps": "step of the run",
    "run_limits": "limit of the run",
    "run_checks": "check of the run",
}
LIMIT_ROW, MODEL = "limit row", "model"
ADDED, TAKEN_OUT = "added", "taken out"
HEAD = ("model_name", "maker", "layout", "cylinders", "label")
RUN = ("run_reopens", "rated_power", "rated_rpm", "run_correction")
CITED = ("document", "document_revision", "page")
KEYS = {"lines": "line", "pairings": "fit", "directives": "number", "run_limits": "channel"}


class Change(NamedTuple):
    """`kind` and `code` name what changed, `what` the field of it (or added, taken out); before and after as texts."""

    kind: str
    code: str
    what: str
    before: str
    after: str


class Entry(NamedTuple):
    """One thing that a pack says: its code, the rest of what tells it from others, and its fields as texts."""

    code: str
    which: str
    fields: dict[str, str]


def changes_between(old: PackData, new: PackData) -> list[Change]:
    """Every change from the old data to the new, by kind, then in the order of the old data; what was added comes last."""
    found = list(_fields(MODEL, _head(old), _head(new)))
    for name, kind in WORDS.items():
        found += _entries(kind, _parts(old, name), _parts(new, name))
    return [*found, *_entries(LIMIT_ROW, _limits(old), _limits(new))]


def entries_of(pack: PackData) -> Iterator[tuple[str, Entry, Source]]:
    """(kind, entry, a page that it cites) for everything that the pack says."""
    for name, kind in WORDS.items():
        cited = [getattr(part, "cited", (part.source,)) for part in getattr(pack, name)]
        for entry, sources in zip(_parts(pack, name), cited, strict=True):
            yield from ((kind, entry, source) for source in dict.fromkeys(sources))
    for row, entry in zip(pack.limits, _limits(pack), strict=True):
        yield LIMIT_ROW, entry, source_of(row)


def _entries(kind: str, old: list[Entry], new: list[Entry]) -> Iterator[Change]:
    before, after = ({(entry.code, entry.which): entry for entry in entries} for entries in (old, new))
    for key, entry in before.items():
        if key in after:
            yield from _fields(kind, entry, after[key])
        else:
            yield Change(kind, entry.code, _named(TAKEN_OUT, entry), _all(entry), "")
    for key, entry in after.items():
        if key not in before:
            yield Change(kind, entry.code, _named(ADDED, entry), "", _all(entry))


def _fields(kind: str, old: Entry, new: Entry) -> Iterator[Change]:
    for name in dict.fromkeys([*old.fields, *new.fields]):
        before, after = old.fields.get(name, ""), new.fields.get(name, "")
        if before != after:
            yield Change(kind, new.code, _named(name, new), before, after)


def _named(what: str, entry: Entry) -> str:
    return f"{what} ({entry.which})" if entry.which else what


def _all(entry: Entry) -> str:
    return "; ".join(f"{name} {text}" for name, text in entry.fields.items())


def _head(pack: PackData) -> Entry:
    return Entry(pack.model, "", _texts({name: getattr(pack, name) for name in (*HEAD, *RUN)}))


def _parts(pack: PackData, name: str) -> list[Entry]:
    key = KEYS.get(name, "code")
    return [_part(vars(part), key) for part in getattr(pack, name)]


def _part(fields: Mapping[str, Any], key: str) -> Entry:
    which, told = "", {key}
    if key == "fit":
        which = f"{fields['outer_class'] or 'standard'} / {fields['inner_class'] or 'standard'}"
        told |= {"outer_class", "inner_class"}
    if key == "channel":
        which = fields["step"] or "every step"
        told.add("step")
    return Entry(fields[key], which, _texts({name: value for name, value in fields.items() if name not in told}))


def _limits(pack: PackData) -> list[Entry]:
    return [_limit(row) for row in pack.limits]


def _limit(row: Mapping[str, Any]) -> Entry:
    first, last = row["serial_from"], row["serial_to"]
    serials = f"serials {first or '…'} to {last or '…'}" if first or last else ""
    which = ", ".join(filter(None, (row["size_class"], serials)))
    named = {"row", "size_class", "serial_from", "serial_to", *CITED}
    return Entry(row["row"], which, _texts({name: row[name] for name in row if name not in named} | {"source": source_of(row)}))


def _texts(fields: Mapping[str, Any]) -> dict[str, str]:
    """Each field in words; what is blank is left out, so that a field which appears or goes is seen as such."""
    texts = {name.replace("_", " "): in_words(value) for name, value in fields.items()}
    return {name: text for name, text in texts.items() if text}


def in_words(value: object) -> str:
    if isinstance(value, list | tuple):
        return "; ".join(map(in_words, value))
    if isinstance(value, Mapping):
        return ", ".join(f"{name} {in_words(each)}" for name, each in value.items())
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)
