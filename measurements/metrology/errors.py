"""What the computation refuses. Every refusal is a MeasureError worded for the person who typed the figure."""


class MeasureError(ValueError):
    """Something typed cannot be used; the message says what is wrong and what to do."""


class NotANumber(MeasureError):
    """The text is not a number in plain decimal notation."""


class UnknownUnit(MeasureError):
    """No unit of that name is known."""


class OtherDimension(MeasureError):
    """The two units measure different things."""


class ReversedLimits(MeasureError):
    """A limit stands on the wrong side of another."""
