"""Mates go together only as the table of the data permits: undersize journal and shell, piston and barrel, barrel and ring.

Of each mate it is said what it is; where a reading knows, both must agree. Parts that are renewed only as a set are looked at
here too: where one came new, every one must have.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.inspection.sets import Together
from engines.steps.asking import Question, check_answer, check_asked, one_of, typed
from engines.steps.noticing import raise_at, undecided_about
from engines.steps.pairing import AGAIN, FIRST, NOT_PERMITTED, PERMITTED, SECOND, Mate, Next, Pairs
from engines.steps.pairing_details import wrong_pairing
from engines.steps.work import Content, Step, StepRefused, Work
from shopfloor.people.models import Person

OTHER, BOTH_ANEW = "something else", "look at both again"


class PermittedPairing(Step):
    name = "permitted-pairing"
    words = "permitted pairing and sets"
    caution = "Parts that do not belong together can seize or run dry. Read what is stamped on each part itself, not on its box."
    has_own_paper = is_rechecked = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from wrong_pairing(self.name, operation.details, data)

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        pairs = Pairs(work)
        return Question(data, asked=_asked(pairs.next), **_fields(pairs, pairs.next)) if pairs.next else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        pairs = Pairs(work)
        asked = pairs.next
        check_asked(_asked(asked) if asked else None, given)
        assert asked
        check_answer(given, _answers(pairs, asked))
        if given["answer"] == BOTH_ANEW:
            return {"act": AGAIN, "place": asked.place}
        said = self._said(pairs, asked, given)
        return self._together(pairs, asked, said, given, by, at) if asked.first else {"act": FIRST, **said}

    def missing(self, work: Work) -> list[str]:
        pairs = Pairs(work)
        open_yet = [_left(pairs, place) for place in pairs.places if not pairs.is_done(place)]
        return [*open_yet, *undecided_about(work), *(sentence for each in _sets(work) for sentence in each.wrong)]

    def shown(self, work: Work) -> Content:
        return {**super().shown(work), "sets": [sentence for each in _sets(work) for sentence in _in_words(each)]}

    def lines(self, work: Work) -> Content:
        pairs = Pairs(work)
        return {
            "mates": pairs.mates,
            "pairs": [(place, *pairs.said_at(place), pairs.why_void(place)) for place in pairs.places],
            "table": pairs.table,
            "sets": [(each.renewed, _in_words(each), each.wrong) for each in _sets(work)],
        }

    def _said(self, pairs: Pairs, asked: Next, given: Mapping[str, Any]) -> Content:
        """What the mate is, as the person says and the system knows. Raises StepRefused."""
        mate, place = asked.mate, asked.place
        value = given["what"].strip() if given["answer"] == OTHER else given["answer"]
        if not value:
            raise StepRefused(f"Write down what {mate.name} at {place} is, as it stands on the part.")
        item = pairs.item(mate, place)
        if item is None and pairs.spot(mate, place):
            raise StepRefused(f"No part is fitted or tagged as {mate.name} at {place}. Book it in at its position first.")
        if mate.row and (known := pairs.class_read(mate, place)) != value:
            raise StepRefused(_read_otherwise(mate, place, value, known))
        return {
            "place": place,
            "mate": mate.name,
            "is": value,
            "item": str(item.pk) if item else "",
            "part": str(item) if item else "",
        }

    def _together(self, pairs: Pairs, asked: Next, said: Content, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        first = asked.first or {}
        row = next((each for each in pairs.table if (each.first, each.second) == (first["is"], said["is"])), None)
        reason = given["reason"].strip()
        both = f"{first['mate']} {first['is']} with {said['mate']} {said['is']}"
        if row:
            return {"act": SECOND, **said, "with": first["is"], "verdict": PERMITTED, "source": str(row.source), "reason": ""}
        if not reason:
            raise StepRefused(
                f"{asked.place}: the data do not permit {both}. {_permits(pairs, first)} Fit other parts and answer with those; "
                "where there are none, give the reason, and an inspector decides."
            )
        spots = filter(None, (pairs.spot(mate, asked.place) for mate in pairs.mates))
        raise_at(pairs.work, next(spots, None), f"{asked.place}: {both} is not permitted. {reason}", by=by, at=at)
        return {"act": SECOND, **said, "with": first["is"], "verdict": NOT_PERMITTED, "source": "", "reason": reason}


def _asked(asked: Next | None) -> str:
    """With what was said of the first mate, so that an answer to another one is noticed."""
    if asked is None:
        return ""
    with_first = f", together with {asked.first['is']}" if asked.first else ""
    return f"{asked.place}: {asked.mate.name}{with_first}"


def _answers(pairs: Pairs, asked: Next) -> list[str]:
    """Everything that the table knows of this mate, permitted here or not, so that nothing is suggested."""
    known = dict.fromkeys(each.second if asked.first else each.first for each in pairs.table)
    return [*known, OTHER, *([BOTH_ANEW] if asked.first else [])]


def _fields(pairs: Pairs, asked: Next) -> dict[str, forms.Field]:
    label = f"{asked.place}: {asked.mate.name}, {asked.mate.told_by}"
    fields: dict[str, forms.Field] = {
        "answer": one_of(label, *_answers(pairs, asked), help_text="As you read it on the part itself."),
        "what": typed(f"Where it is {OTHER}: what stands on it", required=False),
    }
    if asked.first:
        fields["reason"] = forms.CharField(
            label="Reason, where the data do not permit it",
            max_length=300,
            required=False,
            help_text="Only where no other parts are to be had: an inspector then decides, and it waits for a concession.",
        )
    return fields


def _read_otherwise(mate: Mate, place: str, value: str, known: str | None) -> str:
    if known is None:
        return (
            f"{mate.name} at {place} has no reading that counts on the part that is there. Its size class decides: read it first."
        )
    return f"{mate.name} at {place} was read as {known}, not {value}. Look at the part again; where you are right, read it anew."


def _permits(pairs: Pairs, first: Content) -> str:
    """What the table has for this first mate, or where it has nothing, all that it has."""
    mine = [each for each in pairs.table if each.first == first["is"]]
    told = "; ".join(f"{each.first} with {each.second} ({each.source})" for each in mine or pairs.table)
    return f"They permit {told}."


def _left(pairs: Pairs, place: str) -> str:
    first, second = pairs.said_at(place)
    if first is None:
        return f"{place}: nobody has said yet what goes together."
    if why := pairs.why_void(place):
        return f"{place}: {why}. Say anew what goes together."
    if second is None:
        return f"{place}: {first['mate']} is {first['is']}; with what, is not said yet."
    both = f"{first['mate']} {first['is']} with {second['mate']} {second['is']}"
    return f"{place}: {both} is not permitted. Fit other parts and answer anew, or it waits for a concession."


def _sets(work: Work) -> list[Together]:
    wanted = work.operation.details.get("sets", ())
    return [each for each in work.now.sets if each.renewed.code in wanted] if wanted else []


def _in_words(together: Together) -> list[str]:
    return [f"{each.words}: {f'new, {each.new}' if each.new else 'the one that was there'}" for each in together.members]
