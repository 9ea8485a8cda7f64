"""Engine data packs as files again: what the reader makes of them is the same pack, to its last sign. No database, no Django."""

from engines.packs.writing.packing import files_of, route_of
from engines.packs.writing.yaml_text import entry_text

__all__ = ["entry_text", "files_of", "route_of"]
