"""The text of a route, cut at its operations: one is changed, moved or taken out, and the rest stays to the last sign.

Pure: text in, text out. What the text means is for the reader of packs alone.
"""

from engines.packs.route_text.blocks import Route, cut
from engines.packs.route_text.entries import fields_of
from engines.packs.route_text.faults import Faults, faults_of, pack_with

__all__ = ["Faults", "Route", "cut", "faults_of", "fields_of", "pack_with"]
