"""Photos as they may be kept: decoded, turned upright, stripped of everything but the picture, and encoded anew."""

import io
import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime

from PIL import Image, ImageFile, ImageOps, UnidentifiedImageError

from shopfloor.documents.files import store
from shopfloor.documents.models import StoredFile

MOST_BYTES = 15 * 1024 * 1024
MOST_PIXELS = 60_000_000
LONGEST_SIDE = 2400
FORMATS = ("JPEG", "PNG", "WEBP")


class PhotoRefused(ValueError):
    """A file that cannot be kept as a photo; the sentence says what to send instead."""


def store_photo(data: bytes, *, name: str, at: datetime) -> StoredFile:
    """Keep the picture as a JPEG of at most 2400 pixels a side. Raises PhotoRefused."""
    return store(encoded_anew(data, name), "image/jpeg", at)


def encoded_anew(data: bytes, name: str) -> bytes:
    if len(data) > MOST_BYTES:
        raise PhotoRefused(f"{name} is larger than 15 MB. Take the photo at a lower resolution.")
    try:
        with _whole_pictures_only():
            picture = Image.open(io.BytesIO(data), formats=FORMATS)
            if picture.width * picture.height > MOST_PIXELS:
                raise PhotoRefused(f"{name} has more than 60 million pixels. Take the photo at a lower resolution.")
            return _jpeg(ImageOps.exif_transpose(picture))
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, Image.DecompressionBombError, Warning) as error:
        if isinstance(error, PhotoRefused):
            raise
        raise PhotoRefused(f"{name} is no photo that can be read. Send a JPEG, PNG or WebP picture.") from None


_one_at_a_time = threading.Lock()


@contextmanager
def _whole_pictures_only() -> Iterator[None]:
    """Other libraries of the process let Pillow fill in what a torn picture lacks; evidence must not be filled in."""
    with _one_at_a_time, warnings.catch_warnings():
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        before, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
        try:
            yield
        finally:
            ImageFile.LOAD_TRUNCATED_IMAGES = before


def _jpeg(picture: Image.Image) -> bytes:
    flat = Image.new("RGB", picture.size, "white")
    opaque = picture.convert("RGBA")
    flat.paste(opaque, mask=opaque.getchannel("A"))
    flat.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    out = io.BytesIO()
    flat.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue()
