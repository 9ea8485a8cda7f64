"""From files to a pack: read all, check all, and only then give it out."""

from pathlib import Path

from engines.catalogue.data import PackData
from engines.packs.reading.checks import CHECKS
from engines.packs.reading.draft import Draft
from engines.packs.reading.folders import open_folder
from engines.packs.reading.head import KEYS as HEAD_KEYS
from engines.packs.reading.head import LISTS as ENTRIES
from engines.packs.reading.head import read_head
from engines.packs.reading.limits import OPTIONAL, REQUIRED, read_limits
from engines.packs.reading.mistakes import LIMITS, PACK, PARTS, ROUTE, Notes, PackMistakes
from engines.packs.reading.parts import COLUMNS as PART_COLUMNS
from engines.packs.reading.parts import read_parts
from engines.packs.reading.route import KEYS as OPERATION_KEYS
from engines.packs.reading.route import read_route
from engines.packs.reading.texts import texts_of
from engines.packs.reading.zips import open_zip

KEYS = {
    PACK: HEAD_KEYS,
    **{f"{name} in {PACK}": keys for name, keys in ENTRIES.items()},
    PARTS: PART_COLUMNS,
    ROUTE: OPERATION_KEYS,
    LIMITS: REQUIRED + OPTIONAL,
}
READERS = {PACK: read_head, PARTS: read_parts, ROUTE: read_route, LIMITS: read_limits}


def read_pack(path: Path) -> PackData:
    """The pack in a folder or a zip. Raises PackMistakes with all that is wrong, and OSError where nothing can be read."""
    if path.is_dir():
        return pack_of(open_folder(path))
    return read_zip(path.read_bytes(), path.name)


def read_zip(content: bytes, name: str = "the zip") -> PackData:
    """The pack in a zip that was sent. Raises PackMistakes."""
    return pack_of(open_zip(content, name))


def pack_of(files: dict[str, bytes]) -> PackData:
    """The pack that the files hold. Raises PackMistakes."""
    notes, draft = Notes(), Draft()
    texts = texts_of(files, notes)
    for name, read in READERS.items():
        if name in texts:
            read(texts[name], draft, notes)
    if _whole(draft) and not notes.cut:
        for check in CHECKS:
            notes.extend(found for found in check(draft) if not notes.follows(found))
    if notes:
        raise PackMistakes(notes)
    return draft.data


def _whole(draft: Draft) -> bool:
    """Whether every file gave something; else all that is named in the others would seem to be missing."""
    return all((draft.areas, draft.lines, draft.operations, draft.limits))
