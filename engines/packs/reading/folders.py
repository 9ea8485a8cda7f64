"""A folder on this machine as the same mapping that a zip gives."""

from pathlib import Path

from engines.packs.reading.mistakes import Notes, PackMistakes, quoted
from engines.packs.reading.zips import MOST_BYTES, MOST_FILES


def open_folder(folder: Path) -> dict[str, bytes]:
    """Every file below the folder by its path from there. Raises PackMistakes for links and for what is too large."""
    paths = sorted(path for path in folder.rglob("*") if path.is_symlink() or not path.is_dir())
    notes = Notes()
    for path in paths:
        if path.is_symlink() or not path.is_file():
            shown = quoted(path.relative_to(folder).as_posix())
            notes.say(folder.name, None, f"holds {shown}, which is a link or a device", "put the file itself in its place")
    if len(paths) > MOST_FILES:
        notes.say(folder.name, None, f"holds {len(paths)} files", "a pack holds four files; put the rest elsewhere")
    elif not notes and sum(path.stat().st_size for path in paths) > MOST_BYTES:
        notes.say(folder.name, None, "holds more than 20 MB", "a pack is a few small text files")
    if notes:
        raise PackMistakes(notes)
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}
