"""Where each operation of the text begins and ends, and the text with one of them changed."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from textwrap import indent

from yaml.nodes import MappingNode, Node, SequenceNode

from engines.packs.reading.mistakes import ROUTE, Notes, PackMistakes
from engines.packs.reading.yaml_nodes import root_of
from engines.packs.writing.yaml_text import OTHER_BREAKS

COMMENT = "#"


@dataclass(frozen=True)
class Route:
    """`head` stands before the first operation; `blocks` are the lines of each, with the comment right above it.

    `column` is how far the dashes are indented.
    """

    head: str
    blocks: tuple[str, ...]
    column: int = 0

    @property
    def text(self) -> str:
        return self.head + "".join(self.blocks)

    @property
    def starts(self) -> list[int]:
        """The number of the first line of each operation."""
        lines, starts = self.head.count("\n") + 1, []
        for block in self.blocks:
            starts.append(lines)
            lines += block.count("\n")
        return starts

    def with_entry(self, place: int, entry: str) -> "Route":
        """The operation at that place is the given one; comments above and blank lines below it stay."""
        block = self.blocks[place]
        above, below = _comments_above(block), _rest_below(block)
        return self._with([*self.blocks[:place], above + self._indented(entry) + below, *self.blocks[place + 1 :]])

    def with_more(self, place: int, entry: str) -> "Route":
        """One more operation, before the one at that place; a place beyond the last is the end."""
        return self._with([*self.blocks[:place], self._indented(entry) + "\n", *self.blocks[place:]])

    def without(self, place: int) -> "Route":
        return self._with([*self.blocks[:place], *self.blocks[place + 1 :]])

    def moved(self, place: int, to: int) -> "Route":
        rest = [*self.blocks[:place], *self.blocks[place + 1 :]]
        return self._with([*rest[:to], self.blocks[place], *rest[to:]])

    def _indented(self, entry: str) -> str:
        return indent(entry.rstrip("\n") + "\n", " " * self.column)

    def _with(self, blocks: Sequence[str]) -> "Route":
        """Each block ends its line, so that another can follow it. Raises PackMistakes where they no longer stand apart."""
        ended = tuple(block if block.endswith("\n") else block + "\n" for block in blocks)
        head = self.head if not self.head or self.head.endswith("\n") else self.head + "\n"
        made = replace(self, head=head, blocks=ended)
        if len(cut(made.text).blocks) != len(ended):
            raise _no_list(1, "an operation runs into the next one", "close its quotation marks and brackets")
        return made


def cut(text: str) -> Route:
    """Raises PackMistakes where the text is no list of entries that each begin with a dash on a line of their own."""
    if not any(line.strip() and not line.startswith(COMMENT) for line in text.splitlines()):
        return Route(text, ())
    if odd := OTHER_BREAKS & set(text):
        line = text.count("\n", 0, min(map(text.index, odd))) + 1
        raise _no_list(line, "there is a line break that is no plain one", "take it out, or escape it in quotation marks")
    notes = Notes()
    root = root_of(text, ROUTE, notes)
    if notes:
        raise PackMistakes(notes)
    if not isinstance(root, SequenceNode) or root.flow_style:
        raise _no_list(1, "the route is no list", "begin each operation with a dash on a line of its own")
    return _cut_at(text, root)


def _cut_at(text: str, root: SequenceNode) -> Route:
    lines, column = text.splitlines(keepends=True), int(root.start_mark.column)
    starts: list[int] = []
    for node in root.value:
        if not isinstance(node, MappingNode):
            raise _no_list(
                int(node.start_mark.line) + 1, "an entry of the route is no mapping", "write its keys with their values"
            )
        starts.append(_begin(lines, node, column, starts[-1] + 1 if starts else 0))
    ends = [*starts[1:], len(lines)]
    head = "".join(lines[: starts[0]])
    return Route(head, tuple("".join(lines[start:end]) for start, end in zip(starts, ends, strict=True)), column)


def _begin(lines: Sequence[str], node: Node, column: int, least: int) -> int:
    """The line of the dash, or of the first comment right above it; what stands above the first of all is the head."""
    line = int(node.start_mark.line)
    while line > least and not lines[line][column:].startswith("-"):
        line -= 1
    while line - 1 >= least > 0 and lines[line - 1].startswith(COMMENT):
        line -= 1
    return line


def _comments_above(block: str) -> str:
    above = []
    for line in block.splitlines(keepends=True):
        if not line.startswith(COMMENT):
            break
        above.append(line)
    return "".join(above)


def _rest_below(block: str) -> str:
    """Blank lines, and comments that stand apart."""
    below: list[str] = []
    for line in reversed(block.splitlines(keepends=True)):
        if line.strip() and not line.startswith(COMMENT):
            break
        below.insert(0, line)
    return "".join(below)


def _no_list(line: int, wrong: str, right: str) -> PackMistakes:
    notes = Notes()
    notes.say(ROUTE, line, wrong, right)
    return PackMistakes(notes)
