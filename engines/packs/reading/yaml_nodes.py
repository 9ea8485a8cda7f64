"""YAML as nodes that know their lines: plain lists, mappings and scalars only."""

from typing import Any

import yaml
from yaml.nodes import MappingNode, Node

from engines.packs.reading.mistakes import Notes

DEEPEST = 12
MOST_EVENTS = 100_000
OPENING = (yaml.MappingStartEvent, yaml.SequenceStartEvent)
# The reader in C where PyYAML has it; what it refuses is read again by the one in Python, whose errors are worded the same
# everywhere.
QUICK = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
CLOSING = (yaml.MappingEndEvent, yaml.SequenceEndEvent)


def root_of(text: str, file: str, notes: Notes) -> Node | None:
    """The one document of the file; None, and a note, where it cannot be used."""
    before = len(notes)
    try:
        found = Notes()
        node = _composed(text, file, found, QUICK)
        notes += found
    except yaml.YAMLError:
        node = _or_its_error(text, file, notes)
    if node is None and len(notes) == before:
        notes.say(file, 1, "the file is empty", "write the pack down in it")
    return node


def _or_its_error(text: str, file: str, notes: Notes) -> Node | None:
    try:
        return _composed(text, file, notes, yaml.SafeLoader)
    except yaml.reader.ReaderError as error:
        notes.say(file, text.count("\n", 0, error.position) + 1, "a sign that YAML does not allow", "take it out")
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        notes.say(
            file, mark.line + 1 if mark else None, f"not YAML: {error.problem}", "check indents, colons and quotation marks"
        )
    return None


def _composed(text: str, file: str, notes: Notes, loader: Any) -> Node | None:
    """Anchors, aliases, tags and deep nests are refused before anything is built of them. Raises YAMLError."""
    before = len(notes)
    _look_through(text, file, notes, loader)
    return None if len(notes) > before else yaml.compose(text, Loader=loader)


def _look_through(text: str, file: str, notes: Notes, loader: Any) -> None:
    depth = 0
    for count, event in enumerate(yaml.parse(text, Loader=loader)):
        line = event.start_mark.line + 1 if event.start_mark else None
        depth += isinstance(event, OPENING) - isinstance(event, CLOSING)
        if getattr(event, "anchor", None):
            notes.say(file, line, "anchors and aliases (& and *) are not used", "write the value out where it is wanted")
        if getattr(event, "tag", None):
            notes.say(file, line, "tags (!) are not used", "write the plain value")
        if depth > DEEPEST or count > MOST_EVENTS:
            notes.say(file, line, "the file nests too deep or is too long", "keep to the plain form of a pack")
            return


def line_of(node: Node) -> int:
    return int(node.start_mark.line) + 1


def members(node: MappingNode) -> list[tuple[str, Node, Node]]:
    """(key as typed, its node, the node of its value) in order; a key that is no text is blank."""
    return [(key.value if isinstance(key, yaml.ScalarNode) else "", key, value) for key, value in node.value]
