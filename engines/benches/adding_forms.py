"""What is filled in to add an operation to an area of a visit, and to say that it is not to be done."""

from collections.abc import Iterable
from typing import Any

from django import forms

from engines.benches.forms import FormBeside, reason_field
from engines.packs.operation_forms import OperationForm, word
from engines.traveler.models import Operation
from engines.visits.stages import earlier_stages, sequence_of

FROM_DATA, OTHER = "engine data", "another document"


class AddForm(OperationForm):
    basis = forms.ChoiceField(
        label="What allows it",
        choices=[(FROM_DATA, "the engine data of this visit"), (OTHER, "not from the data: the document named below allows it")],
        widget=forms.RadioSelect,
    )
    reason = forms.CharField(label="Why it is added", max_length=600, widget=forms.Textarea(attrs={"rows": 3}))

    field_order = (
        *("reason", "stage", "kind", "title", "words", "criterion", "names", "after", "hold_point", "caution", "details"),
        *("basis", "document", "revision", "page"),
    )

    def __init__(self, *args: Any, stage: str, operations: Iterable[Operation], **kwargs: Any) -> None:
        """`stage` is where the area stands: what has passed is not offered."""
        super().__init__(*args, **kwargs)
        choices = [(each.code, f"{each.area.name}: {each.title}") for each in operations]
        self.fields["after"] = forms.MultipleChoiceField(
            label="After what: complete first", required=False, choices=choices, widget=forms.SelectMultiple(attrs={"size": 10})
        )
        passed = earlier_stages(stage)
        self.fields["stage"] = word("Stage", [(each, each) for each in sequence_of(stage) if each not in passed])
        self.order_fields(self.field_order)


class RefuseForm(FormBeside):
    beside = "refuse"
    words = reason_field("Why it is not to be done")
