"""Steps that ask one thing after the other: a small engine with them on it, and an errand that answers each question."""

from dataclasses import replace
from functools import partial
from typing import Any

from django.template.loader import render_to_string
from django.urls import reverse

from engines.catalogue.data import ENGINE, Operation, PackData
from engines.inspection.models import Discrepancy
from engines.inspection.services.deciding import Data, decide
from engines.inspection.standing import Kind
from engines.packs.reading import pack_of
from engines.steps.registry import step_of
from engines.traveler.services import enter
from engines.traveler.work import still_missing, work_on
from engines.visits.models import Visit
from shopfloor.documents.kinds import document_kind
from shopfloor.people.models import Person
from tests.making_packs import page, running_pack
from tests.making_visits import Shop
from tests.pack_files import files_of

CODE = "asked"
asked = partial(Operation, code=CODE, area=ENGINE, stage="close-up", title="As the data say", source=page("8-1"))


class Errand:
    """One visit with one operation of the kind; `answer` answers whatever is asked now."""

    def __init__(self, kind: str, details: dict[str, Any], pack: PackData | None = None, **fields: Any) -> None:
        pack = pack or running_pack()
        self.data = replace(pack, operations=(*pack.operations, asked(kind=kind, details=details, **fields)))
        self.shop = Shop(self.data)
        self.visit: Visit = self.shop.receive()

    @property
    def operation(self) -> Any:
        return self.shop.operation(self.visit, CODE)

    def question(self, at: Any = None) -> str:
        form = step_of(self.operation.kind).form(work_on(self.visit, self.operation, at or self.shop.now))
        return str(form.initial["asked"]) if form else ""

    def answer(self, asked: str = "", by: Person | None = None, **given: Any) -> dict[str, Any]:
        given = {"asked": asked or self.question(), **given}
        made = enter(operation=self.operation, given=given, by=by or self.shop.mechanic, at=self.shop.later())
        assert made
        return made.content

    def missing(self) -> list[str]:
        return still_missing(self.operation, work_on(self.visit, self.operation, self.shop.now))

    def sign(self) -> Any:
        return self.shop.sign(self.visit, CODE)

    def let_pass(self) -> None:
        """The inspector decides that the newest discrepancy may stay as it is."""
        found = Discrepancy.objects.latest("number")
        data = Data("T2-90 invented manual", "3", "page 8-1")
        decide(discrepancy=found, kind=Kind.ACCEPT, data=data, words="seen", by=self.shop.inspector, at=self.shop.later())

    def page(self, client: Any) -> str:
        client.force_login(self.shop.mechanic)
        answer = client.get(reverse("benches:operation", args=[self.operation.pk]))
        assert answer.status_code == 200
        return str(answer.content.decode())

    def paper(self) -> str:
        paper = document_kind("visit-traveler")
        return render_to_string(paper.template, {**paper.context(str(self.visit.pk)), "kind": paper, "document": None})


def load(kind: str, details: dict[str, Any], pack: PackData | None = None, **fields: Any) -> None:
    """The pack read from files: raises PackMistakes."""
    pack = pack or running_pack()
    data = replace(pack, operations=(*pack.operations, asked(kind=kind, details=details, **fields)))
    pack_of({name: text.encode() for name, text in files_of(data).items()})
