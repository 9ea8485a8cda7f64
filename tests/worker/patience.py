"""Waiting for what another process does, never for ever."""

import time
from collections.abc import Callable
from typing import TypeVar

Found = TypeVar("Found")


def wait_until(look: Callable[[], Found], what: str, within_s: float = 25) -> Found:
    until = time.monotonic() + within_s
    while not (found := look()):
        assert time.monotonic() < until, f"waited {within_s} s in vain: {what}"
        time.sleep(0.05)
    return found
