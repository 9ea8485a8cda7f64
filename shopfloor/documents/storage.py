"""A folder of files that are written whole or not at all, and never written over."""

import os
from pathlib import Path
from uuid import uuid4

from django.core.files.base import File
from django.core.files.storage import FileSystemStorage


class SealedFolder(FileSystemStorage):
    def get_available_name(self, name: str, max_length: int | None = None) -> str:
        return name

    def _save(self, name: str, content: "File[bytes]") -> str:
        place = Path(self.path(name))
        place.parent.mkdir(parents=True, exist_ok=True)
        draft = place.with_name(f".{place.name}.{uuid4().hex}")
        try:
            _write_through(draft, content)
            os.link(draft, place)  # refuses where a rename would replace
        finally:
            draft.unlink(missing_ok=True)
        _sync_folder(place.parent)
        return name


def _write_through(path: Path, content: "File[bytes]") -> None:
    with path.open("xb") as target:
        for chunk in content.chunks():
            target.write(chunk)
        target.flush()
        os.fsync(target.fileno())


def _sync_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
