"""Bodies as bytes: canonical JSON (RFC 8785), with every figure as text."""

import json
import re
from collections.abc import Mapping
from datetime import UTC, datetime

import rfc8785

BENT = re.compile("[\ud800-\udfff\0]")  # half a letter, and what PostgreSQL keeps in no text
PAST_ONE_UNIT = re.compile("[\U00010000-\U0010ffff]")  # two units of UTF-16
_encode = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), sort_keys=True).encode


class NotCanonical(ValueError):
    """A value that the ledger does not keep, with its place in the body."""

    def __init__(self, place: str, value: object) -> None:
        super().__init__(
            f"The ledger keeps text, true, false, none, whole numbers within 2^53, lists and mappings; "
            f"{place} is {value!r} ({type(value).__name__}). Write a figure or a moment as text."
        )


def canonical(body: object) -> bytes:
    """The one encoding of `body`. Raises NotCanonical for floats, decimals, moments and anything else that JSON bends."""
    _refuse_bent_values(body, "the body")
    # Of such values Python's encoder makes the same bytes, and many times as fast. Only its keys are in the order of code points,
    # and the standard's in that of UTF-16: the two differ past U+FFFF alone.
    encoded = _encode(body)
    return rfc8785.dumps(body) if PAST_ONE_UNIT.search(encoded) else encoded.encode()  # type: ignore[arg-type]


def moment(at: datetime) -> str:
    """A moment as text: UTC, always six decimals, so that both databases give the same bytes."""
    if at.tzinfo is None:
        raise NotCanonical("the moment", at)
    return at.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def _refuse_bent_values(value: object, place: str) -> None:
    if value is None or isinstance(value, bool):
        return
    if isinstance(value, str):
        if BENT.search(value):
            raise NotCanonical(place, value)
    elif isinstance(value, int):
        if abs(value) >= 2**53:
            raise NotCanonical(place, value)
    elif isinstance(value, list | tuple):
        for index, part in enumerate(value):
            _refuse_bent_values(part, f"{place}[{index}]")
    elif isinstance(value, Mapping):
        for key, part in value.items():
            if not isinstance(key, str):
                raise NotCanonical(f"a key of {place}", key)
            _refuse_bent_values(part, f"{place}.{key}")
    else:
        raise NotCanonical(place, value)
