"""Two routes side by side: what was added, taken out, changed or moved, old and new beside each other. Plain values."""

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from engines.catalogue.changes import ADDED, TAKEN_OUT, in_words
from engines.catalogue.data import Operation

CHANGED, MOVED = "changed", "moved"


@dataclass(frozen=True)
class FieldBeside:
    name: str
    before: str
    after: str

    @property
    def differs(self) -> bool:
        return self.before != self.after


@dataclass(frozen=True)
class OperationBeside:
    """`what` says how it differs; `fields` are all that either side has, those that are alike too."""

    code: str
    title: str
    what: str
    fields: list[FieldBeside]


def routes_beside(old: Sequence[Operation], new: Sequence[Operation]) -> list[OperationBeside]:
    """Every operation that differs, in the order of the new route; what was taken out comes where it stood."""
    before, after = ({each.code: each for each in route} for route in (old, new))
    stayed = _in_their_order([*before], [*after])
    found = [_beside(code, before.get(code), after.get(code), code in stayed) for code in _order([*before], [*after])]
    return [each for each in found if each.what]


def _beside(code: str, old: Operation | None, new: Operation | None, stayed: bool) -> OperationBeside:
    fields = _fields(old, new)
    shown = new or old
    assert shown is not None
    if old is None or new is None:
        return OperationBeside(code, shown.title, ADDED if old is None else TAKEN_OUT, fields)
    said = [word for word, so in ((CHANGED, any(each.differs for each in fields)), (MOVED, not stayed)) if so]
    return OperationBeside(code, shown.title, ", ".join(said), fields)


def _fields(old: Operation | None, new: Operation | None) -> list[FieldBeside]:
    names = [name for name in vars(new or old) if name != "code"]
    before, after = ([_words(getattr(each, name)) if each else "" for name in names] for each in (old, new))
    found = [FieldBeside(name.replace("_", " "), *pair) for name, *pair in zip(names, before, after, strict=True)]
    return [each for each in found if each.before or each.after]


def _words(value: object) -> str:
    """A flag that is not set is a blank, as in the text of a route."""
    return "" if value is False else in_words(value)


def _in_their_order(old: list[str], new: list[str]) -> set[str]:
    """The codes that kept their order among each other; the others were moved."""
    matches = SequenceMatcher(None, old, new, autojunk=False).get_matching_blocks()
    return {code for match in matches for code in old[match.a : match.a + match.size]}


def _order(old: list[str], new: list[str]) -> list[str]:
    """The new order, with what is no longer there behind what it followed."""
    codes, last = list(new), 0
    for code in old:
        if code in codes:
            last = codes.index(code) + 1
        else:
            codes.insert(last, code)
            last += 1
    return codes
