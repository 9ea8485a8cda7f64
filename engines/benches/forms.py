"""What a person fills in on the pages of an engine. The rules are in the services; a form only reads."""

from collections.abc import Iterable
from typing import Any, ClassVar

from django import forms

from engines.benches.lines import words_and_standing
from engines.catalogue.data import REASONS, SCOPES, Directive
from engines.catalogue.models import Pack
from engines.inspection.models import Said
from engines.inspection.standing import Kind
from shopfloor.people.models import Customer

DIRECTIVE_STANDINGS = (
    ("open", "open: to be complied with"),
    ("complied with", "complied with, on record"),
    ("does not apply", "does not apply"),
    ("not known", "not known"),
)


def lines_field(label: str, help_text: str) -> forms.CharField:
    widget = forms.Textarea(attrs={"rows": 3})
    return forms.CharField(label=label, help_text=help_text, widget=widget, required=False, max_length=4000)


def reason_field(label: str) -> forms.CharField:
    return forms.CharField(label=label, max_length=400)


class ReceiveForm(forms.Form):
    serial = forms.CharField(label="Serial of the engine", max_length=60, help_text="As it stands on the data plate.")
    customer = forms.ModelChoiceField(Customer.objects.order_by("name"), label="Customer", empty_label="choose the customer")
    scope = forms.ChoiceField(label="What for", choices=[(scope, scope) for scope in SCOPES], widget=forms.RadioSelect)
    reasons = forms.MultipleChoiceField(
        label="Why it came in",
        choices=[(reason, reason) for reason in REASONS],
        widget=forms.CheckboxSelectMultiple,
        help_text="Each adds the operations that the engine data ask for.",
    )
    hours_since_new = forms.CharField(max_length=20, required=False, help_text="From the logbook; blank when nobody knows.")
    hours_since_overhaul = forms.CharField(max_length=20, required=False, help_text="Blank when nobody knows.")
    promised_on = forms.DateField(label="Promised for", required=False, widget=forms.DateInput(attrs={"type": "date"}))
    bench = forms.CharField(label="Bench", max_length=40, help_text="Where it stands now.")
    came_with = lines_field("Came with it", "One thing to a line: accessories, baffles, mounts.")
    missing = lines_field("Missing", "One thing to a line.")
    records = lines_field("Records received", "One to a line: logbook, earlier work, test cell sheets.")
    blanks = lines_field("Blanks fitted", "One opening to a line.")

    def __init__(self, *args: Any, directives: Iterable[Directive] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.directives = tuple(directives)
        for index, directive in enumerate(self.directives):
            label = f"Directive {directive.number}: {directive.title}"
            self.fields[f"directive_{index}"] = forms.ChoiceField(label=label, choices=DIRECTIVE_STANDINGS, initial="not known")

    def received(self, pack: Pack) -> dict[str, Any]:
        """A valid form as the arguments of `open_visit`."""
        given = dict(self.cleaned_data)
        standings = [(d.number, given.pop(f"directive_{index}")) for index, d in enumerate(self.directives)]
        notes = {
            "came with it": words_and_standing(given.pop("came_with")),
            "missing": words_and_standing(given.pop("missing")),
            "record": words_and_standing(given.pop("records")),
            "blank fitted": words_and_standing(given.pop("blanks")),
            "directive": standings,
        }
        return {**given, "pack": pack, "notes": notes}


class BenchForm(forms.Form):
    bench = forms.CharField(label="To which bench", max_length=40)


class BackForm(forms.Form):
    after = forms.ChoiceField(label="Back to")
    reason = reason_field("Why")

    def __init__(self, *args: Any, stages: Iterable[str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        after: Any = self.fields["after"]
        after.choices = [(stage, stage) for stage in stages]


class ReasonForm(forms.Form):
    reason = reason_field("Why")


class SettleForm(forms.Form):
    words = forms.CharField(label="What is done about it, or why nothing", max_length=400)


class PhotoForm(forms.Form):
    words = forms.CharField(label="What it shows", max_length=200)
    photo = forms.FileField(
        label="Photo", widget=forms.FileInput(attrs={"accept": "image/jpeg,image/png,image/webp", "capture": "environment"})
    )


class PasswordForm(forms.Form):
    password = forms.CharField(
        label="Your password again", widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}), max_length=200
    )


class SignForm(PasswordForm):
    seen = forms.CharField(widget=forms.HiddenInput, max_length=64)


class RaiseForm(forms.Form):
    spot = forms.ChoiceField(label="Part and position", required=False)
    words = forms.CharField(label="What is wrong", max_length=600, widget=forms.Textarea(attrs={"rows": 3}))

    def __init__(self, *args: Any, spots: Iterable[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        spot: Any = self.fields["spot"]
        spot.choices = [("", "the area as a whole"), *spots]


class DecideForm(forms.Form):
    kind = forms.ChoiceField(label="Decision", widget=forms.RadioSelect)
    mate = forms.ChoiceField(label="Done to which of the two parts", required=False)
    document = forms.CharField(label="Document it rests on", max_length=120)
    revision = forms.CharField(label="Its revision", max_length=40)
    page = forms.CharField(label="Page or figure", max_length=40)
    words = forms.CharField(label="Why, or what is to be done", max_length=600, widget=forms.Textarea(attrs={"rows": 3}))
    seen = forms.IntegerField(widget=forms.HiddenInput, min_value=0)

    def __init__(self, *args: Any, kinds: Iterable[Kind], mates: Iterable[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        kind: Any = self.fields["kind"]
        kind.choices = [(each.value, each.value) for each in kinds]
        mate: Any = self.fields["mate"]
        mate.choices = [("", "not a matter of two parts"), *mates]
        if len(mate.choices) == 1:
            del self.fields["mate"]


class FormBeside(forms.Form):
    """A form beside others on its page: its fields have ids of their own, so that each label leads to its own field."""

    beside: ClassVar[str]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{"auto_id": f"id_{self.beside}_%s", **kwargs})


class DoneForm(FormBeside):
    beside = "done"
    words = forms.CharField(label="What was done", max_length=400)


class ReplaceForm(FormBeside):
    beside = "replace"
    serial = forms.CharField(label="Serial of the part that takes its place", max_length=60, required=False)
    mark = forms.CharField(label="Or the mark that you put on it", max_length=60, required=False)
    part_number = forms.CharField(
        label="Its part number", max_length=60, required=False, help_text="Blank: the one of the parts list."
    )
    words = forms.CharField(
        label="Where it comes from", max_length=400, help_text="Supplier and number of its evidence of eligibility."
    )


class AskForm(FormBeside):
    """`photos` are pairs of SHA-256 and words."""

    beside = "ask"

    kind = forms.ChoiceField(label="Work that is proposed", widget=forms.RadioSelect)
    words = forms.CharField(
        label="What, and why",
        max_length=600,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="In plain words: the customer does not stand at the bench.",
    )
    parts = lines_field("Parts", "One to a line, how many first: 2 piston T2-201.")
    hours = forms.CharField(label="Hours of work", max_length=12, widget=forms.TextInput(attrs={"inputmode": "decimal"}))
    price = forms.CharField(label="Price of all of it", max_length=12, widget=forms.TextInput(attrs={"inputmode": "decimal"}))
    currency = forms.CharField(label="Currency", max_length=3, help_text="Three letters, such as EUR.")
    photos = forms.MultipleChoiceField(label="Photos to show", required=False, widget=forms.CheckboxSelectMultiple)

    def __init__(self, *args: Any, kinds: Iterable[Kind], photos: Iterable[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        kind: Any = self.fields["kind"]
        kind.choices = [(each.value, each.value) for each in kinds]
        shown: Any = self.fields["photos"]
        shown.choices = list(photos)
        if not shown.choices:
            del self.fields["photos"]


class AnswerForm(PasswordForm):
    said = forms.ChoiceField(choices=Said.choices, widget=forms.HiddenInput)
    words = forms.CharField(label="Anything to add", max_length=600, required=False, widget=forms.Textarea(attrs={"rows": 2}))


class WithdrawForm(forms.Form):
    words = forms.CharField(label="Why it is taken back", max_length=400, help_text="The customer reads it.")
