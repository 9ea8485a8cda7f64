"""A zip that somebody sent: opened in memory, nothing in it trusted."""

import io
import stat
import zlib
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, LargeZipFile, ZipFile, ZipInfo

from engines.packs.reading.mistakes import Notes, PackMistakes, quoted

MOST_BYTES = 20 * 1024 * 1024
MOST_FILES = 200
MOST_RATIO = 200
RATIO_FROM = 256 * 1024
CHUNK = 64 * 1024
ENCRYPTED = 0x1
UNREADABLE = (BadZipFile, LargeZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError, ValueError)


def open_zip(content: bytes, name: str = "the zip") -> dict[str, bytes]:
    """Every file of the zip by its name, a single folder around all of them taken away. Raises PackMistakes."""
    try:
        with ZipFile(io.BytesIO(content)) as archive:
            entries = _entries(archive, name)
            return _without_folder(_unpacked(archive, entries, name))
    except UNREADABLE as error:
        raise _refusal(name, "is not a sound zip file", "pack the folder again as an ordinary zip") from error


def _entries(archive: ZipFile, name: str) -> list[ZipInfo]:
    entries = archive.infolist()
    if len(entries) > MOST_FILES:
        raise _refusal(name, f"holds {len(entries)} entries", f"a pack holds four files; at most {MOST_FILES} are looked at")
    notes, seen = Notes(), set()
    for entry in entries:
        for wrong, right in _faults(entry):
            notes.say(name, None, f"holds {quoted(entry.orig_filename)}, {wrong}", right)
        if entry.filename.casefold() in seen:
            notes.say(name, None, f"holds {quoted(entry.filename)} twice", "every file stands in it once")
        seen.add(entry.filename.casefold())
    if notes:
        raise PackMistakes(notes)
    return [entry for entry in entries if not entry.is_dir()]


def _faults(entry: ZipInfo) -> list[tuple[str, str]]:
    path, faults = entry.orig_filename, []
    if path.startswith("/") or ":" in path or "\\" in path or "\0" in path or ".." in path.split("/"):
        faults.append(("a path that leads out of the folder", "pack the folder itself, with plain file names"))
    mode = entry.external_attr >> 16
    if stat.S_IFMT(mode) and not (stat.S_ISREG(mode) or stat.S_ISDIR(mode)):
        faults.append(("which is a link or a device", "put the file itself in its place"))
    if entry.flag_bits & ENCRYPTED:
        faults.append(("which is encrypted", "pack it without a password"))
    if entry.compress_type not in (ZIP_STORED, ZIP_DEFLATED):
        faults.append(("packed by an unusual method", "pack the folder again as an ordinary zip"))
    return faults


def _unpacked(archive: ZipFile, entries: list[ZipInfo], name: str) -> dict[str, bytes]:
    files: dict[str, bytes] = {}
    left = MOST_BYTES
    for entry in entries:
        content = _content(archive, entry, left, name)
        left -= len(content)
        files[entry.filename] = content
    return files


def _content(archive: ZipFile, entry: ZipInfo, most: int, name: str) -> bytes:
    """What comes out is counted, whatever the directory of the zip claims."""
    unpacked = bytearray()
    with archive.open(entry) as packed:
        while chunk := packed.read(CHUNK):
            unpacked += chunk
            if len(unpacked) > most:
                raise _refusal(name, "holds more than 20 MB when unpacked", "a pack is a few small text files")
            if len(unpacked) > RATIO_FROM and len(unpacked) > MOST_RATIO * max(1, entry.compress_size):
                raise _refusal(name, f"holds {quoted(entry.filename)}, which swells beyond measure", "send plain text files")
    return bytes(unpacked)


def _without_folder(files: dict[str, bytes]) -> dict[str, bytes]:
    folders = {path.partition("/")[0] for path in files}
    if len(folders) != 1 or not all("/" in path for path in files):
        return files
    return {path.partition("/")[2]: content for path, content in files.items()}


def _refusal(name: str, wrong: str, right: str) -> PackMistakes:
    notes = Notes()
    notes.say(name, None, wrong, right)
    return PackMistakes(notes)
