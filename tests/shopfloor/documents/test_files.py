"""Files by their hash: stored once, whole, never written over, checked on every reading."""

import hashlib
from pathlib import Path

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import DatabaseError, transaction

from shopfloor.documents import files
from shopfloor.documents.models import StoredFile

pytestmark = pytest.mark.django_db

# FIPS 180-4 example, message "abc" (NIST, Secure Hash Standard, appendix examples).
ABC = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def on_disk(file) -> Path:
    return Path(default_storage.path(f"{file.sha256[:2]}/{file.sha256}"))


def test_a_file_is_named_by_its_hash():
    file = files.store(b"abc", "text/plain")
    assert (file.sha256, file.size, file.media_type) == (ABC, 3, "text/plain")
    assert files.read(file) == b"abc"
    assert on_disk(file).read_bytes() == b"abc"


def test_the_same_bytes_are_stored_once():
    assert files.store(b"abc", "text/plain").pk == files.store(b"abc", "text/plain").pk
    assert StoredFile.objects.count() == 1


def test_nothing_is_left_beside_the_file():
    file = files.store(b"abc", "text/plain")
    assert list(on_disk(file).parent.iterdir()) == [on_disk(file)]


@pytest.mark.parametrize("harm", [lambda path: path.write_bytes(b"abd"), lambda path: path.write_bytes(b""), Path.unlink])
def test_altered_cut_or_missing_bytes_are_never_given_out(harm):
    file = files.store(b"abc", "text/plain")
    harm(on_disk(file))
    with pytest.raises(files.FileAltered, match="Do not use any copy"):
        files.read(file)


def test_a_damaged_file_is_not_taken_for_a_stored_one():
    file = files.store(b"abc", "text/plain")
    on_disk(file).write_bytes(b"abd")
    with pytest.raises(files.FileAltered, match="has been altered"):
        files.store(b"abc", "text/plain")
    assert on_disk(file).read_bytes() == b"abd"


def test_the_shelf_refuses_to_write_over():
    default_storage.save("ab/same", ContentFile(b"first"))
    with pytest.raises(FileExistsError):
        default_storage.save("ab/same", ContentFile(b"second"))
    assert Path(default_storage.path("ab/same")).read_bytes() == b"first"


def test_a_write_that_breaks_leaves_nothing(monkeypatch):
    def break_off(handle):
        raise OSError("no space left")

    monkeypatch.setattr("shopfloor.documents.storage.os.fsync", break_off)
    with pytest.raises(OSError, match="no space left"):
        files.store(b"abc", "text/plain")
    assert not default_storage.exists(f"{ABC[:2]}/{ABC}")
    assert list(Path(default_storage.path(ABC[:2])).iterdir()) == []


@pytest.mark.parametrize("act", [lambda rows: rows.update(size=4), lambda rows: rows.delete()])
def test_the_row_of_a_file_cannot_be_changed(act):
    files.store(b"abc", "text/plain")
    with pytest.raises(DatabaseError), transaction.atomic():
        act(StoredFile.objects.all())


def test_the_hash_is_the_standard_one():
    data = bytes(range(256)) * 5000
    assert files.store(data, "application/octet-stream").sha256 == hashlib.sha256(data).hexdigest()
