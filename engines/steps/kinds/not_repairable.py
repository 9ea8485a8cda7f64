"""A part that the data forbid to repair or use again: scrapped, made unusable before another person's eyes, then renewed."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import AREA_STAGES, ENGINE_STAGES, Operation, PackData
from engines.parts.models import Item
from engines.parts.queries import with_evidence
from engines.parts.services import book_evidence, scrap_item, take_off
from engines.steps.asking import Question, check_answer, check_asked, one_of, typed
from engines.steps.details import unknown
from engines.steps.fitting import put_back
from engines.steps.new_parts import booked_in
from engines.steps.photographs import keep_photo, photo_field
from engines.steps.scrapping import NEW, SCRAP, UNUSABLE, USABLE, WITNESS, Old, asked_of, olds_of
from engines.steps.spots import as_value
from engines.steps.work import PARTS, Content, Step, StepRefused, Work
from engines.visits.services import tag_replacement
from shopfloor.people.models import Person

FITTED_IN = (AREA_STAGES[-1], *ENGINE_STAGES)


class NotRepairable(Step):
    name = "not-repairable"
    words = "not repairable"
    caution = (
        "A scrapped part that still looks good finds its way into an engine. Make it unusable now, before it leaves the bench; "
        "mind sharp edges, springs and splinters while you do."
    )
    names_what = PARTS
    needs_names = moves_parts = True
    has_own_paper = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from unknown(self.name, operation.details, ())
        for line in (data.line_by_code[name] for name in operation.names if name in data.line_by_code):
            if line.renew or line.tracking == "none":
                yield f"“{line.line}” is not told apart, so nobody could say which one is scrapped: use renew-always"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        asked = asked_of(work, olds_of(work))
        return Question(data, files, asked=asked.text, **_fields(work, asked.old)) if asked else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        olds = olds_of(work)
        _check_not_own(work, olds, given, by)
        asked = asked_of(work, olds)
        check_asked(asked.text if asked else None, given)
        assert asked
        old = asked.old
        told = {SCRAP: self._scrapped, WITNESS: self._witnessed, NEW: self._renewed}[old.act](work, old, given, by, at)
        return {"spot": as_value(old.spot), "position": work.words(old.spot), "act": old.act, "old": str(old.item), **told}

    def missing(self, work: Work) -> list[str]:
        olds = olds_of(work)
        untagged = [spot for spot in work.spots if spot not in work.now.tagged]
        left = [f"{work.words(old.spot)}: {_what_follows(old)}" for old in olds if old.act]
        return [*(f"{work.words(spot)} is not tagged: nobody knows which part is meant." for spot in untagged), *left]

    def refuses_signer(self, work: Work, by: Person) -> list[str]:
        done = {hand for entry, hand in zip(work.entries, work.hands, strict=True) if entry["act"] != WITNESS}
        if not done or by.pk in done:
            return []
        return ["You only saw it done. Whoever made the old part unusable or renewed it signs."]

    def lines(self, work: Work) -> Content:
        return {"entries": work.entries, "olds": [(work.words(old.spot), old.item, _what_follows(old)) for old in olds_of(work)]}

    def _scrapped(self, work: Work, old: Old, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        read, how = given["identity"].strip(), given["how"].strip()
        if not read or read not in (old.item.serial, old.item.mark):
            raise StepRefused(f"{old.item} is to be scrapped here, and you read “{read}”. Read it again: spare the part in hand.")
        if not how:
            raise StepRefused("Say how it was made unusable: cut, bent, drilled through.")
        photo = keep_photo(given["photo"], at)
        if not photo:
            raise StepRefused("Take a photo of the part as it is now, so that everybody sees that it is unusable.")
        root, line = work.visit.engine.item, old.spot[0]
        take_off(root=root, lines=[line], item=old.item, reason="not repairable", by=by, at=at)
        if not old.item.scrapped_at:
            scrap_item(item=old.item, reason=f"not repairable, {work.operation.source}: {how}", by=by, at=at)
        return {"how": how, "photo": photo}

    def _witnessed(self, work: Work, old: Old, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        check_answer(given, (UNUSABLE, USABLE))
        return {"answer": given["answer"]}

    def _renewed(self, work: Work, old: Old, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        identity, evidence = given["identity"].strip(), given["evidence"].strip()
        if not identity or not evidence:
            raise StepRefused("A new part needs its serial or mark, and the number of its evidence of eligibility.")
        if identity in (old.item.serial, old.item.mark):
            raise StepRefused(f"“{identity}” is the part that was scrapped. Read the serial or mark of the new one.")
        item = self._in_its_place(work, old, identity, evidence, by, at)
        fitment = work.now.fitted.get(old.spot)
        if work.operation.stage in FITTED_IN and not (fitment and fitment.item_id == item.pk):
            put_back(work, old.spot, item, by=by, at=at)
        return {"new": str(item), "number": item.part_number, "evidence": evidence}

    def _in_its_place(self, work: Work, old: Old, identity: str, evidence: str, by: Person, at: datetime) -> Item:
        """The part that took the place already, by a decision or in an earlier round; else one that is booked in now."""
        tagged, (line, place) = work.now.tagged[old.spot], old.spot
        if tagged.item is None or tagged.item_id == old.item.pk:
            item = booked_in(work.line(old.spot), identity, evidence, by, at)
            words = "in place of a part that may not be repaired"
            tag_replacement(visit=work.visit, line=line, place=place, item=item, words=words, by=by, at=at)
            return item
        if identity not in (tagged.item.serial, tagged.item.mark):
            raise StepRefused(f"{tagged.item} has taken the place already, and you read “{identity}”. Read the part again.")
        if tagged.item not in with_evidence([tagged.item]):
            book_evidence(item=tagged.item, kind="certificate", number=evidence, by=by, at=at)
        return tagged.item


def _fields(work: Work, old: Old) -> dict[str, forms.Field]:
    where = work.words(old.spot)
    if old.act == SCRAP:
        return {
            "identity": typed(
                f"{where}: serial or mark that you read on the old part", "On the part in your hand, not on its tag."
            ),
            "how": typed("How you made it unusable", "Cut, bent, drilled through: so that nobody can fit it again."),
            "photo": photo_field("Photo of it as it is now", required=True),
        }
    if old.act == WITNESS:
        asks = f"{where}: you have {old.item} before you. Is it"
        return {
            "answer": one_of(asks, UNUSABLE, USABLE, help_text="Another person made it so. Look at the part, not at the photo.")
        }
    return {
        "identity": typed(f"{where}: serial or mark of the new part", "Read it on the new part."),
        "evidence": typed("Its evidence of eligibility", "The number of its certificate."),
    }


def _check_not_own(work: Work, olds: list[Old], given: Mapping[str, Any], by: Person) -> None:
    """Persons are compared, not roles."""
    own = [old for old in olds if old.act == WITNESS and old.hand == by.pk]
    if any(given.get("asked") == f"{WITNESS}: {work.words(old.spot)}" for old in own):
        raise StepRefused("You made it unusable yourself, so another person has to see it. Call one, and let them sign in.")


def _what_follows(old: Old) -> str:
    if old.act == SCRAP:
        again = f"{old.item} could still be fitted, says who looked at it. Make it unusable."
        return again if old.is_disputed else f"{old.item} is not made unusable yet."
    if old.act == WITNESS:
        return f"another person has yet to see that {old.item} is unusable."
    return (
        f"no new part has taken the place of {old.item} yet." if old.act else f"{old.item} is unusable, seen by another person."
    )
