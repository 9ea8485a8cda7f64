"""Bolts tightened by their stretch: each is measured loose, tightened in the order of the data, and measured again.

The stretch is judged in exact figures, and what follows a wrong one is the retry rule of the data. A bolt that is discarded,
or has stayed longer than the data allow, is brought before the inspector and makes way for a new one with its evidence.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from engines.catalogue.data import Operation, PackData
from engines.steps.instruments import instrument
from engines.steps.joint_forms import JointForm
from engines.steps.joint_step import JointStep, at_place
from engines.steps.joints import Place, Standing
from engines.steps.noticing import raise_at, undecided_about
from engines.steps.picture import dots_of
from engines.steps.second_look import check_second_look
from engines.steps.stretch import FREE, TIGHT, Ask, as_read, spot_of, wrong_details
from engines.steps.stretch_forms import GaugeForm, LengthForm, RenewForm
from engines.steps.stretch_parts import renewed
from engines.steps.work import PARTS, Content, StepRefused, Work
from measurements.metrology.errors import MeasureError
from measurements.metrology.fasteners.stretch import After, Finding, stretch_read
from measurements.metrology.numbers import read_number
from shopfloor.people.models import Person

WITHIN, AGAIN, DISCARDED = "within", "measure again", "discarded"
NEW = "new"


class StretchGroup(JointStep):
    name = "stretch-group"
    words = "stretch group"
    caution = (
        "A bolt that breaks under tension flies. Keep your face out of its line. A bolt that was overstretched is never used "
        "again: mark it at once, so that nobody takes it for a good one."
    )
    names_what = PARTS
    needs_names = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from wrong_details(self.name, operation, data)

    def places(self, operation: Operation) -> tuple[Place, ...]:
        order = operation.details["order"]
        return ((FREE, ""), *((FREE, each) for each in order), *((TIGHT, each) for each in order))

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Any:
        now, details = self.standing(work, work.by, work.at), work.operation.details
        if out := _discarded(work):
            return RenewForm(data, number=out[0])
        if now.following is None:
            return JointForm(data)
        if not now.following[1]:
            return GaugeForm(data, details=details, now=now)
        return LengthForm(data, details=details, now=now, before=self._repeated(work, now))

    def enter_at(self, work: Work, now: Standing, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        number, fastener = now.following or ("", "")
        if out := _discarded(work):
            return self._renewed(work, out[0], given, by, at)
        try:
            if not fastener:
                return self._begun(work, now, given, at)
            if "fastener" not in given:
                raise StepRefused(f"Number {fastener} is next: measure it {number}.")
            return self._measured(work, now, given, by, at)
        except MeasureError as error:
            raise StepRefused(f"{str(error).rstrip('.')}.") from None

    def missing(self, work: Work) -> list[str]:
        out = [f"Bolt {each} is discarded: a new one with its evidence takes its place." for each in _discarded(work)]
        return [*out, *super().missing(work)]

    def what_follows(self, work: Work, now: Standing) -> str:
        number, fastener = now.following or ("", "")
        begun = super().what_follows(work, now) if now.why else ""
        left = f"Number {fastener} is next, measured {number}." if fastener else "The gauge is to be chosen."
        return f"{begun} {left}".strip()

    def lines(self, work: Work) -> Content:
        now = self.standing(work, work.by, work.at)
        number, fastener = now.following or (TIGHT, "")
        done = [each for place, each in now.done if place == number and each]
        new = [entry for entry in work.entries if entry["pass"] == NEW]
        return {**super().lines(work), "dots": dots_of(work.operation.details, fastener, done), "renewed": new}

    def _begun(self, work: Work, now: Standing, given: Mapping[str, Any], at: datetime) -> Content:
        if "gauge" not in given:
            raise StepRefused(f"Choose the gauge first.{f' The joint is void: {now.why}.' if now.why else ''}")
        self.check_begun(now, given)
        gauge, unit = instrument(given["gauge"], at), work.operation.details["unit"]
        if gauge.unit != unit:
            raise StepRefused(f"{gauge.number} reads {gauge.unit}, the data ask for {unit}. Take one that reads {unit}.")
        return {
            **at_place(now),
            "done": "yes",
            "gauge": gauge.number,
            "certificate": gauge.certificate,
            "good_until": gauge.good_until.isoformat(),
            "begun_again": f"every bolt slackened; {now.why}" if now.why else "",
        }

    def _measured(self, work: Work, now: Standing, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        ask, typed = Ask.of(work.operation.details), given["length"].strip()
        bolt, void = self.tapped(now, given)
        gauge = next(entry["gauge"] for entry in self.entries_of(work, now) if not entry["fastener"])
        instrument(gauge, at).check(ask.length(typed))
        entry = {**at_place(now, bolt), "length": typed, "unit": ask.unit, "gauge": gauge}
        if void:
            return {**entry, "verdict": "void", "void": void}
        check_second_look(self._repeated(work, now), typed, given)
        entry |= self._free(ask, typed) if entry["pass"] == FREE else self._tight(work, now, ask, bolt, typed)
        if entry["verdict"] != DISCARDED:
            return {**entry, "done": "yes" if entry["verdict"] == WITHIN else ""}
        spot = spot_of(work, bolt)
        words = f"Bolt {bolt}, {work.words(spot)}: {entry['found']}; {entry['then']}."
        raise_at(work, spot if spot in work.now.tagged else None, words, by=by, at=at)
        return {**entry, "void": f"bolt {bolt} is discarded"}

    def _free(self, ask: Ask, typed: str) -> Content:
        stayed = ask.permanent_set(typed)
        if stayed is None:
            return {"verdict": WITHIN}
        amount = f"{as_read(stayed.amount, typed, ask.free_new)} {ask.unit}"
        if stayed.within:
            return {"set": amount, "verdict": WITHIN}
        found = f"it has stayed {amount} longer, at most {ask.most_set} {ask.unit} are allowed"
        return {"set": amount, "verdict": DISCARDED, "found": found, "then": "it is not used again"}

    def _tight(self, work: Work, now: Standing, ask: Ask, bolt: str, typed: str) -> Content:
        free = next(each for each in self.entries_of(work, now) if (each["pass"], each["fastener"]) == (FREE, bolt))
        stretch = stretch_read(read_number(free["length"]), read_number(typed))
        before = [read_number(each["stretch"]) for each in _of_this_bolt(work, bolt) if each.get("then")]
        finding, step = ask.decide(before, stretch)
        text = as_read(stretch, free["length"], typed)
        if finding is Finding.WITHIN:
            return {"stretch": text, "verdict": WITHIN}
        if step and step.after is After.AGAIN:
            return {"stretch": text, "verdict": AGAIN, "finding": str(finding), "then": step.action}
        then = step.action if step else "the data give no further step"
        found = f"its stretch of {text} {ask.unit} is {finding}"
        return {"stretch": text, "verdict": DISCARDED, "finding": str(finding), "found": found, "then": then}

    def _repeated(self, work: Work, now: Standing) -> str:
        """The length of another bolt in the same pass, just before."""
        before, following = self.before(work, now), now.following or ("", "")
        is_wonder = before and before["pass"] == following[0] and before["fastener"] != following[1]
        return str(before["length"]) if is_wonder else ""

    def _renewed(self, work: Work, bolt: str, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        if "identity" not in given:
            raise StepRefused(f"Bolt {bolt} is discarded: enter the new one with its evidence first.")
        if open_yet := undecided_about(work):
            raise StepRefused(f"An inspector decides before a new bolt comes. {' '.join(open_yet)}")
        item = renewed(work, spot_of(work, bolt), given["identity"].strip(), given["evidence"].strip(), by, at)
        told = {"identity": item.identity, "number": item.part_number, "evidence": given["evidence"].strip()}
        return {"try": "", "pass": NEW, "fastener": bolt, **told}


def _of_this_bolt(work: Work, bolt: str) -> list[Content]:
    """What was read of the bolt that is there now, in tries that are void as well: the rule of the data counts them all."""
    mine = [entry for entry in work.entries if entry["fastener"] == bolt]
    came = max((number for number, entry in enumerate(mine) if entry["pass"] == NEW), default=-1)
    return [entry for entry in mine[came + 1 :] if entry.get("stretch")]


def _discarded(work: Work) -> list[str]:
    """Bolts that are out and not yet renewed, in the order in which they were found."""
    out: list[str] = []
    for entry in work.entries:
        if entry.get("verdict") == DISCARDED:
            out.append(entry["fastener"])
        elif entry["pass"] == NEW:
            out.remove(entry["fastener"])
    return out
