"""What is filled in to release an engine, to amend that, and on the roster. The rules are in the services."""

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms

from engines.benches.forms import reason_field
from engines.catalogue.data import Directive
from engines.catalogue.models import EngineModel
from engines.release.checking import STANDINGS
from engines.release.models import Release, Status
from engines.release.statement import Given
from engines.steps.registry import STEPS
from engines.traveler.models import HIGHEST_LEVEL, Authorised
from engines.traveler.trades import trades
from shopfloor.people.models import Person

DAY = forms.DateInput(attrs={"type": "date"})


def words_field(label: str, help_text: str = "", **more: Any) -> forms.CharField:
    return forms.CharField(label=label, help_text=help_text, max_length=3000, widget=forms.Textarea(attrs={"rows": 4}), **more)


class ReleaseForm(forms.Form):
    status = forms.ChoiceField(label="Released as", choices=[(each, each) for each in Status.values], widget=forms.RadioSelect)
    description = words_field("Description of the work", "As it is to stand in the engine's logbook.")
    completed_on = forms.DateField(label="Completed on", widget=DAY)
    recommendations = words_field("Open recommendations", "What should be looked at, and when.", required=False)

    def __init__(self, *args: Any, directives: Iterable[Directive], received: Mapping[str, str], **kwargs: Any) -> None:
        """`received` says how each directive stood when the engine came in, by number."""
        super().__init__(*args, **kwargs)
        self.directives = tuple(directives)
        for index, directive in enumerate(self.directives):
            self.fields[f"directive_{index}"] = forms.ChoiceField(
                label=f"Directive {directive.number}: {directive.title}",
                choices=[("", "choose how it stands now"), *((each, each) for each in STANDINGS)],
                help_text=f"When received: {received.get(directive.number, 'nothing was noted')}.",
            )

    def given(self) -> Given:
        """A valid form as what the release is made of."""
        filled = self.cleaned_data
        return Given(
            status=filled["status"],
            description=plain(filled["description"]),
            completed_on=filled["completed_on"],
            recommendations=plain(filled["recommendations"]),
            directives={each.number: filled[f"directive_{index}"] for index, each in enumerate(self.directives)},
            data=tuple(plain(filled["documents"]).splitlines()) if "documents" in filled else None,
            reason=filled.get("reason", ""),
        )


class AmendForm(ReleaseForm):
    documents = words_field("Data used", "One document and its revision to a line.")
    reason = reason_field("Why the release is amended")

    @staticmethod
    def initial_of(release: Release) -> dict[str, object]:
        return {
            "description": release.description,
            "completed_on": release.completed_on,
            "recommendations": release.recommendations,
            "documents": "\n".join(release.content["data"]),
        }


class ReportForm(forms.Form):
    reported_to = forms.CharField(label="Reported to", max_length=200, help_text="The authority, the day, and its reference.")


class AuthoriseForm(forms.Form):
    person = forms.ModelChoiceField(Person.objects.none(), label="Person", empty_label="choose the person")
    what = forms.ChoiceField(label="Authorised for", choices=[("", "choose one"), *Authorised.choices])
    trades = forms.MultipleChoiceField(
        label="Work at operations, whole trades", required=False, widget=forms.CheckboxSelectMultiple
    )
    kinds = forms.MultipleChoiceField(
        label="Work at operations, single kinds", required=False, widget=forms.CheckboxSelectMultiple
    )
    level = forms.ChoiceField(
        label="Level of training",
        required=False,
        widget=forms.RadioSelect,
        choices=[("", "none"), *((str(each), str(each)) for each in range(1, HIGHEST_LEVEL + 1))],
        help_text="Where the data ask for one, as for crack tests.",
    )
    covers = forms.MultipleChoiceField(
        label="On engines of", required=False, widget=forms.CheckboxSelectMultiple, help_text="None chosen: of every model."
    )
    valid_from = forms.DateField(label="From", widget=DAY)
    valid_until = forms.DateField(label="Until, this day included", widget=DAY, required=False)
    training = forms.CharField(
        label="Evidence of training",
        max_length=600,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="What training or experience it rests on, and where its record is kept.",
    )

    def __init__(self, *args: Any, granter: Person, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        person: Any = self.fields["person"]
        person.queryset = Person.objects.filter(is_active=True, customer=None).exclude(pk=granter.pk).order_by("name")
        covers: Any = self.fields["covers"]
        chosen: dict[str, Any] = self.fields
        chosen["trades"].choices = [(trade, f"{trade}: {words_of(kinds)}") for trade, kinds in trades().items()]
        chosen["kinds"].choices = [(kind, step.words) for kind, step in STEPS.items()]
        covers.choices = [(each.code, f"{each.code}, {each.name}") for each in EngineModel.objects.order_by("code")]

    def clean(self) -> dict[str, Any]:
        """Whole trades become their kinds: what is granted names each of them."""
        given: dict[str, Any] = super().clean() or {}
        whole = [kind for trade in given.pop("trades", []) for kind in trades()[trade]]
        return {**given, "kinds": {*given.get("kinds", []), *whole}, "level": int(given.get("level") or 0)}


def words_of(kinds: Iterable[str]) -> str:
    return ", ".join(STEPS[kind].words for kind in kinds)


def plain(text: str) -> str:
    """Lines as every browser sends them alike, or the same text would have two hashes."""
    return "\n".join(line.rstrip() for line in text.strip().splitlines() if line.strip())
