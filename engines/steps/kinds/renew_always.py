"""A part that is never used again: a new one goes in with its evidence, and the old one is made unusable, seen by two."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.kinds.install_item import InstallForm, InstallItem
from engines.steps.work import Content, StepRefused, Work
from shopfloor.people.models import Person

HOW = "Say how the old part was made unusable. Only where nothing was disturbed there is no old part."


class RenewForm(InstallForm):
    destroyed = forms.CharField(
        label="How the old part was made unusable",
        max_length=200,
        required=False,
        help_text="Cut, bent, drilled: so that nobody can fit it again. Whoever accepts this operation has seen it.",
    )

    def clean(self) -> dict[str, Any]:
        given = super().clean() or {}
        if bool(given.get("destroyed")) == bool(given.get("undisturbed")):
            self.add_error("destroyed", HOW)
        return given


class RenewAlways(InstallItem):
    name = "renew-always"
    words = "renew always"
    caution = "The old part must not go back into a drawer: make it unusable before the new one is unpacked."

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from super().check_details(operation, data)
        known = (data.line_by_code[name] for name in operation.names if name in data.line_by_code)
        yield from (f"“{line.line}” is not a part that is always renewed" for line in known if not line.renew)
        if not operation.hold_point:
            yield "it is no hold point, so nobody would witness that the old part was made unusable"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> RenewForm | None:
        left = self._open(work)
        return RenewForm(data, work=work, spots=left) if left else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        destroyed = given["destroyed"].strip()
        if bool(destroyed) == bool(given.get("undisturbed")):
            raise StepRefused(HOW)
        return {**super().keep(work, given, by=by, at=at), "old_part": destroyed}
