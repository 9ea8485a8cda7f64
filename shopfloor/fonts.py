"""The few type files the pages and papers use, found in their wheels and served without a copy."""

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import font_fjallaone
import font_source_sans_pro
from django.contrib.staticfiles.finders import BaseFinder
from django.core.files.storage import FileSystemStorage

READING = Path(font_source_sans_pro.__file__).parent / "files"
STAMP = Path(font_fjallaone.__file__).parent / "files"
FACES = {
    "FjallaOne-Regular.ttf": STAMP,
    "SourceSansPro-Regular.ttf": READING,
    "SourceSansPro-It.ttf": READING,
    "SourceSansPro-Bold.ttf": READING,
}
PREFIX = "fonts"


class FontFinder(BaseFinder):
    """Offers the faces under `fonts/`, and nothing else of the wheels."""

    def check(self, **kwargs: Any) -> list[Any]:
        """Name each face whose file is gone from its wheel."""
        from django.core.checks import Error

        missing = [name for name, folder in FACES.items() if not (folder / name).is_file()]
        return [Error(f"The type file {name} is not in its wheel; run make setup.", id="shopfloor.E010") for name in missing]

    def find(self, path: str, find_all: bool = False, **kwargs: Any) -> Any:
        """The absolute path of `fonts/<face>`, or nothing."""
        name = path.removeprefix(f"{PREFIX}/")
        found = [str(FACES[name] / name)] if path == f"{PREFIX}/{name}" and name in FACES else []
        return found if find_all else next(iter(found), [])

    def list(self, ignore_patterns: Iterable[str] | None) -> Iterator[tuple[str, FileSystemStorage]]:
        """Each face and the storage that holds it."""
        for name, folder in FACES.items():
            storage = FileSystemStorage(location=folder)
            storage.prefix = PREFIX  # type: ignore[attr-defined]
            yield name, storage
