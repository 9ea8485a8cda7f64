"""Whatever a zip claims, nothing leaves its folder, nothing swells, nothing unknown comes in."""

import io
import stat
import struct
import zipfile

import pytest

from engines.packs.reading import PackMistakes, open_zip
from engines.packs.reading.zips import MOST_BYTES
from tests.pack_files import zip_of


def wrong_with(content):
    with pytest.raises(PackMistakes) as raised:
        open_zip(content, "sent.zip")
    (mistake,) = raised.value.mistakes
    assert mistake.file == "sent.zip"
    return mistake.wrong


def zip_with(*entries):
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for entry, content in entries:
            archive.writestr(entry, content)
    return packed.getvalue()


def link(name, target):
    entry = zipfile.ZipInfo(name)
    entry.create_system, entry.external_attr = 3, (stat.S_IFLNK | 0o777) << 16
    return zip_with((entry, target))


def renamed(old, new):
    """A zip whose entry got a name of equal length that Python itself would not write."""
    assert len(old) == len(new)
    return zip_of({old.decode(): "x"}).replace(old, new)


@pytest.mark.parametrize(
    "name", ["../pack.yaml", "a/../../pack.yaml", "/etc/pack.yaml", "C:/pack.yaml", "a\\pack.yaml", "..\\pack.yaml"]
)
def test_a_path_that_leads_out_is_refused(name):
    assert "a path that leads out of the folder" in wrong_with(zip_of({name: "x"}))


def test_a_name_cut_by_a_nought_is_refused():
    assert "a path that leads out of the folder" in wrong_with(renamed(b"pack.yaml.exe", b"pack.yaml\0exe"))


def test_a_link_is_refused():
    assert "which is a link or a device" in wrong_with(link("pack.yaml", "/etc/passwd"))


def test_the_same_name_twice_is_refused():
    with pytest.warns(UserWarning, match="Duplicate name"):
        content = zip_with(("pack.yaml", "x"), ("pack.yaml", "y"))
    assert wrong_with(content) == "holds “pack.yaml” twice"
    assert wrong_with(zip_of({"pack.yaml": "x", "PACK.yaml": "y"})) == "holds “PACK.yaml” twice"


def test_an_encrypted_entry_is_refused():
    content = bytearray(zip_of({"pack.yaml": "x"}))
    content[content.index(b"PK\x01\x02") + 8] |= 1
    assert "which is encrypted" in wrong_with(bytes(content))


def test_an_unusual_method_is_refused():
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_LZMA) as archive:
        archive.writestr("pack.yaml", "x")
    assert "packed by an unusual method" in wrong_with(packed.getvalue())


def test_too_many_entries_are_refused():
    assert wrong_with(zip_of({f"{number}.csv": "x" for number in range(201)})) == "holds 201 entries"


def test_a_file_that_swells_is_refused():
    assert wrong_with(zip_of({"pack.yaml": b"\0" * 5_000_000})) == "holds “pack.yaml”, which swells beyond measure"


def test_the_total_is_counted_while_it_is_unpacked():
    piece = bytes(range(256)) * 4096  # 1 MB that packs no better than 200 to 1
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as archive:
        for number in range(MOST_BYTES // len(piece) + 1):
            archive.writestr(f"{number}.csv", piece)
    assert wrong_with(packed.getvalue()) == "holds more than 20 MB when unpacked"


def test_a_size_that_lies_does_not_help():
    content = bytearray(zip_of({"pack.yaml": b"\0" * 5_000_000}))
    for signature, offset in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        at = content.index(signature) + offset
        content[at : at + 4] = struct.pack("<I", 10)
    assert wrong_with(bytes(content)) == "is not a sound zip file"


@pytest.mark.parametrize(
    "content",
    [b"", b"PK\x03\x04", b"line,part_number\n", zip_of({"pack.yaml": "x" * 999})[:-30]],
    ids=["empty", "only its first letters", "a table", "cut short"],  # a zip holds the time, so its bytes name no test
)
def test_what_is_no_zip_is_refused(content):
    assert wrong_with(content) == "is not a sound zip file"


def test_a_damaged_file_is_refused():
    content = bytearray(zip_with((zipfile.ZipInfo("pack.yaml"), "model: T2-90")))
    content[content.index(b"T2-90")] ^= 1
    assert wrong_with(bytes(content)) == "is not a sound zip file"
