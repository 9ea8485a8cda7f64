"""Photos are encoded anew; what is no photo is refused with a word on what to send."""

import io
import struct
import zlib

import pytest
from PIL import Image

from shopfloor.documents.photos import PhotoRefused, encoded_anew


def picture(format="PNG", size=(40, 20), **options):
    out = io.BytesIO()
    Image.new("RGB", size, "navy").save(out, format, **options)
    return out.getvalue()


@pytest.mark.parametrize("format", ["PNG", "JPEG", "WEBP"])
def test_a_photo_becomes_a_plain_jpeg(format):
    kept = Image.open(io.BytesIO(encoded_anew(picture(format), "photo")))
    assert (kept.format, kept.size) == ("JPEG", (40, 20))


def test_the_place_where_it_was_taken_is_not_kept_and_it_stands_upright():
    exif = Image.Exif()
    exif[0x0112], exif[0x010E] = 6, "hidden words"
    kept = encoded_anew(picture("JPEG", exif=exif), "photo.jpg")
    assert b"hidden words" not in kept
    assert Image.open(io.BytesIO(kept)).size == (20, 40)


def test_bytes_behind_the_picture_are_dropped():
    assert b"<script>" not in encoded_anew(picture() + b"<script>alert(1)</script>", "photo.png")


def test_a_large_photo_is_made_smaller():
    assert max(Image.open(io.BytesIO(encoded_anew(picture(size=(5000, 100)), "wide.png"))).size) == 2400


def bomb():
    """A PNG of a few bytes that claims 100,000 by 100,000 pixels."""
    header = struct.pack(">IIBBBBB", 100_000, 100_000, 8, 2, 0, 0, 0)
    chunk = b"IHDR" + header
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + chunk + struct.pack(">I", zlib.crc32(chunk))


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("drawing.svg", b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'),
        ("moving.gif", picture("GIF")),
        ("torn.png", picture(size=(400, 400))[:60]),
        ("empty.png", b""),
        ("page.html", b"<html>"),
        ("bomb.png", bomb()),
        ("huge.png", b"\x89PNG" + b"0" * 16_000_000),
    ],
)
def test_what_is_no_photo_is_refused_by_name(name, data):
    with pytest.raises(PhotoRefused, match=name):
        encoded_anew(data, name)
