"""One sheet of readings from a worn F6-240, judged by its invented limits."""

from datetime import datetime
from pathlib import Path

from engines.scenario.saying import Say
from measurements.readings.models import Sheet
from measurements.readings.services import Upload, judge_sheet
from shopfloor.people.models import Customer, Person

TITLE = "F6-240 as received (demonstration data: not for any real engine)"
DATA = Path(__file__).resolve().parent.parent / "data"


def tell(at: datetime, say: Say) -> None:
    if Sheet.objects.filter(title=TITLE).exists():
        return
    judge_sheet(
        title=TITLE,
        limits=_upload("f6-240-limits.csv"),
        readings=_upload("f6-240-readings.csv"),
        customer=Customer.objects.get(name="Lowfold Flying Club"),
        by=Person.objects.get(username="mechanic1"),
        at=at,
    )


def _upload(name: str) -> Upload:
    return Upload(name, (DATA / name).read_bytes())
