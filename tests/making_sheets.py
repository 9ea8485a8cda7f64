"""A judged sheet for tests, by way of the service that makes real ones."""

from measurements.readings.models import Sheet
from measurements.readings.services import Upload, judge_sheet
from shopfloor.people.models import Customer, Person
from tests.making_people import AT
from tests.measurements.sheets import limit_row, sheet, table
from tests.published.limit_tables import BUSHING_BORE, BUSHING_CLEARANCE_MAXIMUM, PIN, PRINTED_PIN_IN_BUSHING

# US Army TM 5-6115-545-34, table 1-2 (public domain, an industrial engine): piston pin in its bushing.
LIMITS = table(
    limit_row("bushing", part="rod bushing", characteristic="bore", new_min=BUSHING_BORE[0], new_max=BUSHING_BORE[1], worn="fit"),
    limit_row("pin", part="piston pin", characteristic="diameter", new_min=PIN[0], new_max=PIN[1], worn="fit"),
    limit_row(
        "clearance",
        part="pin in bushing",
        characteristic="fit",
        new_min=PRINTED_PIN_IN_BUSHING[0],
        new_max=PRINTED_PIN_IN_BUSHING[1],
        service_max=BUSHING_CLEARANCE_MAXIMUM,
        outer_row="bushing",
        inner_row="pin",
    ),
)
READINGS = sheet(
    "bushing,rod 1,1.5030 1.5031,in,0.0002", "pin,rod 1,1.5012,in,0.0002", "bushing,rod 2,1.5040,in,", "pin,rod 2,38.131,mm,"
)


def make_sheet(by: Person, customer: Customer | None = None, title: str = "Pins of the week", readings: str = READINGS) -> Sheet:
    return judge_sheet(
        title=title,
        limits=Upload("limits.csv", LIMITS.encode()),
        readings=Upload("readings.csv", readings.encode()),
        customer=customer,
        by=by,
        at=AT,
    )
