"""The locks of a joint, fastener by fastener: seen and said how each lies. It comes after its joint, and goes when that goes.

How a lock must lie is FAA AC 43.13-1B, 7-124 and 7-125 for wire (it pulls towards tightening); else common practice, no source.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.details import wrong_names, wrong_words
from engines.steps.joint_step import JointStep
from engines.steps.kinds.stretch_group import StretchGroup
from engines.steps.kinds.torque_group import TorqueGroup
from engines.steps.picture import dots_of, numbers_of, tapped_field
from engines.steps.work import Content, Step, StepRefused, Work
from shopfloor.people.models import Person

GOOD: dict[str, str] = {
    "wire": "pulls towards tightening, twisted tight, its end bent under",
    "tab": "bent flat against a face of the head, none cracked",
    "cotter": "through slot and hole, both legs bent, none loose",
}
BAD: dict[str, str] = {
    "wire": "pulls towards loosening, is slack, or its end stands out",
    "tab": "stands off, is cracked, or was bent before",
    "cotter": "loose, cut, or does not pass the hole",
}
JOINTS: tuple[type[JointStep], ...] = (TorqueGroup, StretchGroup)
LOCKED, NOT_LOCKED = "locked", "not locked"


class LockingForm(forms.Form):
    """Nothing is chosen before somebody has looked."""

    def __init__(self, *args: Any, work: Work, left: Sequence[str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        method = work.operation.details["method"]
        done = [each for each in _numbers(work) if each not in left]
        dots = dots_of(_joint(work).details, done=done)
        to_lock, locked = ([dot for dot in dots if (dot.number in left) is wanted] for wanted in (True, False))
        lies = [("", "choose"), (GOOD[method], GOOD[method]), (BAD[method], BAD[method])]
        self.fields["fastener"] = tapped_field(to_lock, "Tap the fastener that you locked", locked)
        self.fields["lies"] = forms.ChoiceField(label=f"Its {method}", choices=lies, help_text="Look at it from both sides.")


class Locking(Step):
    name = "locking"
    words = "locking"
    caution = "Cut ends of wire fly, and cut: cover them while cutting, wear eye protection, and pick up every end."
    has_own_paper = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        details = operation.details
        wrong = [
            *wrong_names(self.name, details, ("joint", "method"), ("material",)),
            *wrong_words(details, "method", tuple(GOOD)),
        ]
        if not isinstance(details.get("material", ""), str):
            wrong.append("material is one text")
        joint = data.operation_by_code.get(str(details.get("joint")))
        if "joint" in details and (joint is None or joint.kind not in {each.name for each in JOINTS}):
            wrong.append(f"joint “{details['joint']}” is no {' or '.join(each.name for each in JOINTS)} of the route")
        elif joint and joint.code not in operation.after:
            wrong.append(f"it must be after “{joint.code}”, or opening that again would leave its locks")
        yield from wrong

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> LockingForm | None:
        left = _left(work)
        return LockingForm(data, work=work, left=left) if left else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        method, fastener, lies = work.operation.details["method"], given["fastener"], given["lies"]
        if fastener not in _left(work):
            raise StepRefused(f"Number {fastener} is no fastener of the joint, or is locked already.")
        if lies not in (GOOD[method], BAD[method]):
            raise StepRefused(f"Say how its {method} lies.")
        verdict = LOCKED if lies == GOOD[method] else NOT_LOCKED
        material = work.operation.details.get("material", "")
        return {"fastener": fastener, "method": method, "material": material, "lies": lies, "verdict": verdict}

    def missing(self, work: Work) -> list[str]:
        left, every = _left(work), _numbers(work)
        if not left:
            return []
        return [f"{len(every) - len(left)} of {len(every)} fasteners are locked; open: {', '.join(left)}."]

    def lines(self, work: Work) -> Content:
        done = [each for each in _numbers(work) if each not in _left(work)]
        last = {entry["fastener"]: number for number, entry in enumerate(work.entries)}
        said = [{**entry, "counts": number in last.values()} for number, entry in enumerate(work.entries)]
        return {"entries": said, "dots": dots_of(_joint(work).details, done=done), "joint": _joint(work)}


def _joint(work: Work) -> Operation:
    return work.data.operation_by_code[work.operation.details["joint"]]


def _numbers(work: Work) -> tuple[str, ...]:
    return numbers_of(_joint(work).details)


def _left(work: Work) -> list[str]:
    """Fasteners whose last word is not that they are locked, in their order."""
    last = {entry["fastener"]: entry["verdict"] for entry in work.entries}
    return [each for each in _numbers(work) if last.get(each) != LOCKED]
