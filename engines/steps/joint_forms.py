"""What the forms at a joint share: calling it void, tapping a fastener, and slackening all of them before it is begun again."""

from collections.abc import Mapping
from typing import Any

from django import forms

from engines.steps.joints import Standing
from engines.steps.picture import dots_of, tapped_field
from engines.steps.second_look import SecondLook

VOID = "void_reason"


def figure(label: str, help_text: str = "") -> forms.CharField:
    widget = forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"})
    return forms.CharField(label=label, help_text=help_text, max_length=20, widget=widget)


class JointForm(forms.Form):
    """Whoever knows that the joint was disturbed says so, and then nothing else is asked. By itself: where all is done."""

    void_reason = forms.CharField(
        label="The joint was disturbed, so it is void",
        max_length=200,
        required=False,
        help_text="Say why, only where somebody turned a fastener or the order was lost. The joint is then begun from nothing.",
    )

    def ask(self, asked: Mapping[str, forms.Field]) -> None:
        """These first. When the joint is called void they may be left blank."""
        self.fields = {**asked, **self.fields}
        if self.data.get(VOID, "").strip():
            for field in self.fields.values():
                field.required = False


class BeginForm(JointForm):
    """What is made ready for a pass."""

    def begin(self, now: Standing, asked: dict[str, forms.Field]) -> None:
        if now.why:
            void = f"The joint is void: {now.why}."
            asked["slackened"] = forms.BooleanField(label="Every fastener is slackened", help_text=void)
        if not now.done:
            del self.fields[VOID]
        self.ask(asked)


class FastenerForm(JointForm, SecondLook):
    """One fastener: it is tapped on the picture, where the next one is marked and none is chosen."""

    def at_fastener(self, details: Mapping[str, Any], now: Standing, asked: dict[str, forms.Field]) -> None:
        number, fastener = now.following or ("", "")
        dots = dots_of(details, fastener, [each for each_pass, each in now.done if each_pass == number and each])
        tapped: dict[str, forms.Field] = {"fastener": tapped_field(dots, "Tap the fastener that you have done")}
        if self.data.get("fastener", fastener) != fastener:
            asked["out_of_order"] = forms.BooleanField(
                label="It was done out of its order", required=False, help_text="The joint is then void and begun again."
            )
        self.ask(tapped | asked)
