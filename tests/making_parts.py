"""Parts by way of the services. Invented."""

from itertools import count

from engines.catalogue.models import EngineModel
from engines.parts.models import Engine, Item
from engines.parts.services import add_engine, add_item
from shopfloor.people.models import Customer, Person
from tests.making_people import AT

_number = count(1)


def make_item(by: Person, **fields: object) -> Item:
    given = {"part_number": "T2-201", "name": "Piston", "mark": f"P-{next(_number)}", "tracking": "mark", "origin": "booked in"}
    return add_item(**given | fields, by=by, at=AT)


def make_engine(by: Person, customer: Customer, serial: str = "") -> Engine:
    """Directly in the catalogue: the model has no data, which parts do not ask for."""
    model, _ = EngineModel.objects.get_or_create(code="T9", defaults={"name": "T9 for parts", "maker": "nobody", "added_at": AT})
    return add_engine(model=model, serial=serial or f"T9-{next(_number)}", customer=customer, by=by, at=AT)
