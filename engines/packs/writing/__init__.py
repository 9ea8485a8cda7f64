"""Engine data packs as files again: what the reader makes of them is the same pack, to its last sign. No database, no Django."""

from engines.packs.writing.packing import files_of, operation_text, route_of
from engines.packs.writing.typed import typed_entry

__all__ = ["files_of", "operation_text", "route_of", "typed_entry"]
