"""What can be done by a worker: the rooms above register their kinds of job here."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from shopfloor.jobs.models import Job

Payload = dict[str, Any]
Progress = Callable[[int, int], None]


class JobRefused(Exception):
    """The work cannot succeed however often it is tried; the text is for the person who asked for it."""


class UnknownJobKind(LookupError):
    """No room has registered this kind of job."""


@dataclass(frozen=True)
class JobKind:
    """`work` runs with no transaction open; `publish` runs inside the transaction that finishes the job."""

    name: str
    work: Callable[[Payload, Progress], Payload]
    publish: Callable[["Job", Payload, datetime], None]
    attempts: int = 3


_kinds: dict[str, JobKind] = {}


def register_job_kind(kind: JobKind) -> None:
    _kinds[kind.name] = kind


def job_kind(name: str) -> JobKind:
    try:
        return _kinds[name]
    except KeyError:
        raise UnknownJobKind(
            f"This worker knows no job of kind '{name}'. Start workers of the same version as the site."
        ) from None
