"""What an act asks of whoever does it, and whether an authorisation answers that. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.utils.timezone import localdate

from engines.catalogue.data import Operation as Planned
from engines.steps.registry import step_of
from engines.traveler.models import Authorisation, Authorised


@dataclass(frozen=True)
class Need:
    """`words` stand before the name of an engine model. `kind` and `level` are of work at operations only."""

    what: Authorised
    words: str
    kind: str = ""
    level: int = 0

    def is_about(self, held: Authorisation) -> bool:
        """Whether the authorisation is for this at all, whatever its days and its models."""
        return held.what == self.what and (not self.kind or self.kind in held.kinds)


ACCEPTING = Need(Authorised.HOLD_POINTS, "accepting hold points on")
APPROVING = Need(Authorised.DATA_APPROVAL, "approving the data of")
RELEASING = Need(Authorised.RELEASE, "the release of")


def need_at(planned: Planned) -> Need:
    """What entering and signing at an operation of the data asks."""
    step = step_of(planned.kind)
    return Need(Authorised.WORK, f"{step.words} on", planned.kind, step.level(planned))


def fault(held: Authorisation, need: Need, model: str, day: date) -> str:
    """Why an authorisation that is about it does not let its holder do it; blank where it does."""
    if held.ended_at:
        return f"yours was ended on {localdate(held.ended_at):%d %b %Y}"
    if held.valid_until and held.valid_until < day:
        return f"yours ran out on {held.valid_until:%d %b %Y}"
    if day < held.valid_from:
        return f"yours begins on {held.valid_from:%d %b %Y}"
    if not held.includes(model):
        return f"yours covers {', '.join(held.covers)}"
    if held.level < need.level:
        return f"yours is of level {held.level}, and the data ask for level {need.level}"
    return ""


def covering(held: Iterable[Authorisation], need: Need, model: str, day: date) -> Authorisation | None:
    """The first of these that lets its holder do it on an engine of this model on this day."""
    return next((each for each in held if need.is_about(each) and not fault(each, need, model, day)), None)


def why_none(held: Iterable[Authorisation], need: Need, model: str, day: date) -> str:
    """Of one who has none that covers it: what is wrong with the newest that is about it, or that there is none."""
    about = next((each for each in held if need.is_about(each)), None)
    return fault(about, need, model, day) if about else "nothing on the roster lets you do it"
