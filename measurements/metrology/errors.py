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


class BadFigure(MeasureError):
    """A number that cannot be used: not finite, too long, of the wrong sign, or binary where an exact one decides."""


class BadLimits(MeasureError):
    """Limits that contradict themselves, such as a least value above the greatest."""


class MixedDimensions(MeasureError):
    """Values that do not belong together, such as series of different lengths."""


class NothingGiven(MeasureError):
    """An empty set where at least one value is needed."""


class NoAnswer(MeasureError):
    """Sound figures to which no answer exists; the sentence names the figure that stands in the way."""
