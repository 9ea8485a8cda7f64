"""A joint is put together by hand before a bolt goes in: it drops home, or it is said why it does not."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.details import wrong_names, wrong_texts
from engines.steps.noticing import raise_at, undecided_about
from engines.steps.work import Content, Step, StepRefused, Work
from shopfloor.people.models import Person

HOME, NOT_HOME = "dropped home", "did not drop home"


class SeatedForm(forms.Form):
    seated = forms.ChoiceField(
        label="Without its bolts, it",
        choices=[("", "choose"), (HOME, "dropped home by hand, all round"), (NOT_HOME, "did not drop home")],
        help_text="Bolts pull a joint together that does not fit. None of them is in yet.",
    )
    why = forms.CharField(
        label="Why not",
        max_length=400,
        required=False,
        help_text="What holds it off, and where. An inspector decides about it before any bolt is tightened.",
    )


class HandSeatedJoint(Step):
    name = "hand-seated-joint"
    words = "joint seated by hand"
    caution = "Keep your fingers out of the joint: it closes under its own weight. Never pull it together with its bolts."
    has_own_paper = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from (*wrong_names(self.name, operation.details, ("joint",)), *wrong_texts(operation.details, ("joint",)))

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> SeatedForm | None:
        return None if _is_home(work) else SeatedForm(data)

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        seated, why = given["seated"], given["why"].strip()
        if _is_home(work):
            raise StepRefused("It dropped home already. If it was lifted again, let the operation be opened again.")
        if seated == HOME and why:
            raise StepRefused("It dropped home, yet there is a reason why not. Leave one of them out.")
        if seated == NOT_HOME:
            if not why:
                raise StepRefused("Say why it does not drop home: what holds it off, and where.")
            raise_at(work, None, f"{work.operation.details['joint']} did not drop home by hand: {why}", by=by, at=at)
        return {"joint": work.operation.details["joint"], "seated": seated, "why": why}

    def missing(self, work: Work) -> list[str]:
        joint = work.operation.details["joint"]
        open_yet = [] if _is_home(work) else [f"{joint}: nobody has seen it drop home without its bolts."]
        return [*open_yet, *undecided_about(work)]


def _is_home(work: Work) -> bool:
    """The last word counts: what did not drop home at first may do so once the cause is gone."""
    return bool(work.entries) and work.entries[-1]["seated"] == HOME
