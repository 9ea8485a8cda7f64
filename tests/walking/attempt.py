"""What somebody is about to do: in words, with the permission and the address that it takes on the screen."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from shopfloor.people.models import Person
from shopfloor.people.permissions import Permission


@dataclass(frozen=True)
class Attempt:
    """`do` takes `by` and `at`. One that only `looks` changes nothing. `by` is who would do it, where that matters."""

    words: str
    needs: Permission
    door: tuple[Any, ...]
    do: Callable[..., object]
    looks: bool = False
    by: Person | None = None
