"""A new part comes on record with its evidence of eligibility."""

from datetime import datetime

from engines.catalogue.data import Line
from engines.parts.models import Item
from engines.parts.services import add_item, book_evidence
from shopfloor.people.models import Person


def booked_in(part: Line, identity: str, evidence: str, by: Person, at: datetime) -> Item:
    """Known by its serial where the data say so, else by its mark. Raises what the parts refuse."""
    is_serial = part.tracking == "serial"
    item = add_item(
        part_number=part.part_number,
        name=part.name,
        serial=identity if is_serial else "",
        mark="" if is_serial else identity,
        tracking="serial" if is_serial else "mark",
        origin="booked in",
        by=by,
        at=at,
    )
    book_evidence(item=item, kind="certificate", number=evidence, by=by, at=at)
    return item
