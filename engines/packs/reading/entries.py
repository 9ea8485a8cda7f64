"""One entry of a YAML file as fields."""

from collections.abc import Collection, Iterator

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from engines.packs.reading.fields import Fields
from engines.packs.reading.mistakes import Notes, quoted
from engines.packs.reading.yaml_nodes import line_of, members

NULL, FLAG = "tag:yaml.org,2002:null", "tag:yaml.org,2002:bool"
FLAGS = {"true": True, "yes": True, "on": True, "false": False, "no": False, "off": False}
CITED = ("document", "revision", "page")


class Entry(Fields):
    """A mapping whose keys are known. Numbers are taken as typed; true, false and nothing are no text."""

    def __init__(self, file: str, node: MappingNode, known: Collection[str], notes: Notes) -> None:
        super().__init__(file, line_of(node), notes)
        self._nodes: dict[str, Node] = {}
        for key, key_node, value in members(node):
            if key not in known:
                notes.say(file, line_of(key_node), f"the key {quoted(key)} is not known", f"the keys are {', '.join(known)}")
            elif key in self._nodes:
                notes.say(file, line_of(key_node), f"the key {key} stands there twice", "keep one of them")
            else:
                self._nodes[key] = value

    def line_of(self, name: str) -> int:
        return line_of(self._nodes[name]) if name in self._nodes else self.line

    def node(self, name: str) -> Node | None:
        return self._nodes.get(name)

    def typed(self, name: str) -> str:
        return self._scalar(name, self._nodes[name]) if name in self._nodes else ""

    def listed(self, name: str) -> list[str]:
        node = self._nodes.get(name)
        if node is None:
            return []
        if not isinstance(node, SequenceNode):
            self.say(name, f"{name} is no list", f"write {name}: [one, another]")
            return []
        return [self._scalar(name, each) for each in node.value]

    def flag(self, name: str, *, blank: bool = False) -> bool:
        node = self._nodes.get(name)
        if node is None:
            return blank
        if not isinstance(node, ScalarNode) or node.tag != FLAG:
            self.say(name, f"{name} is neither true nor false", f"write {name}: true, or leave it out")
            return blank
        return FLAGS[node.value.lower()]

    def entries(self, name: str, known: Collection[str]) -> Iterator["Entry"]:
        if name in self._nodes:
            yield from entries_of(self._nodes[name], name, self.file, known, self.notes)

    def _scalar(self, name: str, node: Node) -> str:
        if not isinstance(node, ScalarNode):
            self.say(name, f"{name} holds a list or a mapping where text is wanted", "write one plain text")
            return ""
        if node.tag in (NULL, FLAG) and node.value:
            self.say(name, f"{name} {quoted(node.value)} is no text in YAML", "put it into quotation marks")
        return str(node.value)


def entries_of(node: Node, name: str, file: str, known: Collection[str], notes: Notes) -> Iterator[Entry]:
    """Each mapping of a list; anything else is noted."""
    if not isinstance(node, SequenceNode):
        notes.say(file, line_of(node), f"{name} is no list", "begin each entry with a dash")
        return
    for each in node.value:
        if isinstance(each, MappingNode):
            yield Entry(file, each, known, notes)
        else:
            notes.say(file, line_of(each), f"an entry of {name} is no mapping", f"write its keys: {', '.join(known)}")
