"""Telling takes a while, so whoever waits is told how far it is."""

from collections.abc import Callable

Say = Callable[[str], None]


def nobody(sentence: str) -> None:
    """Where nobody waits."""
