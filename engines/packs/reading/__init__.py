"""Engine data packs as files: a folder or a zip of it in, plain values or every mistake out. No database, no Django."""

from engines.packs.reading.added import read_added
from engines.packs.reading.mistakes import Mistake, PackMistakes
from engines.packs.reading.packing import KEYS, pack_of, read_pack, read_zip
from engines.packs.reading.zips import open_zip

__all__ = ["KEYS", "Mistake", "PackMistakes", "open_zip", "pack_of", "read_added", "read_pack", "read_zip"]
