"""The records of a visit gathered into the plain values that the rules decide on: a constant number of queries."""

from collections.abc import Iterable
from functools import cached_property
from typing import Any, TypeVar
from uuid import UUID

from django.db.models import F, Model, Prefetch, QuerySet

from engines.inspection.answers import refusal_of
from engines.inspection.models import Discrepancy, Disposition, Taken, WorkAsked
from engines.inspection.outside import out_at, read_anew
from engines.inspection.requirements import Rows, rows_for
from engines.inspection.sets import Together, together
from engines.inspection.standing import Decision, Facts, Read, Requirement, Spot, Standing, Standings
from engines.parts.models import Fitment, Item
from engines.parts.queries import fitted_now, with_evidence
from engines.vendors.models import OutsideWork
from engines.vendors.queries import orders_for
from engines.visits.models import Tagged, Visit
from engines.visits.queries import tagged_by_spot
from measurements.metrology.verdicts import Reason
from measurements.readings.models import Reading

JOINED = ("reading__gauge", "reading__calibration", "reading__taken_by", "item")
Found = TypeVar("Found", bound=Model)
CORRECTED_BY = Reading._meta.get_field("corrected_by")


class Inspection:
    """Everything that counts on one engine now. Each part is gathered when it is first asked for, by a query or two.

    With `names` only what counts for these characteristics, at one place or at all of theirs.
    """

    def __init__(self, visit: Visit, *, names: Iterable[str] = (), place: str = "") -> None:
        self.visit = visit
        self.rows: Rows = rows_for(visit)
        self._names, self._place = frozenset(names), place

    @cached_property
    def tagged(self) -> dict[Spot, Tagged]:
        if not self._names:
            return tagged_by_spot(self.visit)
        near = {row for name in self._names for row in self.rows.around(name)}
        here = (each for each in self.rows.requirements if each.row in near and self._place in ("", each.place))
        return tagged_by_spot(self.visit, {each.line for each in here})

    @cached_property
    def taken(self) -> dict[UUID, Taken]:
        """Every reading by its id, corrected ones too, in the order of their moments."""
        found = _taken_on(self.visit, *JOINED).order_by()
        if self._names:
            found = found.filter(row__in=self._near())
        if self._place:
            found = found.filter(place=self._place)
        every = sorted(found.annotate(correction=F("reading__corrected_by")), key=lambda each: (each.taken_at, each.reading_id))
        taken = {each.reading_id: self._with_its_row(each) for each in every}
        _join_corrections(taken)
        return taken

    def _near(self) -> set[str]:
        """What they are made of, their fits and the mates of those; and what was decided about, since that may concern them."""
        decided = set() if self._place else {each.row for each in self.discrepancies if each.row}
        return {row for name in self._names | decided for row in self.rows.around(name)}

    @cached_property
    def discrepancies(self) -> list[Discrepancy]:
        return _if_any(discrepancies_of(self.visit))

    @cached_property
    def outside(self) -> list[OutsideWork]:
        """Every order for work outside the shop, ended ones too, in its order."""
        return _if_any(orders_for(self.visit.engine.item, self.visit.received_at))

    def out(self, line: str, place: str) -> OutsideWork | None:
        """The order with which the part that belongs there is out of the shop now."""
        return out_at(self.outside, self.tagged.get((line, place))) if self.outside else None

    @cached_property
    def fitted(self) -> dict[Spot, Fitment]:
        """What is at each position of the engine by the record."""
        return fitted_now(self.visit.engine.item)

    @cached_property
    def taken_off(self) -> frozenset[UUID]:
        """The parts that came with the engine, wherever they are now."""
        first = Tagged.objects.filter(visit=self.visit, in_place_of__isnull=True, item__isnull=False)
        return frozenset(first.values_list("item_id", flat=True))

    @cached_property
    def standings(self) -> Standings:
        facts = Facts(
            reads=[_read(each) for each in self.taken.values()],
            decisions=[
                *(_decision(made, each) for each in self.discrepancies for made in each.made),
                *read_anew(self.outside, self.rows.requirements),
            ],
            items={spot: tag.item_id for spot, tag in self.tagged.items()},
        )
        return Standings(self.rows.requirements, facts)

    @cached_property
    def sets(self) -> list[Together]:
        """Parts that are renewed only together, and which of them came new."""
        data = self.rows.data
        lines = {data.line_by_code[name] for each in data.renewed_sets for name in each.lines}
        spots = [(line.line, place) for line in lines for place in line.places]
        new = {spot: item for spot in spots if (item := self._new_at(spot))}
        return together(data, new, with_evidence(new.values()))

    def _new_at(self, spot: Spot) -> Item | None:
        """By its tag where it has one: new is what did not come with the engine. Without a tag, what was fitted on this visit."""
        if tagged := self.tagged.get(spot):
            return None if tagged.item_id in self.taken_off else tagged.item
        fitment = self.fitted.get(spot)
        return fitment.item if fitment and fitment.fitted_at >= self.visit.received_at else None

    def of(self, requirement: Requirement) -> Standing:
        return self.standings.of(requirement)

    def required(self, *, areas: Iterable[str] | None = None, condition: str = "as received") -> list[Standing]:
        """How everything required stands, of some areas or of all."""
        wanted = None if areas is None else frozenset(areas)
        return [
            self.of(each)
            for each in self.rows.requirements
            if each.required and each.condition == condition and (wanted is None or each.area in wanted)
        ]

    def _with_its_row(self, taken: Taken) -> Taken:
        """The rows of the data are at hand, and wide: joining them costs more than all the rest."""
        if row := self.rows.by_id.get(taken.reading.row_id):
            taken.reading.row = row
        return taken

    def add(self, taken: Iterable[Taken]) -> None:
        """What was read a moment ago and is about to be kept counts with the rest."""
        for each in taken:
            CORRECTED_BY.set_cached_value(each.reading, None)
            if each.reading.corrects_id in self.taken:
                CORRECTED_BY.set_cached_value(self.taken[each.reading.corrects_id].reading, each.reading)
            self.taken[each.reading_id] = each
        self.__dict__.pop("standings", None)

    def reading_of(self, standing: Standing) -> Reading | None:
        return self.taken[standing.read.id].reading if standing.read else None


