"""An entry of the route from what a person typed, field by field, as the text that the reader takes."""

from collections.abc import Mapping
from textwrap import dedent, indent
from typing import Any

from engines.packs.reading.route import KEYS
from engines.packs.writing.yaml_text import entry_text

DETAILS = "details"


def typed_entry(given: Mapping[str, Any]) -> str:
    """`given` holds texts, lists and flags by the keys of route.yaml; `details` is YAML, which stands below its key as typed."""
    text = entry_text({key: given.get(key) for key in KEYS if key != DETAILS})
    details = dedent(str(given.get(DETAILS) or "").replace("\r\n", "\n").expandtabs(4)).strip("\n")
    return f"{text}  {DETAILS}:\n{indent(details, '    ')}\n" if details.strip() else text
