"""route.yaml: the operations."""

from engines.catalogue.data import REASONS, SCOPES, STAGES, Operation
from engines.packs.reading.details import details_of
from engines.packs.reading.draft import Draft, Placed
from engines.packs.reading.entries import CITED, Entry, entries_of
from engines.packs.reading.mistakes import ROUTE, Notes
from engines.packs.reading.yaml_nodes import root_of
from engines.steps.registry import STEPS

KEYS = (
    *("code", "area", "stage", "kind", "title", "words", "names", "after", "hold_point"),
    *("scopes", "reasons", "criterion", "caution", "finds", "details", *CITED),
)
TITLE, WORDS, CRITERION = 200, 4000, 1000


def read_route(text: str, draft: Draft, notes: Notes) -> None:
    root = root_of(text, ROUTE, notes)
    before = len(notes)
    if root is None:
        return
    for entry in entries_of(root, "the route", ROUTE, KEYS, notes):
        draft.operations.append(Placed(entry.line, _operation(entry)))
    if not draft.operations and len(notes) == before:
        notes.say(ROUTE, 1, "the route has no operations", "list at least one")


def _operation(entry: Entry) -> Operation:
    kind = entry.word("kind", STEPS)
    return Operation(
        code=entry.text("code"),
        area=entry.text("area"),
        stage=entry.word("stage", STAGES),
        kind=kind,
        title=entry.text("title", TITLE),
        words=entry.text("words", WORDS, needed=False),
        names=entry.texts("names"),
        after=entry.texts("after"),
        hold_point=entry.flag("hold_point"),
        scopes=entry.texts("scopes", SCOPES),
        reasons=entry.texts("reasons", REASONS),
        criterion=entry.text("criterion", CRITERION, needed=kind in STEPS and STEPS[kind].judged_by_words),
        caution=entry.text("caution", needed=False),
        finds=entry.word("finds", REASONS, blank=""),
        details=details_of(entry, "details"),
        source=entry.source(),
    )
