"""A reading on the engine: the value, what follows from its points, and every fit whose mates are now both read."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import transaction

from engines.inspection.answers import check_may_be_done
from engines.inspection.errors import CountsNoLonger, FieldRefused, IsOut, NoSuchCharacteristic, NothingThere, Scrapped
from engines.inspection.facts import Inspection, inspection_about, inspection_around
from engines.inspection.hooks import tell_after_work
from engines.inspection.models import Discrepancy, Disposition, Taken
from engines.inspection.services.raising import discrepancies_from
from engines.inspection.standing import Kind, Requirement, Spot
from engines.parts.models import Item
from engines.vendors.queries import out_words
from engines.visits.chains import chain_of
from engines.visits.models import Visit
from engines.visits.queries import locked_visit
from measurements.gauges.models import Gauge
from measurements.limits.models import LimitRow
from measurements.readings.errors import CorrectedAlready
from measurements.readings.models import Reading
from measurements.readings.services import drafts, write
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

Points = Sequence[tuple[str, str, str]]


@dataclass(frozen=True)
class Given:
    """What was read and how: (plane, direction, value) for each point, their unit, the gauge, the set-up confirmed."""

    points: Points
    unit: str
    gauge: Gauge | None
    condition: str
    size_class: str = ""
    set_up: str = ""
    temperature: str = ""
    sequence: int = 0


@dataclass(frozen=True)
class Readout:
    """One characteristic at one place, read once; or read again, with the reading that it corrects and why."""

    row: str
    place: str
    given: Given
    taken_at: datetime
    corrects: Reading | None = None
    correction_reason: str = ""


def enter_reading(*, visit: Visit, by: Person, at: datetime, **read: Any) -> Reading:
    """One; takes the fields of a Readout, and raises what `enter_readings` raises."""
    return enter_readings(visit=visit, reads=[Readout(**read)], by=by, at=at)[0]


@transaction.atomic
def enter_readings(*, visit: Visit, reads: Sequence[Readout], by: Person, at: datetime) -> list[Reading]:
    """Kept with their verdicts, all or none, in the order given; whatever is outside limits becomes a discrepancy at once.

    Raises NoSuchCharacteristic, NothingThere, Scrapped, IsOut, CountsNoLonger, AwaitsAnswer, CustomerRefused, FieldRefused and
    the ReadingRefused family.
    """
    visit = locked_visit(visit.pk)
    several, first = len(reads) > 1, reads[0]
    now = inspection_about(visit, [each.row for each in reads]) if several else inspection_around(visit, first.row, first.place)
    made, taken = [], []
    is_rework = _is_rework(now, reads)
    for read in reads:
        drafted = _drafted(now, read, by, at)
        if several:  # only a later one can rest on it
            now.add(drafted)
        made.append(drafted[0].reading)
        taken += drafted
    entries = write(*(each.reading for each in taken))
    Taken.objects.bulk_create(taken)
    chain = chain_of(visit)
    entries += [Entry(chain=chain, kind="engine.read", of=each) for each in taken]
    entries += discrepancies_from(now, taken, by, at)
    record(*entries, by=by.pk, at=at)
    if is_rework:
        tell_after_work(visit, by, at)
    return made


def _drafted(now: Inspection, readout: Readout, by: Person, at: datetime) -> list[Taken]:
    """The reading, then what follows from its points, then its fits."""
    place, given, taken_at = readout.place, readout.given, readout.taken_at
    requirement, limits = _row(now, readout.row, place, given.size_class)
    tagged = now.tagged.get((requirement.line, requirement.at))
    if tagged is None or tagged.item is None:
        raise NothingThere(now.rows.data.line_by_code[requirement.line].name, requirement.at)
    if tagged.item.scrapped_at:
        raise Scrapped(now.rows.data.line_by_code[requirement.line].name, requirement.at)
    if order := now.out(requirement.line, requirement.at):
        raise IsOut(out_words(f"{now.rows.data.line_by_code[requirement.line].name} at {requirement.at}", order))
    _check_counts(now, requirement, readout.corrects)
    read = drafts.reading(
        row=limits,
        points=given.points,
        unit=given.unit,
        gauge=given.gauge,
        condition=given.condition,
        set_up=given.set_up,
        temperature=given.temperature,
        corrects=readout.corrects,
        correction_reason=readout.correction_reason,
        taken_at=taken_at,
        sequence=given.sequence,
        by=by,
        at=at,
    )
    derived = [drafts.derived(row=each, source=read, by=by, at=at) for each in _derived_rows(now, requirement, given.size_class)]
    fitted = list(_fits(now, requirement, read, by, at))
    made: list[tuple[Reading, str, Item | None]] = [(each, requirement.line, tagged.item) for each in (read, *derived)]
    made += [(each, now.rows.by_key[each.row.row, place].line, None) for each in fitted]
    return [
        Taken(reading=each, visit=now.visit, item=item, line=line, row=each.row.row, place=place, taken_at=taken_at)
        for each, line, item in made
    ]


def _check_counts(now: Inspection, requirement: Requirement, corrects: Reading | None) -> None:
    """Only what counts now can be corrected. Anything else would come to count again by way of its correction."""
    if corrects is None:
        return
    read = now.of(requirement).read
    if read and read.id == corrects.pk:
        return
    if corrects.pk in now.taken and hasattr(now.taken[corrects.pk].reading, "corrected_by"):
        raise CorrectedAlready
    raise CountsNoLonger(*requirement.key)


def _is_rework(now: Inspection, reads: Sequence[Readout]) -> bool:
    """Whether these readings carry out a rework. Raises where it may not be done, as `check_may_be_done` does."""
    reworks = [each for read in reads if read.corrects is None for each in _reworks(now, (read.row, read.place))]
    for found, decided in reworks:
        check_may_be_done(found, decided)
    return bool(reworks)


def _reworks(now: Inspection, key: Spot) -> list[tuple[Discrepancy, Disposition]]:
    """What was decided to be reworked there: a reading carries it out, so it waits for the customer's answer as the rework does;
    after a refusal, for another decision. Most characteristics were never reworked, and for them nothing is gathered.
    """
    row, place = key
    if not Disposition.objects.filter(discrepancy__visit=now.visit, row=row, place=place, kind=Kind.REWORK).exists():
        return []
    decided = ((found, next((each for each in reversed(found.made) if each.is_complete), None)) for found in now.discrepancies)
    return [(found, made) for found, made in decided if made and made.kind == Kind.REWORK and (made.row, made.place) == key]


def _row(now: Inspection, row: str, place: str, size_class: str) -> tuple[Requirement, LimitRow]:
    requirement = now.rows.by_key.get((row, place))
    if requirement is None:
        raise NoSuchCharacteristic(row, place)
    limits = now.rows.row(row, size_class)
    if limits is None:
        raise FieldRefused(f"{row} has no limits for the size class “{size_class}”: {', '.join(now.rows.classes(row))}.")
    if not limits.is_read:
        raise FieldRefused(f"{row} is computed from other readings, never typed. Read those it is made of.")
    return requirement, limits


def _derived_rows(now: Inspection, requirement: Requirement, size_class: str) -> Iterator[LimitRow]:
    for name in now.rows.derived_from(requirement.row):
        if (name, requirement.place) in now.rows.by_key:
            yield now.rows.row(name, size_class) or now.rows.any(name)


def _fits(now: Inspection, requirement: Requirement, read: Reading, by: Person, at: datetime) -> Iterator[Reading]:
    """The fits of this surface whose other mate has a valid reading."""
    for name in now.rows.fits_of(requirement.row):
        if (name, requirement.place) not in now.rows.by_key:
            continue
        fit = now.rows.any(name)
        mate_row = fit.inner_row if fit.outer_row == requirement.row else fit.outer_row
        standing = now.of(now.rows.by_key[mate_row, requirement.place])
        mate = now.reading_of(standing)
        if mate is not None:
            outer, inner = (read, mate) if fit.outer_row == requirement.row else (mate, read)
            barred = _not_permitted(now, fit, outer, inner)
            yield drafts.fitted(row=fit, outer=outer, inner=inner, not_permitted=barred, by=by, at=at)


def _not_permitted(now: Inspection, fit: LimitRow, outer: Reading, inner: Reading) -> str:
    """A sentence where the pairing table does not let these two surfaces run together; two standard ones always may."""
    classes = outer.row.size_class, inner.row.size_class
    permitted = {(each.outer_class, each.inner_class) for each in now.rows.data.pairings if each.fit == fit.row}
    if classes == ("", "") or classes in permitted:
        return ""
    words = " with ".join(each or "standard" for each in classes)
    return f"the data do not permit this pairing: {words}"
