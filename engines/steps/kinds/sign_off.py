"""Something is done as the data say, and a person puts their name to it; each lock that the data name is seen and noted first."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.details import unknown
from engines.steps.work import PARTS, Content, Step, StepRefused, Work
from shopfloor.people.models import Person

LOCK = ("joint", "method")


class LockForm(forms.Form):
    locked = forms.MultipleChoiceField(
        label="Seen locked, each of them",
        widget=forms.CheckboxSelectMultiple,
        help_text="Tick a lock only when you have looked at it. What is left can be noted afterwards.",
    )

    def __init__(self, *args: Any, left: list[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        locked: Any = self.fields["locked"]
        locked.choices = [(joint, f"{joint}: {method}") for joint, method in left]


class SignOff(Step):
    name = "sign-off"
    words = "sign-off"
    names_what = PARTS
    caution = "Your name says that it was done as the data ask, and that you saw it."

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from unknown(self.name, operation.details, ("locks",))
        if "locks" not in operation.details:
            return
        locks = operation.details["locks"]
        if not isinstance(locks, list) or not locks or not all(_is_lock(lock) for lock in locks):
            yield f"locks are a list, each with {' and '.join(LOCK)}"
            return
        joints = [lock["joint"] for lock in locks]
        yield from (f"the joint “{joint}” is locked twice" for joint in dict.fromkeys(joints) if joints.count(joint) > 1)

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> LockForm | None:
        left = self._left(work)
        return LockForm(data, left=left) if left else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        left = dict(self._left(work))
        locked = list(given["locked"])
        if not locked or not set(locked) <= set(left):
            raise StepRefused("Tick the locks that you have seen, of those that are still open.")
        return {"locked": [f"{joint} ({left[joint]})" for joint in locked], "joints": locked}

    def missing(self, work: Work) -> list[str]:
        return [f"{joint}: its lock is not noted ({method})." for joint, method in self._left(work)]

    def lines(self, work: Work) -> Content:
        noted = {joint for entry in work.entries for joint in entry.get("joints", ())}
        return {"locks": [(joint, method, joint in noted) for joint, method in _locks(work)]}

    def _left(self, work: Work) -> list[tuple[str, str]]:
        return [(joint, method) for joint, method, noted in self.lines(work)["locks"] if not noted]


def _locks(work: Work) -> list[tuple[str, str]]:
    return [(lock["joint"], lock["method"]) for lock in work.operation.details.get("locks", ())]


def _is_lock(lock: object) -> bool:
    return isinstance(lock, dict) and set(lock) == set(LOCK) and all(isinstance(text, str) for text in lock.values())
