"""A page costs as many queries with five hundred engines in the shop as with five."""

from uuid import UUID

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from uuid_utils.compat import uuid7

from engines.inspection.models import Discrepancy
from engines.inspection.services import raise_discrepancy
from engines.parts.models import Engine, Item
from engines.traveler.models import Operation
from engines.visits.models import Visit, VisitArea
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db


def copies(rows, **changed):
    """Unsaved copies of rows with new keys; a change is a value, or a function of the row."""
    for row in rows:
        fields = {field.attname: getattr(row, field.attname) for field in row._meta.concrete_fields}
        fields |= {name: value(row) if callable(value) else value for name, value in changed.items()}
        yield type(row)(**fields)


def fill(visit: Visit, engines: int) -> None:
    """As many more engines at the same point of their way as `visit`, written past the services for speed."""
    areas = list(visit.areas.all())
    operations = list(Operation.objects.filter(area__visit=visit))
    found = list(Discrepancy.objects.filter(visit=visit))
    rows: dict[type, list] = {model: [] for model in (Item, Engine, Visit, VisitArea, Operation, Discrepancy)}
    last = Visit.objects.order_by("-number").first().number
    for number in range(last + 1, last + 1 + engines):
        item, stay = uuid7(), uuid7()
        keys: dict[UUID, UUID] = {area.pk: uuid7() for area in areas}
        rows[Item] += copies([visit.engine.item], id=item, serial=f"T2-COPY-{number}")
        rows[Engine] += copies([visit.engine], item_id=item)
        rows[Visit] += copies([visit], id=stay, number=number, engine_id=item)
        rows[VisitArea] += copies(areas, id=lambda area, keys=keys: keys[area.pk], visit_id=stay)
        rows[Operation] += copies(
            operations, id=lambda row: uuid7(), area_id=lambda operation, keys=keys: keys[operation.area_id]
        )
        rows[Discrepancy] += copies(found, id=lambda row: uuid7(), visit_id=stay, reading_id=None)
    for model, made in rows.items():
        model.objects.bulk_create(made, batch_size=500)


def cost(client, address):
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)


def test_every_page_costs_the_same_for_five_engines_and_for_five_hundred(client):
    shop = Shop()
    visit = shop.receive()
    shop.tag_all(visit, "piston")
    shop.read(visit, "skirt-diameter", "cylinder 1", "4.3500")
    raise_discrepancy(visit=visit, area="case", words="a stud is bent", by=shop.mechanic, at=shop.later())
    area, operation = shop.area(visit, "case"), shop.operation(visit, "tag-case")
    reading = shop.operation(visit, "read-barrels")
    addresses = [
        reverse("benches:home"),
        reverse("benches:board"),
        reverse("benches:board-lines"),
        reverse("benches:visit", args=[visit.pk]),
        reverse("benches:parts-list", args=[visit.pk]),
        reverse("benches:area", args=[area.pk]),
        reverse("benches:operation", args=[operation.pk]),
        reverse("benches:operation", args=[reading.pk]),
        f"{reverse('benches:take', args=[reading.pk])}?row=skirt-diameter&place=cylinder 1",
        reverse("benches:discrepancy", args=[visit.discrepancies.first().pk]),
        reverse("benches:search") + "?text=T2",
        reverse("parts:items"),
    ]
    client.force_login(shop.inspector)
    fill(visit, 4)
    for address in addresses:
        client.get(address)
    few = {address: cost(client, address) for address in addresses}
    fill(visit, 495)
    assert Visit.objects.filter(closed_at__isnull=True).count() == 500
    assert {address: cost(client, address) for address in addresses} == few
    assert max(few.values()) < 40, few
