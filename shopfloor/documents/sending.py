"""A rendered document on its way to the reader, checked against its hash first."""

import logging
from io import BytesIO

from django.http import FileResponse, Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.utils.cache import get_conditional_response

from shopfloor.documents import files
from shopfloor.documents.kinds import document_kind
from shopfloor.documents.models import Document, StoredFile

logger = logging.getLogger(__name__)


def as_download(request: HttpRequest, document: Document) -> HttpResponseBase:
    """Raises Http404 while there is no file, and FileAltered, also written to the log, instead of sending altered bytes."""
    if document.file is None:
        raise Http404("This paper has not been made yet.")
    etag = f'"{document.file.sha256}"'
    held = get_conditional_response(request, etag=etag, response=None)
    response = held if isinstance(held, HttpResponse) else _file(document, document.file)
    response["ETag"] = etag
    response["Cache-Control"] = "private, no-cache"
    response["X-Content-Type-Options"] = "nosniff"
    return response


def _file(document: Document, file: StoredFile) -> FileResponse:
    try:
        data = files.read(file)
    except files.FileAltered:
        logger.exception("Document %s was not sent.", document.pk)
        raise
    return attachment(data, document_kind(document.kind).filename(document.subject), file.media_type)


def attachment(data: bytes, filename: str, media_type: str) -> FileResponse:
    """Bytes that a browser stores and never opens as one of our pages."""
    response = FileResponse(BytesIO(data), as_attachment=True, filename=filename, content_type=media_type)
    response["X-Content-Type-Options"] = "nosniff"
    return response
