"""What is asked at a torque group, one question for each screen: the wrench of a pass, then fastener by fastener."""

from collections.abc import Mapping
from typing import Any

from django import forms

from engines.steps.instruments import instrument_field
from engines.steps.joint_step import JointForm, Standing
from engines.steps.picture import dots_of, tapped_field
from engines.steps.second_look import SecondLook
from engines.steps.work import Content

ALIGNED, NOT_YET, BACKED_OFF = "meets the hole, tightening", "does not meet the hole yet", "meets the hole, after turning it back"


def figure(label: str, help_text: str = "", required: bool = True) -> forms.CharField:
    widget = forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"})
    return forms.CharField(label=label, help_text=help_text, max_length=20, required=required, widget=widget)


class VoidForm(JointForm):
    """Where every fastener is done."""


class ReadyForm(JointForm):
    def __init__(self, *args: Any, details: Mapping[str, Any], now: Standing, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        number = now.following[0] if now.following else ""
        wet = f"wet with {details['lubricant']}" if "lubricant" in details else "wet"
        asked: dict[str, forms.Field] = {
            "wrench": instrument_field(f"Wrench for pass {number}", details["unit"]),
            "threads": forms.ChoiceField(
                label="The threads are",
                choices=[("", "choose"), ("wet", wet), ("dry", "clean and dry")],
                help_text="As they are now.",
            ),
        }
        if "adapter" in details:
            adapter = details["adapter"]
            told = f"From the middle of the handle to the centre of its square. The adapter is {adapter['length']} {adapter['unit']}."
            asked["wrench_length"] = figure(f"Length of the wrench, {adapter['unit']}", told)
        if now.why:
            asked["slackened"] = forms.BooleanField(
                label="Every fastener is slackened", help_text=f"The joint is void: {now.why}."
            )
        if not now.done:
            del self.fields["void_reason"]
        self.fields = asked | self.fields
        self.ask_nothing_else_when_void()


class TighteningForm(JointForm, SecondLook):
    def __init__(self, *args: Any, details: Mapping[str, Any], now: Standing, before: Content, unit: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        number, fastener = now.following or ("", "")
        done = [each for place, each in now.done if place == number and each]
        asked: dict[str, forms.Field] = {
            "fastener": tapped_field(dots_of(details, fastener, done), "Tap the fastener that you tightened"),
            "torque": figure(f"Torque that the wrench showed, {unit}"),
        }
        if "run_down" in details and number == "1" and before.get("fastener") != fastener:
            asked["run_down"] = figure(f"Torque that ran it down, {unit}", "Read before the nut seats.")
        if "castle" in details and number == str(len(details["passes"])):
            choices = [("", "choose"), *((each, each) for each in (ALIGNED, NOT_YET, BACKED_OFF))]
            asked["slot"] = forms.ChoiceField(label="The slot", choices=choices)
        if self.data.get("fastener", fastener) != fastener:
            asked["out_of_order"] = forms.BooleanField(
                label="It was tightened out of its order", required=False, help_text="The joint is then void and begun again."
            )
        self.fields = asked | self.fields
        repeats = before.get("fastener") not in (None, fastener) and "set_wrench" not in details
        self.ask_again("torque", before.get("torque", "") if repeats else "")
        self.ask_nothing_else_when_void()
