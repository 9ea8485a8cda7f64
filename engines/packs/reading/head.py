"""pack.yaml: the model, its areas, and what is said in a few entries each."""

from yaml.nodes import MappingNode

from engines.catalogue.data import Area, Caution, Directive, Pairing, RenewedSet
from engines.packs.reading.draft import Draft, Placed
from engines.packs.reading.entries import CITED, Entry
from engines.packs.reading.mistakes import PACK, Notes, quoted
from engines.packs.reading.running import HEAD as RUN_HEAD
from engines.packs.reading.running import LISTS as RUN_LISTS
from engines.packs.reading.running import read_run, run_head
from engines.packs.reading.yaml_nodes import root_of

LAYOUTS = ("opposed", "radial")
MOST_CYLINDERS = 36
HEAD = ("model", "model_name", "maker", "layout", "cylinders", "revision", "label", *RUN_HEAD)
LISTS = {
    "areas": ("code", "name", *CITED),
    "pairings": ("fit", "outer_class", "inner_class", *CITED),
    "renewed_sets": ("code", "name", "lines", *CITED),
    "cautions": ("code", "area", "words", *CITED),
    "directives": ("number", "title", *CITED),
    **RUN_LISTS,
}
KEYS = (*HEAD, *LISTS)
NAME, LABEL, WORDS = 120, 200, 2000


def read_head(text: str, draft: Draft, notes: Notes) -> None:
    root = root_of(text, PACK, notes)
    if root is None:
        return
    if not isinstance(root, MappingNode):
        notes.say(PACK, 1, "the file is no mapping", f"write its keys: {', '.join(KEYS)}")
        return
    entry = Entry(PACK, root, KEYS, notes)
    draft.head = {
        "model": entry.text("model"),
        "model_name": entry.text("model_name", NAME),
        "maker": entry.text("maker", NAME),
        "layout": entry.word("layout", LAYOUTS),
        "cylinders": _cylinders(entry),
        "revision": entry.text("revision", 40),
        "label": entry.text("label", LABEL, needed=False),
        **run_head(entry),
    }
    draft.head_lines = {name: entry.line_of(name) for name in HEAD}
    _read_lists(entry, draft)
    read_run(entry, draft)
    if not draft.areas:
        entry.say("areas", "the pack has no areas", "list at least one area")


def _cylinders(entry: Entry) -> int:
    text = entry.text("cylinders")
    if not (text.isascii() and text.isdigit() and len(text) <= 2 and 1 <= int(text) <= MOST_CYLINDERS):
        if text:
            entry.say("cylinders", f"cylinders {quoted(text)} is no count", f"write a whole number from 1 to {MOST_CYLINDERS}")
        return 0
    return int(text)


def _read_lists(head: Entry, draft: Draft) -> None:
    for each in head.entries("areas", LISTS["areas"]):
        area = Area(code=each.text("code"), name=each.text("name", NAME), source=each.source())
        draft.areas.append(Placed(each.line, area))
    for each in head.entries("pairings", LISTS["pairings"]):
        classes = {name: each.text(name, 20, needed=False) for name in ("outer_class", "inner_class")}
        draft.pairings.append(Placed(each.line, Pairing(fit=each.text("fit"), **classes, source=each.source())))
    for each in head.entries("renewed_sets", LISTS["renewed_sets"]):
        draft.renewed_sets.append(Placed(each.line, _renewed_set(each)))
    for each in head.entries("cautions", LISTS["cautions"]):
        words = each.text("words", WORDS)
        caution = Caution(code=each.text("code"), area=each.text("area"), words=words, source=each.source())
        draft.cautions.append(Placed(each.line, caution))
    for each in head.entries("directives", LISTS["directives"]):
        directive = Directive(number=each.text("number"), title=each.text("title", LABEL), source=each.source())
        draft.directives.append(Placed(each.line, directive))


def _renewed_set(entry: Entry) -> RenewedSet:
    lines = entry.texts("lines", needed=True)
    return RenewedSet(code=entry.text("code"), name=entry.text("name", NAME), lines=lines, source=entry.source())
