"""An engine comes in."""

from collections.abc import Iterable, Mapping
from datetime import date, datetime

from django.db import IntegrityError, transaction
from django.db.models import Max
from django.utils import timezone

from engines.catalogue.data import REASONS, SCOPES, stages_of
from engines.catalogue.errors import NothingInForce
from engines.catalogue.models import Pack
from engines.catalogue.queries import data_of
from engines.parts.models import Engine
from engines.parts.services import add_engine
from engines.visits.chains import chain_of
from engines.visits.errors import AnothersEngine, FieldRefused, HereAlready
from engines.visits.models import Received, Visit, VisitArea, What
from measurements.limits.models import State
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Customer, Person


@transaction.atomic
def receive_engine(
    *,
    pack: Pack,
    serial: str,
    customer: Customer,
    scope: str,
    reasons: Iterable[str],
    hours_since_new: str = "",
    hours_since_overhaul: str = "",
    promised_on: date | None = None,
    bench: str,
    notes: Mapping[str, Iterable[tuple[str, str]]] | None = None,
    by: Person,
    at: datetime,
) -> Visit:
    """A visit with its areas, all in receiving. `notes` holds words and standing of what was found, by kind of What.

    Raises NothingInForce, FieldRefused, AnothersEngine, HereAlready.
    """
    pack = Pack.objects.select_for_update(of=("self",)).select_related("model").get(pk=pack.pk)
    if pack.state != State.APPROVED:
        raise NothingInForce(pack.model.code)
    given = _checked(scope, list(reasons), hours_since_new, hours_since_overhaul, promised_on, timezone.localdate(at))
    engine = _engine(pack, serial.strip(), customer, by, at)
    visit = _visit(engine, pack, customer, by, at, **given)
    entries = [Entry(chain=chain_of(visit), kind="visit.received", of=visit)]
    entries += _areas(visit, pack, bench, at)
    entries += _notes(visit, notes or {}, by, at)
    record(*entries, by=by.pk, at=at)
    return visit


def _checked(
    scope: str, reasons: list[str], since_new: str, since_overhaul: str, promised_on: date | None, today: date
) -> dict[str, object]:
    if scope not in SCOPES:
        raise FieldRefused(f"Choose what the visit is for: {', '.join(SCOPES)}.")
    if not reasons or not set(reasons) <= set(REASONS):
        raise FieldRefused(f"Say why the engine came in, at least one of: {', '.join(REASONS)}.")
    if promised_on and promised_on < today:
        raise FieldRefused(f"{promised_on} has passed. Promise a day from today on, or leave it blank.")
    hours = {"hours_since_new": since_new.strip(), "hours_since_overhaul": since_overhaul.strip()}
    for name, text in hours.items():
        _check_hours(name.replace("_", " "), text)
    if all(hours.values()) and read_number(hours["hours_since_overhaul"]) > read_number(hours["hours_since_new"]):
        raise FieldRefused("More hours since overhaul than since new: check both figures in the logbook.")
    return {"scope": scope, "reasons": [each for each in REASONS if each in reasons], "promised_on": promised_on, **hours}


def _check_hours(name: str, text: str) -> None:
    try:
        if text and read_number(text) < 0:
            raise FieldRefused(f"{name.capitalize()}: hours are not negative. Leave it blank when nobody knows.")
    except MeasureError as error:
        raise FieldRefused(f"{name.capitalize()}: {error}.") from None


def _engine(pack: Pack, serial: str, customer: Customer, by: Person, at: datetime) -> Engine:
    if not serial:
        raise FieldRefused("Type the serial from the engine's data plate.")
    known = Engine.objects.select_related("item", "customer").filter(model=pack.model, item__serial=serial).first()
    if known is None:
        return add_engine(model=pack.model, serial=serial, customer=customer, by=by, at=at)
    if known.customer_id != customer.pk:
        raise AnothersEngine(serial, known.customer.name)
    return known


def _visit(engine: Engine, pack: Pack, customer: Customer, by: Person, at: datetime, **given: object) -> Visit:
    if here := Visit.objects.filter(engine=engine, closed_at__isnull=True).first():
        raise HereAlready(engine.item.serial, here.number)
    number = (Visit.objects.aggregate(last=Max("number"))["last"] or 0) + 1
    try:
        with transaction.atomic():
            return Visit.objects.create(
                number=number, engine=engine, customer=customer, pack=pack, received_by=by, received_at=at, **given
            )
    except IntegrityError:
        raise FieldRefused("Another engine was received at the same moment. Press the button again.") from None


def _areas(visit: Visit, pack: Pack, bench: str, at: datetime) -> list[Entry]:
    if not bench.strip():
        raise FieldRefused("Say which bench the engine stands on.")
    areas = [
        VisitArea(
            visit=visit, code=area.code, name=area.name, order=order, stage=stages_of(area.code)[0], bench=bench.strip(), since=at
        )
        for order, area in enumerate(data_of(pack).areas, start=1)
    ]
    VisitArea.objects.bulk_create(areas)
    return [Entry(chain=chain_of(visit), kind="area.opened", of=area) for area in areas]


def _notes(visit: Visit, notes: Mapping[str, Iterable[tuple[str, str]]], by: Person, at: datetime) -> list[Entry]:
    found = [
        Received(visit=visit, what=What(what), words=words, standing=standing, noted_by=by, noted_at=at)
        for what, lines in notes.items()
        for words, standing in lines
        if words
    ]
    Received.objects.bulk_create(found)
    return [Entry(chain=chain_of(visit), kind="visit.noted", of=note) for note in found]
