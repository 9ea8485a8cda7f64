"""What a reader of the ledger may ask for."""

from django import forms

from shopfloor.ledger.kinds import event_kinds


class EventFilter(forms.Form):
    """Each field may be empty, which means any. `record` is a label and a number: people.person/3."""

    chain = forms.CharField(max_length=80, required=False)
    kind = forms.ChoiceField(required=False)
    record = forms.RegexField(
        r"^[a-z]+\.[a-z]+/[^/\0]{1,80}$",
        required=False,
        error_messages={"invalid": "Write a record as its label and its number, such as people.person/3."},
    )
    before = forms.IntegerField(min_value=1, max_value=2**63 - 1, required=False, widget=forms.HiddenInput)

    def __init__(self, *args: object, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        self.fields["kind"].choices = [("", "any"), *((kind, kind) for kind in event_kinds())]  # type: ignore[attr-defined]
