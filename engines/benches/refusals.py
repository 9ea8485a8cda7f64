"""What the rooms below may refuse, in one place, with its HTTP answer."""

from engines.catalogue.errors import DataRefused
from engines.inspection.errors import InspectionRefused
from engines.parts.errors import PartRefused
from engines.release.errors import MoveRefused
from engines.steps.work import StepRefused
from engines.traveler.errors import OperationRefused
from engines.vendors.errors import VendorRefused
from engines.visits.errors import VisitRefused
from measurements.readings.errors import ReadingRefused
from shopfloor.documents.photos import PhotoRefused

REFUSED = (
    DataRefused,
    InspectionRefused,
    MoveRefused,
    OperationRefused,
    PartRefused,
    PhotoRefused,
    ReadingRefused,
    StepRefused,
    VendorRefused,
    VisitRefused,
)


def status_of(refused: Exception) -> int:
    return int(getattr(refused, "status", 422))
