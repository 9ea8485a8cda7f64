"""An operation of the text as the fields of a form."""

from textwrap import dedent
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from engines.packs.reading.entries import FLAG, FLAGS
from engines.packs.reading.mistakes import ROUTE, Notes
from engines.packs.reading.route import KEYS
from engines.packs.reading.yaml_nodes import line_of, members, root_of
from engines.packs.writing.typed import DETAILS

LISTS = ("names", "after", "scopes", "reasons")
YES = "hold_point"


def fields_of(block: str) -> dict[str, Any] | None:
    """By the keys of route.yaml, `details` as YAML; None where a form would lose something, such as a key not known."""
    root = root_of(block, ROUTE, Notes())
    node = root.value[0] if isinstance(root, SequenceNode) and len(root.value) == 1 else None
    if not isinstance(node, MappingNode):
        return None
    keys = [key for key, _, _ in members(node)]
    if len(set(keys)) < len(keys) or not set(keys) <= set(KEYS):
        return None
    found = {key: _value(key, value, block, line_of(at)) for key, at, value in members(node)}
    return None if None in found.values() else found


def _value(key: str, node: Node, block: str, line: int) -> Any:
    if key == DETAILS:
        return _source(node, block, line)
    if key in LISTS:
        return _texts(node)
    if not isinstance(node, ScalarNode):
        return None
    if key == YES:
        return FLAGS[node.value.lower()] if node.tag == FLAG else None
    return str(node.value)


def _texts(node: Node) -> list[str] | None:
    if not isinstance(node, SequenceNode) or not all(isinstance(each, ScalarNode) for each in node.value):
        return None
    texts = [str(each.value) for each in node.value]
    return None if any("\n" in text for text in texts) else texts


def _source(node: Node, block: str, line: int) -> str:
    """The very lines below the key, comments too, without what all of them are indented by; `line` is that of the key."""
    start, end = node.start_mark, node.end_mark
    lines = block.splitlines()
    if end.line < len(lines):
        lines[end.line] = lines[end.line][: end.column]
    if start.line + 1 == line:
        lines[start.line] = " " * start.column + lines[start.line][start.column :]
    return dedent("\n".join(lines[min(start.line, line) : end.line + 1]).rstrip() + "\n").rstrip()