def inspection_of(visit: Visit) -> Inspection:
    return Inspection(visit)


def inspection_around(visit: Visit, row: str, place: str) -> Inspection:
    """As far as one characteristic at one place is concerned: what it is made of, and the mates of its fits."""
    return Inspection(visit, names=[row], place=place)


def inspection_about(visit: Visit, names: Iterable[str]) -> Inspection:
    """As far as these characteristics are concerned, at every place: what is asked of them is answered as from the whole."""
    return Inspection(visit, names=names)


def _if_any(found: QuerySet[Found]) -> list[Found]:
    """Most engines have none of these, and to word what joins so much takes longer than to look first."""
    return list(found) if found.exists() else []


def taken_on(visit: Visit) -> QuerySet[Taken]:
    """Everything ever read on this visit, corrected readings too, in the order of their moments."""
    return _taken_on(visit, "reading__row", "reading__corrected_by", *JOINED)


def _taken_on(visit: Visit, *joined: str) -> QuerySet[Taken]:
    return Taken.objects.filter(visit=visit).select_related(*joined).order_by("taken_at", "reading_id")


def _join_corrections(taken: dict[UUID, Any]) -> None:
    """A correction is among them itself, so it is not read a second time beside what it corrects."""
    for each in taken.values():
        if each.correction is None or each.correction in taken:
            corrected_by = taken[each.correction].reading if each.correction else None
            CORRECTED_BY.set_cached_value(each.reading, corrected_by)


def discrepancies_of(visit: Visit) -> QuerySet[Discrepancy]:
    newest_last = Disposition.objects.select_related("made_by", "second_by", "carried_out").order_by("made_at", "id")
    made = Prefetch("dispositions", queryset=newest_last, to_attr="made")
    joined = ("reading__row", "reading__corrected_by", "item", "raised_by")
    found = Discrepancy.objects.filter(visit=visit).select_related(*joined)
    answered = ("asked_by", "answer__answered_by", "withdrawal__withdrawn_by")
    asked = Prefetch("requests", queryset=WorkAsked.objects.select_related(*answered).order_by("number"), to_attr="asked")
    return found.prefetch_related(made, asked).order_by("number")  # type: ignore[no-redef]


def _read(taken: Taken) -> Read:
    reading = taken.reading
    return Read(
        id=reading.pk,
        row=taken.row,
        place=taken.place,
        item=taken.item_id,
        verdict=reading.verdict,
        at=reading.taken_at,
        order=reading.sequence,
        on_fit=Reason.LIMIT_ON_THE_FIT in reading.reason,
        corrected=hasattr(reading, "corrected_by"),
        mates=(reading.outer_id, reading.inner_id) if reading.outer_id and reading.inner_id else None,
        source=reading.source_id,
    )


def _decision(made: Disposition, about: Discrepancy) -> Decision:
    return Decision(
        reading=about.reading_id,
        kind=made.kind,
        made_at=made.made_at,
        row=made.row,
        place=made.place,
        line=made.line,
        at=made.at,
        complete=made.is_complete and refusal_of(about, made) is None,
        item=about.item_id,
    )
