"""What a paper may contain: our own static files, stored files by hash, images written into the page. Nothing else."""

import mimetypes
from pathlib import Path
from urllib.parse import unquote, urlsplit

from django.contrib.staticfiles import finders
from django.core.exceptions import SuspiciousFileOperation
from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

from shopfloor.documents.files import FileAltered, read_by_hash
from shopfloor.documents.models import StoredFile

# `.invalid` belongs to nobody (RFC 2606): an address under it can only mean one of our own files.
BASE_URL = "https://main-journal.invalid/"
STATIC = "/static/"
STORED = "file-by-hash"


class _Refusal(FatalURLFetchingError):  # type: ignore[misc]
    """Stops WeasyPrint, which would leave out what it could not fetch."""


class OwnFilesOnly(URLFetcher):  # type: ignore[misc]
    """Never opens a connection nor a path given by the page. Remembers what it refused: a drawing may swallow the error."""

    def __init__(self) -> None:
        super().__init__(allowed_protocols=(), allow_redirects=False, fail_on_errors=True)
        self.refused: list[str] = []

    def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
        try:
            body, media_type = self._own(url)
        except (PermissionError, FileAltered) as error:
            self.refused.append(str(error))
            raise _Refusal(str(error)) from error
        return URLFetcherResponse(url, body, {"Content-Type": media_type})

    def _own(self, url: str) -> tuple[bytes, str]:
        parts = urlsplit(url)
        if parts.scheme == STORED:
            return _stored(parts.path)
        if url.startswith(BASE_URL) and parts.path.startswith(STATIC):
            return _static(unquote(parts.path.removeprefix(STATIC)))
        if parts.scheme == "data" and parts.path.startswith("image/"):
            response = URLFetcher(allowed_protocols=("data",)).fetch(url)
            return response.read(), response.content_type
        raise PermissionError(f"The paper asks for {url[:200]}, and a paper may only use files of its own.")


def _static(name: str) -> tuple[bytes, str]:
    try:
        found = finders.find(name)
    except SuspiciousFileOperation:
        found = None
    if not isinstance(found, str) or not Path(found).is_file():
        raise PermissionError(f"The paper asks for the static file {name[:200]}, which does not exist.")
    return Path(found).read_bytes(), mimetypes.guess_type(name)[0] or "application/octet-stream"


def _stored(sha256: str) -> tuple[bytes, str]:
    file = StoredFile.objects.filter(sha256=sha256).first()
    if file is None:
        raise PermissionError(f"The paper asks for the stored file {sha256[:64]}, which does not exist.")
    return read_by_hash(file.sha256), file.media_type
