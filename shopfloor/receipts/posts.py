"""Reading the key and the content of a post, and the decorator that puts them to use."""

import hashlib
from collections.abc import Callable, Iterator
from functools import wraps
from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from shopfloor.receipts.services import KeyReused, once

FIELD = "receipt_key"
HEADER = "Idempotency-Key"
# A hash that held a password beside known content would help to guess it.
LEFT_OUT = {FIELD, "csrfmiddlewaretoken", "password"}
View = Callable[..., HttpResponse]


class KeyMissing(Exception):
    def __init__(self) -> None:
        super().__init__(f"The post has no usable key: send a UUID in the field {FIELD} or in the header {HEADER}.")


def receipted(view: View) -> View:
    """A page whose posts are carried out once. Stands below the decorator that checks the right to act."""

    @wraps(view)
    def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        if request.method != "POST":
            return view(request, *args, **kwargs)
        try:
            return once(
                key=key_of(request),
                route=request.path,
                content_sha256=content_hash(request),
                act=lambda: view(request, *args, **kwargs),
                by=request.user,  # type: ignore[arg-type]
                at=timezone.now(),
            )
        except (KeyMissing, KeyReused) as refusal:
            status = 409 if isinstance(refusal, KeyReused) else 400
            return render(request, "receipts/refused.html", {"sentence": str(refusal)}, status=status)

    return guarded


def key_of(request: HttpRequest) -> UUID:
    try:
        return UUID(request.headers.get(HEADER) or request.POST.get(FIELD, ""))
    except ValueError:
        raise KeyMissing from None


def content_hash(request: HttpRequest) -> str:
    """SHA-256 over every field and file of the post but those of LEFT_OUT, each part length-prefixed."""
    digest = hashlib.sha256()
    for part in parts(request):
        digest.update(len(part).to_bytes(8, "big"))
        digest.update(part)
    return digest.hexdigest()


def parts(request: HttpRequest) -> Iterator[bytes]:
    for name in sorted(set(request.POST) - LEFT_OUT):
        yield name.encode()
        yield from (value.encode() for value in request.POST.getlist(name))
    for name in sorted(request.FILES):
        for file in request.FILES.getlist(name):
            yield name.encode()
            yield (file.name or "").encode()
            yield file.read()
            file.seek(0)
