"""Asking a running shop how it is, with nothing but the standard library: quick enough for a container's health check.

Usage: python -m shopfloor.serving.health http://127.0.0.1:8000 [part …]     (all parts, where none is named)
"""

import json
import os
import sys
from urllib.error import HTTPError, URLError
from urllib.request import Request, urlopen

Finding = dict[str, object]


def ask(address: str, host: str | None = None, within_s: float = 4) -> dict[str, Finding]:
    """Each part and what was found; empty when nobody answers. `host`: the name to ask by, where it is not the address."""
    request = Request(f"{address}/health/", headers={"Host": host} if host else {})  # noqa: S310 - our own address
    try:
        with urlopen(request, timeout=within_s) as answer:  # noqa: S310
            return _parts(answer.read())
    except HTTPError as unwell:
        return _parts(unwell.read())
    except (URLError, OSError, ValueError):
        return {}


def _parts(body: bytes) -> dict[str, Finding]:
    try:
        found = json.loads(body)
    except ValueError:
        return {}
    return {part: finding for part, finding in found.items() if isinstance(finding, dict)}


def unwell(found: dict[str, Finding], parts: list[str]) -> list[str]:
    """A sentence for each part asked about that is not well."""
    if not found:
        return ["Nobody answers."]
    return [_sentence(part, found.get(part, {})) for part in parts or found if not found.get(part, {}).get("ok")]


def _sentence(part: str, finding: Finding) -> str:
    return str(finding.get("sentence", f"There is no such part as {part}."))


def main(address: str, *parts: str) -> int:
    host = os.environ.get("ALLOWED_HOSTS", "").split(",")[0].strip() or None
    faults = unwell(ask(address, host), list(parts))
    print(*faults, sep="\n")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
