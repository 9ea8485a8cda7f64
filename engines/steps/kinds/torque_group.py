"""The fasteners of a joint, tightened one by one in the order and the passes of the data.

For each pass a wrench is taken from the register; then every fastener is kept with the torque that the wrench showed. What the
fastener got (through an adapter, less the drag of running it down) is judged in exact figures against the range of the pass.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

from engines.catalogue.data import Operation, PackData
from engines.steps.instruments import in_unit, instrument
from engines.steps.joint_forms import JointForm
from engines.steps.joint_step import JointStep, at_place
from engines.steps.joints import Place, Standing, in_passes
from engines.steps.noticing import raise_at
from engines.steps.picture import dots_of
from engines.steps.second_look import check_second_look
from engines.steps.torque import WET, adapter_of, drawn_in, range_of, wrong_details
from engines.steps.torque_forms import ALIGNED, BACKED_OFF, ReadyForm, TighteningForm
from engines.steps.work import Content, StepRefused, Work
from measurements.metrology.errors import MeasureError
from measurements.metrology.fasteners.castle import NextStep, Stop, Turn, next_step, window
from measurements.metrology.numbers import plain_ratio, read_number
from shopfloor.people.models import Person

WITHIN, MORE = "within", "not there yet"
VERDICTS = {NextStep.LOCK: WITHIN, NextStep.TIGHTEN_ON: MORE}


class TorqueGroup(JointStep):
    name = "torque-group"
    words = "torque group"
    caution = (
        "A wrench that slips throws the hand against metal: pull, do not push, and stand so that you cannot fall. A fastener "
        "that was tightened too far is never slackened back to the figure."
    )

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from wrong_details(self.name, operation, data)

    def places(self, operation: Operation) -> tuple[Place, ...]:
        return in_passes(each["order"] for each in operation.details["passes"])

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Any:
        now, details = self.standing(work, work.by, work.at), work.operation.details
        if now.following is None:
            return JointForm(data)
        if not now.following[1]:
            return ReadyForm(data, details=details, now=now)
        asks_drag, before = "run_down" in details and not self._known_drag(work, now), self._repeated(work, now)
        ready = self._ready(work, now)
        said = {"unit": ready["unit"], "reach": _reach(details, ready)}
        return TighteningForm(data, details=details, now=now, before=before, asks_drag=asks_drag, **said)

    def enter_at(self, work: Work, now: Standing, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        number, fastener = now.following or ("", "")
        try:
            if not fastener:
                return self._made_ready(work, now, number, given, at)
            if "fastener" not in given:
                raise StepRefused("The wrench for this pass is chosen already. Tighten the fastener that is next.")
            return self._tightened(work, now, given, by, at)
        except MeasureError as error:
            raise StepRefused(f"{error}.".replace("..", ".")) from None

    def what_follows(self, work: Work, now: Standing) -> str:
        number, fastener = now.following or ("", "")
        left = f"number {fastener} is next" if fastener else "its wrench is to be chosen"
        begun = super().what_follows(work, now) if now.why else ""
        return f"{begun} Pass {number} of {len(work.operation.details['passes'])}: {left}.".strip()

    def lines(self, work: Work) -> Content:
        now = self.standing(work, work.by, work.at)
        number, fastener = now.following or (str(len(work.operation.details["passes"])), "")
        done = [each for place, each in now.done if place == number and each]
        return {**super().lines(work), "dots": dots_of(work.operation.details, fastener, done)}

    def _made_ready(self, work: Work, now: Standing, number: str, given: Mapping[str, Any], at: datetime) -> Content:
        details = work.operation.details
        if "wrench" not in given:
            void = f" The joint is void: {now.why}." if now.why else ""
            raise StepRefused(f"Choose the wrench for pass {number} first.{void}")
        self.check_begun(now, given)
        threads = f"wet with {details['lubricant']}" if details["condition"] == WET else "clean and dry"
        if given["threads"] != details["condition"]:
            raise StepRefused(f"The data ask for the threads {threads}. Make them so first.")
        wrench, adapter = instrument(given["wrench"], at), adapter_of(details)
        length = read_number(given["wrench_length"].strip()) if adapter else None
        for wanted in range_of(details, number):
            there = in_unit(wanted, details["unit"], wrench.unit)
            wrench.check(adapter.setting(there, length) if adapter and length is not None else there)
        return {
            **at_place(now),
            "done": "yes",
            "wrench": wrench.number,
            "unit": wrench.unit,
            "certificate": wrench.certificate,
            "good_until": wrench.good_until.isoformat(),
            "threads": threads,
            "wrench_length": f"{length:f}" if length is not None else "",
            "begun_again": f"every fastener slackened; {now.why}" if now.why else "",
        }

    def _tightened(self, work: Work, now: Standing, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        details, ready = work.operation.details, self._ready(work, now)
        typed = given["torque"].strip()
        turned, void = self.tapped(now, given)
        instrument(ready["wrench"], at).check(Fraction(read_number(typed)))
        entry = {**at_place(now, turned), "torque": typed, "unit": ready["unit"], "wrench": ready["wrench"]}
        if void:
            return {**entry, "verdict": "void", "void": void}
        check_second_look(self._repeated(work, now), typed, given)
        entry |= {"run_down": self._drag(work, now, given), "slot": _slot(details, entry["pass"], given)}
        step, gets = self._judged(work, now, ready, entry)
        entry |= {"gets": f"{gets} {details['unit']}", "verdict": VERDICTS.get(step, "void")}
        if step in VERDICTS:
            return {**entry, "done": "yes" if step is NextStep.LOCK else ""}
        if step is NextStep.OVER:
            raise_at(work, None, f"Fastener {turned} got {gets} {details['unit']}: {details['over']}", by=by, at=at)
        return {**entry, "void": f"number {turned}: {step}"}

    def _repeated(self, work: Work, now: Standing) -> str:
        """What was read at another fastener just before. A wrench that is set and clicks shows the same each time."""
        before, fastener = self.before(work, now), (now.following or ("", ""))[1]
        is_wonder = before and before["fastener"] != fastener and "set_wrench" not in work.operation.details
        return str(before["torque"]) if is_wonder else ""

    def _ready(self, work: Work, now: Standing) -> Content:
        """The wrench of the pass that the try is in."""
        return next(entry for entry in reversed(self.entries_of(work, now)) if entry["pass"] and not entry["fastener"])

    def _known_drag(self, work: Work, now: Standing) -> str:
        """Read once in a try, before the fastener seats; it counts in every pass."""
        fastener = (now.following or ("", ""))[1]
        known = (each.get("run_down", "") for each in self.entries_of(work, now) if each["fastener"] == fastener)
        return next(filter(None, known), "")

    def _drag(self, work: Work, now: Standing, given: Mapping[str, Any]) -> str:
        """With its unit, since another pass may have another wrench."""
        details, typed = work.operation.details, str(given.get("run_down") or "").strip()
        if "run_down" not in details:
            return ""
        if known := self._known_drag(work, now):
            return known
        if not typed:
            raise StepRefused("Read the torque that runs the nut down before it seats: it is added to what the data ask.")
        return f"{typed} {self._ready(work, now)['unit']}"

    def _judged(self, work: Work, now: Standing, ready: Content, entry: Content) -> tuple[NextStep, str]:
        """What to do with the fastener after all its stops in this pass, and what it got with the last of them."""
        details, place = work.operation.details, (entry["pass"], entry["fastener"])
        low, high = range_of(details, entry["pass"])
        stops = [each for each in self.entries_of(work, now) if (each["pass"], each["fastener"]) == place] + [entry]
        gets = [_gets(details, ready, read_number(each["torque"])) for each in stops]
        turns = [Stop(got, each["slot"] in ("", ALIGNED), _turn(each)) for got, each in zip(gets, stops, strict=True)]
        return next_step(turns, window(low, high, _added(details, entry))), plain_ratio(gets[-1].numerator, gets[-1].denominator)


def _turn(entry: Content) -> Turn:
    return Turn.BACKED_OFF if entry["slot"] == BACKED_OFF else Turn.TIGHTENED


def _added(details: Mapping[str, Any], entry: Content) -> Fraction:
    if not entry["run_down"]:
        return Fraction()
    figure, unit = entry["run_down"].split(" ", 1)
    return in_unit(read_number(figure), unit, details["unit"])


def _gets(details: Mapping[str, Any], ready: Content, torque: Decimal) -> Fraction:
    there, adapter = in_unit(torque, ready["unit"], details["unit"]), adapter_of(details)
    return adapter.gets(there, read_number(ready["wrench_length"])) if adapter else there


def _reach(details: Mapping[str, Any], ready: Content) -> str:
    """What the wrench may show, so that nobody has to work an adapter out."""
    adapter, unit = adapter_of(details), ready["unit"]
    there = [in_unit(figure, details["unit"], unit) for figure in range_of(details, ready["pass"])]
    if adapter:
        there = [adapter.setting(figure, read_number(ready["wrench_length"])) for figure in there]
    low, high = drawn_in(*there)
    drag = ", and what ran the nut down on top" if "run_down" in details else ""
    return f"In this pass from {low} to {high} {unit}{' with the adapter' if adapter else ''}{drag}."


def _slot(details: Mapping[str, Any], number: str, given: Mapping[str, Any]) -> str:
    """How slot and hole lie, of a castle nut in its last pass."""
    if "castle" not in details or number != str(len(details["passes"])):
        return ""
    if not given.get("slot"):
        raise StepRefused("Say whether the slot meets the hole, and how it got there.")
    return str(given["slot"])
