"""What a person fills in at the stand. The rules are in the services; a form only reads."""

from collections.abc import Iterable
from typing import Any

from django import forms

from engines.testbench.channels import OF_THE_RUN, SPEED, of_each_cylinder
from engines.testbench.log_file import HEADING, MOST_BYTES, MOST_LINES
from engines.testbench.schedule import Schedule, Spot
from engines.testbench.services import Typed
from engines.testbench.standing import Standing


class BeginForm(forms.Form):
    clear = forms.BooleanField(
        label="The cautions were read out; everybody is clear of the propeller, the stand is fenced off, fire is watched for"
    )


class ReadForm(forms.Form):
    """One field for each channel that the step asks for; what is left blank is not read."""

    step = forms.CharField(widget=forms.HiddenInput, max_length=60, required=False)

    def __init__(self, *args: Any, schedule: Schedule, step: str, standing: Standing | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["step"].initial = step
        self.spots = spots_at(schedule, step)
        for index, spot in enumerate(self.spots):
            self.fields[f"spot_{index}"] = _value(schedule, step, spot, standing)

    def typed(self) -> list[Typed]:
        given = ((spot, self.cleaned_data[f"spot_{index}"].strip()) for index, spot in enumerate(self.spots))
        return [Typed(spot.channel, value, spot.cylinder) for spot, value in given if value]


def spots_at(schedule: Schedule, step: str) -> list[Spot]:
    """What the data ask for, and the speed of a step that turns."""
    if not step:
        return [Spot(channel) for channel in OF_THE_RUN]
    turning = step in schedule.step_by_code and schedule.step_by_code[step].rpm
    judged = [spot for limit in schedule.limits_at(step) for spot in schedule.spots_of(limit.channel)]
    readable = [spot for spot in judged if spot.channel in schedule.channels]
    return list(dict.fromkeys([*([Spot(SPEED)] if turning else []), *schedule.wanted_at(step), *readable]))


def _value(schedule: Schedule, step: str, spot: Spot, standing: Standing | None) -> forms.CharField:
    limits = [line.limit_words for line in standing.lines_at(step) if line.spot == spot and line.limit] if standing else []
    last = standing.latest.get((step, spot)) if standing else None
    told = [f"In {schedule.channels[spot.channel]}, or with its unit."]
    told += [f"Limits: {'; '.join(limits)}."] if limits else []
    told += [f"Last: {last.text} {last.unit}."] if last else []
    name = f"{spot.channel[:1].upper()}{spot.channel[1:]}"
    label = f"{name}, cylinder {spot.cylinder}" if of_each_cylinder(spot.channel) else name
    widget = forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"})
    return forms.CharField(label=label, max_length=40, required=False, widget=widget, help_text=" ".join(told))


class StepForm(forms.Form):
    step = forms.CharField(widget=forms.HiddenInput, max_length=60)


class AnswerForm(forms.Form):
    code = forms.CharField(widget=forms.HiddenInput, max_length=60)
    yes = forms.ChoiceField(label="Answer", choices=(("yes", "yes"), ("no", "no")), widget=forms.RadioSelect)
    words = forms.CharField(label="What was seen", max_length=400, required=False, help_text="Needed where the answer is no.")


class CorrectForm(forms.Form):
    value = forms.CharField(label="What it should have been", max_length=40)
    reason = forms.CharField(label="What was wrong with the earlier value", max_length=200)


class LogForm(forms.Form):
    log = forms.FileField(
        label="Log of the stand",
        help_text=f"CSV in UTF-8 with the heading {','.join(HEADING)}; at most {MOST_LINES} lines and {MOST_BYTES} bytes. "
        "Times with their offset from UTC, such as 2026-03-02T10:15:00Z.",
    )


class EndForm(forms.Form):
    password = forms.CharField(
        label="Your password again", widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}), max_length=200
    )
    seen = forms.CharField(widget=forms.HiddenInput, max_length=64)


class BreakOffForm(forms.Form):
    reason = forms.CharField(label="Why", max_length=400)
    fault = forms.ChoiceField(
        label="What gave the reason",
        choices=(
            ("engine", "the engine: the run has failed, and the areas that the data name go back"),
            ("other", "something else, such as the stand or the weather: the engine is run again"),
        ),
        widget=forms.RadioSelect,
    )


def answer_forms(standing: Standing) -> Iterable[tuple[Any, AnswerForm]]:
    """One for each question of the step that is going."""
    checks = standing.schedule.checks_at(standing.going.code) if standing.going else []
    return [(check, AnswerForm(initial={"code": check.code}, auto_id=f"id_{check.code}_%s")) for check in checks]
