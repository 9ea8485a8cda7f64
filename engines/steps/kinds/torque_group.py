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
from engines.steps.instruments import instrument
from engines.steps.joint_step import JointStep, Standing
from engines.steps.joints import Place, in_passes
from engines.steps.kinds.torque_forms import ALIGNED, BACKED_OFF, ReadyForm, TighteningForm, VoidForm
from engines.steps.noticing import raise_at
from engines.steps.picture import dots_of
from engines.steps.second_look import check_second_look
from engines.steps.torque import WET, adapter_of, in_data, range_of, wrong_details
from engines.steps.work import Content, StepRefused, Work
from measurements.metrology.errors import MeasureError
from measurements.metrology.fasteners.castle import NextStep, Stop, Turn, next_step, window
from measurements.metrology.numbers import plain_ratio, read_number
from measurements.metrology.units import ratio
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
        now = self.standing(work, work.by, work.at)
        if now.following is None:
            return VoidForm(data)
        if not now.following[1]:
            return ReadyForm(data, details=work.operation.details, now=now)
        before, ready = _turned_before(work, now), _ready(work, now)
        return TighteningForm(data, details=work.operation.details, now=now, before=before, unit=ready["unit"])

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
            raise StepRefused(
                f"Choose the wrench for pass {number} first. {now.why and f'The joint is void: {now.why}.'}".strip()
            )
        if now.tries and now.why and not given.get("slackened"):
            raise StepRefused(f"The joint is void: {now.why}. Slacken every fastener, tick that you did, and begin again.")
        if given["threads"] != details["condition"]:
            wanted = f"wet with {details['lubricant']}" if details["condition"] == WET else "clean and dry"
            raise StepRefused(f"The data ask for the threads {wanted}. Make them so first.")
        wrench, adapter = instrument(given["wrench"], at), adapter_of(details)
        length = read_number(given["wrench_length"].strip()) if adapter else None
        for wanted in range_of(details, number):
            there = Fraction(wanted) * ratio(details["unit"], wrench.unit)
            wrench.check(adapter.setting(there, length) if adapter and length is not None else there)
        return {
            **_at(now, number, ""),
            "done": "yes",
            "wrench": wrench.number,
            "unit": wrench.unit,
            "certificate": wrench.certificate,
            "good_until": wrench.good_until.isoformat(),
            "threads": f"wet, {details['lubricant']}" if details["condition"] == WET else "clean and dry",
            "wrench_length": f"{length:f} {adapter.unit}" if adapter and length is not None else "",
            "begun_again": f"every fastener slackened; {now.why}" if now.why else "",
        }

    def _tightened(self, work: Work, now: Standing, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        number, fastener = now.following or ("", "")
        details, ready, turned = work.operation.details, _ready(work, now), str(given["fastener"])
        typed, torque = given["torque"].strip(), read_number(given["torque"].strip())
        if turned != fastener and not given.get("out_of_order"):
            raise StepRefused(
                f"Number {fastener} is next, not {turned}. If {turned} was tightened, tick that: the joint is then void."
            )
        instrument(ready["wrench"], at).check(Fraction(torque))
        entry = {**_at(now, number, turned), "torque": typed, "unit": ready["unit"], "wrench": ready["wrench"]}
        if turned != fastener:
            return {**entry, "void": f"out of order: number {turned} in place of {fastener}"}
        before = _turned_before(work, now)
        if before.get("fastener") not in (None, turned) and "set_wrench" not in details:
            check_second_look(before["torque"], typed, given)
        entry |= {"run_down": self._drag(work, now, fastener, given), "slot": _slot(details, number, given)}
        step, gets = self._judged(work, now, ready, entry)
        entry |= {"gets": f"{gets} {details['unit']}", "verdict": VERDICTS.get(step, "void")}
        if step not in VERDICTS:
            if step is NextStep.OVER:
                raise_at(work, None, f"Fastener {turned} got {gets} {details['unit']}: {details['over']}", by=by, at=at)
            return {**entry, "void": f"number {turned}: {step}"}
        return {**entry, "done": "yes" if step is NextStep.LOCK else ""}

    def _drag(self, work: Work, now: Standing, fastener: str, given: Mapping[str, Any]) -> str:
        """Read once in a try, before the fastener seats; it counts in every pass."""
        if "run_down" not in work.operation.details:
            return ""
        known = [entry["run_down"] for entry in _of_try(work, now) if entry["fastener"] == fastener and entry.get("run_down")]
        if known:
            return str(known[0])
        if not str(given.get("run_down") or "").strip():
            raise StepRefused("Read the torque that runs the nut down before it seats: it is added to what the data ask.")
        return f"{read_number(given['run_down'].strip()):f}"

    def _judged(self, work: Work, now: Standing, ready: Content, entry: Content) -> tuple[NextStep, str]:
        """What to do with the fastener after all its stops in this pass, and what it got with the last of them."""
        details, unit = work.operation.details, ready["unit"]
        low, high = range_of(details, entry["pass"])
        drag = in_data(read_number(entry["run_down"] or "0"), unit, details)
        same = ("pass", "fastener")
        stops = [each for each in _of_try(work, now) if [each[key] for key in same] == [entry[key] for key in same]]
        gets = [_gets(details, ready, read_number(each["torque"])) for each in (*stops, entry)]
        turns = [
            Stop(got, each["slot"] in ("", ALIGNED), Turn.BACKED_OFF if each["slot"] == BACKED_OFF else Turn.TIGHTENED)
            for got, each in zip(gets, (*stops, entry), strict=True)
        ]
        return next_step(turns, window(low, high, drag)), plain_ratio(gets[-1].numerator, gets[-1].denominator)


def _gets(details: Mapping[str, Any], ready: Content, torque: Decimal) -> Fraction:
    there, adapter = in_data(torque, ready["unit"], details), adapter_of(details)
    return adapter.gets(there, read_number(ready["wrench_length"].split()[0])) if adapter else there


def _slot(details: Mapping[str, Any], number: str, given: Mapping[str, Any]) -> str:
    """How slot and hole lie, of a castle nut in its last pass."""
    if "castle" not in details or number != str(len(details["passes"])):
        return ""
    if not given.get("slot"):
        raise StepRefused("Say whether the slot meets the hole, and how it got there.")
    return str(given["slot"])


def _at(now: Standing, number: str, fastener: str) -> Content:
    return {"try": str(now.number), "pass": number, "fastener": fastener}


def _of_try(work: Work, now: Standing) -> list[Content]:
    return [entry for entry in work.entries if entry["try"] == str(now.number)]


def _ready(work: Work, now: Standing) -> Content:
    """The wrench of the pass that the try is in."""
    return next(entry for entry in reversed(_of_try(work, now)) if entry["pass"] and not entry["fastener"])


def _turned_before(work: Work, now: Standing) -> Content:
    return next((entry for entry in reversed(_of_try(work, now)) if entry["fastener"]), {})
