"""Plain values as YAML that the reader of packs takes: no anchors, no tags, every text a text."""

from collections.abc import Mapping, Sequence
from typing import Any

import yaml
from yaml.nodes import ScalarNode

WIDTH = 120
OTHER_BREAKS = frozenset("\x85\u2028\u2029")  # YAML folds them like line breaks unless they are escaped


class _Writer(yaml.SafeDumper):
    def ignore_aliases(self, data: Any) -> bool:
        return True


def _text(writer: yaml.SafeDumper, text: str) -> ScalarNode:
    """Several lines stand as such; how else a text is quoted is left to PyYAML, which knows what it would read."""
    style = '"' if OTHER_BREAKS & set(text) else "|" if "\n" in text else None
    return writer.represent_scalar("tag:yaml.org,2002:str", text, style=style)


_Writer.add_representer(str, _text)
_Writer.add_representer(tuple, lambda writer, value: writer.represent_list(list(value)))


def yaml_of(value: Mapping[str, Any] | Sequence[Any]) -> str:
    return str(yaml.dump(value, Dumper=_Writer, sort_keys=False, allow_unicode=True, width=WIDTH, default_flow_style=False))


def entry_text(entry: Mapping[str, Any]) -> str:
    """One entry of a list, with its dash; what is blank, empty or false is left out."""
    return yaml_of([{name: value for name, value in entry.items() if value}])
