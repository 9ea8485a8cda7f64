"""Files by content: stored under their SHA-256, checked whenever they are read."""

import hashlib
from contextlib import suppress
from datetime import datetime
from uuid import uuid4

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.utils import timezone

from shopfloor.documents.models import StoredFile


class FileAltered(Exception):
    """The bytes on the shelf are not the bytes that were stored."""

    def __init__(self, sha256: str, found: str) -> None:
        super().__init__(
            f"The stored file {sha256[:12]}… {found}. Do not use any copy of it. "
            "Tell who runs the site: the file has to come back from a backup."
        )


def store(data: bytes, media_type: str, at: datetime | None = None) -> StoredFile:
    """Keep `data`, once. Belongs in the caller's transaction, with the caller's event."""
    sha256 = shelve(data)
    defaults = {"size": len(data), "media_type": media_type, "stored_at": at or timezone.now()}
    return StoredFile.objects.get_or_create(sha256=sha256, defaults=defaults)[0]


def shelve(data: bytes) -> str:
    """Put the bytes on the shelf, without a row, and return their SHA-256. Raises FileAltered where they stand damaged."""
    sha256 = hashlib.sha256(data).hexdigest()
    with suppress(FileExistsError):  # stored before, or by somebody else just now
        if not default_storage.exists(_place(sha256)):
            default_storage.save(_place(sha256), ContentFile(data))
    read_by_hash(sha256)
    return sha256


def read(file: StoredFile) -> bytes:
    return read_by_hash(file.sha256)


def read_by_hash(sha256: str) -> bytes:
    try:
        with default_storage.open(_place(sha256)) as shelf:
            data = bytes(shelf.read())
    except FileNotFoundError:
        raise FileAltered(sha256, "is missing") from None
    if hashlib.sha256(data).hexdigest() != sha256:
        raise FileAltered(sha256, "has been altered")
    return data


def _place(sha256: str) -> str:
    return f"{sha256[:2]}/{sha256}"


def can_store() -> bool:
    """Write a small file, read it back, delete it."""
    name, probe = f".probe/{uuid4().hex}", b"probe"
    default_storage.save(name, ContentFile(probe))
    try:
        with default_storage.open(name) as shelf:
            return bool(shelf.read() == probe)
    finally:
        default_storage.delete(name)
