"""The same number twice running: it may be so, or the hand wrote what the eye remembered. So it is read once more and said."""

from typing import Any

from django import forms

from engines.steps.work import StepRefused
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number

AGAIN = "read_again"


class SecondLook(forms.Form):
    """Mixin for a form with a figure: it asks for the second look only where the figure repeats the one before.

    The form calls `ask_again` when its fields stand; what is kept is checked by `check_second_look`.
    """

    read_again = forms.BooleanField(
        label="Read again, it is the same", required=False, help_text="The same number was entered just before."
    )

    def ask_again(self, figure: str, before: str) -> None:
        """`figure` names the field, `before` is what was entered before it, blank where nothing was."""
        if not is_repeated(before, str(self.data.get(self.add_prefix(figure), ""))):
            del self.fields[AGAIN]


def is_repeated(before: str, now: str) -> bool:
    """Whether both are the same number, however many noughts were typed behind it."""
    try:
        return bool(before) and read_number(before) == read_number(now.strip())
    except MeasureError:
        return False


def check_second_look(before: str, now: str, given: Any) -> None:
    """Raises StepRefused where a number is repeated and nobody said that it was read again."""
    if is_repeated(before, now) and not given.get(AGAIN):
        raise StepRefused(f"{now} was entered just before as well. Read the gauge again; if it is the same, tick that you did.")
