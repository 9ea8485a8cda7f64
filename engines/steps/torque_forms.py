"""What is asked at a torque group, one question for each screen: the wrench of a pass, then fastener by fastener."""

from collections.abc import Mapping
from typing import Any

from django import forms

from engines.steps.instruments import instrument_field
from engines.steps.joint_forms import BeginForm, FastenerForm, figure
from engines.steps.joints import Standing

ALIGNED, NOT_YET, BACKED_OFF = "meets the hole, tightening", "does not meet the hole yet", "meets the hole, after turning it back"
NOW, HANDLE = "As they are now.", "From the middle of the handle to the centre of its square."


class ReadyForm(BeginForm):
    def __init__(self, *args: Any, details: Mapping[str, Any], now: Standing, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        number = now.following[0] if now.following else ""
        wet = f"wet with {details['lubricant']}" if "lubricant" in details else "wet"
        threads = [("", "choose"), ("wet", wet), ("dry", "clean and dry")]
        asked: dict[str, forms.Field] = {
            "wrench": instrument_field(f"Wrench for pass {number}", details["unit"]),
            "threads": forms.ChoiceField(label="The threads are", choices=threads, help_text=NOW),
        }
        if "adapter" in details:
            adapter = details["adapter"]
            told = f"{HANDLE} The adapter is {adapter['length']} {adapter['unit']} long."
            asked["wrench_length"] = figure(f"Length of the wrench, {adapter['unit']}", told)
        self.begin(now, asked)


class TighteningForm(FastenerForm):
    """`before` is what the wrench showed at another fastener just before, blank where a repeat is no wonder.

    `reach` says in words what it may show.
    """

    def __init__(
        self,
        *args: Any,
        details: Mapping[str, Any],
        now: Standing,
        before: str,
        asks_drag: bool,
        unit: str,
        reach: str,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        asked: dict[str, forms.Field] = {"torque": figure(f"Torque that the wrench showed, {unit}", reach)}
        if asks_drag:
            asked["run_down"] = figure(f"Torque that ran it down, {unit}", "Read before the nut seats.")
        if "castle" in details and now.following and now.following[0] == str(len(details["passes"])):
            choices = [("", "choose"), *((each, each) for each in (ALIGNED, NOT_YET, BACKED_OFF))]
            asked["slot"] = forms.ChoiceField(label="The slot", choices=choices)
        self.at_fastener(details, now, asked)
        self.ask_again("torque", before)
