"""What every joint that is tightened in an order shares: its tries, whoever may sign them, and calling them void."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any

from engines.catalogue.data import Operation
from engines.steps.joint_forms import VOID
from engines.steps.joints import CALLED, Act, Order, Place, Standing, interruption, next_place, tries_of
from engines.steps.noticing import undecided_about
from engines.steps.work import Content, Step, StepRefused, Work
from shopfloor.people.models import Person


class JointStep(Step):
    """Subclasses give the order of the places, and make the content of an entry at the next of them.

    Each content says `try`, `pass` and `fastener`, `done` where it ended well there, and `void` where it ruined the joint.
    """

    has_own_paper = True

    def places(self, operation: Operation) -> tuple[Place, ...]:
        raise NotImplementedError

    def enter_at(self, work: Work, now: Standing, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        raise NotImplementedError

    def standing(self, work: Work, hand: int | None = None, at: datetime | None = None) -> Standing:
        minutes = work.operation.details.get("minutes")
        order = Order(self.places(work.operation), timedelta(minutes=int(minutes)) if minutes else None)
        tries = tries_of(order, [act for act in map(_act, work.entries, work.hands, work.moments) if act])
        why = (tries[-1].void or interruption(order, tries[-1], hand, at)) if tries else ""
        return Standing(order, tries, next_place(order, tries, hand, at), why)

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        now = self.standing(work, by.pk, at)
        if reason := str(given.get(VOID) or "").strip():
            if not now.tries or now.tries[-1].void:
                raise StepRefused("Nothing of this joint is tightened that could be void. Begin it.")
            return {"try": str(now.tries[-1].number), "pass": CALLED[0], "fastener": CALLED[1], "void": reason}
        if now.following is None:
            raise StepRefused("Every fastener is done. If the joint was disturbed since, say why it is void.")
        return self.enter_at(work, now, given, by=by, at=at)

    def missing(self, work: Work) -> list[str]:
        now = self.standing(work, work.by, work.at)
        unfinished = [self.what_follows(work, now)] if now.following else []
        return [*unfinished, *undecided_about(work)]

    def what_follows(self, work: Work, now: Standing) -> str:
        """In a sentence. Where the last try does not count, it says why."""
        void = f"Try {now.tries[-1].number} is void: {now.why}. Slacken every fastener and begin again. " if now.why else ""
        return f"{void}{len(now.done)} of {len(now.order.places)} steps of the joint are done."

    def handover(self, work: Work) -> list[str]:
        now = self.standing(work, None, work.at)
        if not now.tries:
            return []
        if now.why:
            return [f"Void: {now.why}. Slacken every fastener and begin again."]
        if now.following is None:
            return ["Every fastener is done. Only who tightened it signs it; disturbed, it is void."]
        minutes = work.operation.details.get("minutes")
        late = f", or when {minutes} minutes pass between two fasteners" if minutes else ""
        done = f"Half done, {len(now.done)} of {len(now.order.places)} steps"
        return [f"{done}: left, it is void. It is void when another person goes on{late}; who began it finishes it."]

    def refuses_signer(self, work: Work, by: Person) -> list[str]:
        tries = self.standing(work).tries
        if tries and tries[-1].hand != by.pk:
            return ["Another person tightened it. Each person signs only the own part."]
        return []

    def lines(self, work: Work) -> Content:
        now = self.standing(work, work.by, work.at)
        dead = {each.number: each.void for each in now.tries if each.void}
        if now.why and now.tries:
            dead[now.tries[-1].number] = now.why
        said = [
            (each.number, dead.get(each.number, ""), [entry for entry in work.entries if entry["try"] == str(each.number)])
            for each in now.tries
        ]
        return {"tries": said, "joint": work.operation.details, "follows": self.what_follows(work, now) if now.following else ""}

    def entries_of(self, work: Work, now: Standing) -> list[Content]:
        """Of the try that goes on."""
        return [entry for entry in work.entries if entry["try"] == str(now.number)]

    def before(self, work: Work, now: Standing) -> Content:
        """What was entered at the last fastener of this try."""
        return next((entry for entry in reversed(self.entries_of(work, now)) if entry["fastener"]), {})

    def check_begun(self, now: Standing, given: Mapping[str, Any]) -> None:
        """Raises StepRefused where a void joint is begun again before all of it is slackened."""
        if now.why and not given.get("slackened"):
            raise StepRefused(f"The joint is void: {now.why}. Slacken every fastener, tick that you did, and begin again.")

    def tapped(self, now: Standing, given: Mapping[str, Any]) -> tuple[str, str]:
        """The fastener that was done, and why the joint is void with it. Raises StepRefused where nobody says it was meant."""
        fastener, tapped = (now.following or ("", ""))[1], str(given["fastener"])
        if tapped == fastener:
            return tapped, ""
        if not given.get("out_of_order"):
            raise StepRefused(
                f"Number {fastener} is next, not {tapped}. If {tapped} was done, tick that: the joint is then void."
            )
        return tapped, f"out of order: number {tapped} in place of {fastener}"


def at_place(now: Standing, fastener: str | None = None) -> Content:
    """The head of an entry at the next place, or at another fastener of its pass."""
    following = now.following or CALLED
    return {"try": str(now.number), "pass": following[0], "fastener": following[1] if fastener is None else fastener}


def _act(entry: Content, hand: int, at: datetime) -> Act | None:
    """None for an entry that touches no fastener of a try."""
    if not entry["try"]:
        return None
    return Act((entry["pass"], entry["fastener"]), hand, at, bool(entry.get("done")), entry.get("void", ""))
