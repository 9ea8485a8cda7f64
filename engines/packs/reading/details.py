"""What the kind of an operation alone needs: texts, and lists and mappings of them, figures as typed."""

from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode

from engines.packs.reading.entries import FLAG, NULL, Entry
from engines.packs.reading.fields import CODE
from engines.packs.reading.mistakes import Notes, quoted
from engines.packs.reading.texts import unfit
from engines.packs.reading.yaml_nodes import line_of, members

DEEPEST, MOST, TEXT = 4, 400, 1000


def details_of(entry: Entry, name: str) -> dict[str, Any]:
    """The mapping under that key, empty where there is none; whatever cannot be kept is noted with its own line."""
    node = entry.node(name)
    if node is None:
        return {}
    if not isinstance(node, MappingNode):
        entry.say(name, f"{name} is no mapping", f"write {name} as keys with their values below it")
        return {}
    return _Reader(entry.file, entry.notes).mapping(node, 1)


class _Reader:
    """Reads one mapping to its end, and counts how much it holds."""

    def __init__(self, file: str, notes: Notes) -> None:
        self.file, self.notes, self.count = file, notes, 0

    def mapping(self, node: MappingNode, depth: int) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key, key_node, value in members(node):
            if not key or len(key) > CODE or unfit(key):
                self._say(key_node, "a key of details cannot be used", f"use at most {CODE} plain characters")
            elif key in found:
                self._say(key_node, f"the key {quoted(key)} stands there twice", "keep one of them")
            else:
                found[key] = self._value(value, depth + 1)
        return found

    def _value(self, node: Node, depth: int) -> Any:
        self.count += 1
        if self.count == MOST + 1:
            self._say(node, f"details hold more than {MOST} values", "divide the operation")
        if self.count > MOST:
            return ""
        if isinstance(node, ScalarNode):
            return self._text(node)
        if depth > DEEPEST:
            self._say(node, "details nest too deep", "keep to lists and mappings of texts")
            return ""
        if isinstance(node, MappingNode):
            return self.mapping(node, depth)
        return [self._value(each, depth + 1) for each in node.value]

    def _text(self, node: ScalarNode) -> str:
        text = str(node.value).strip()
        if node.tag in (NULL, FLAG) and text:
            self._say(node, f"{quoted(text)} is no text in YAML", "put it into quotation marks")
        elif not text:
            self._say(node, "details hold a blank", "write a text, or leave its key out")
        elif len(text) > TEXT or unfit(text):
            self._say(node, f"{quoted(text)} cannot be used", f"use at most {TEXT} plain characters")
        return text

    def _say(self, node: Node, wrong: str, right: str) -> None:
        self.notes.say(self.file, line_of(node), wrong, right)
