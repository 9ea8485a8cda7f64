"""What may be refused at the stand, and its HTTP answer."""

from engines.inspection.errors import InspectionRefused
from engines.testbench.errors import StandRefused
from engines.traveler.errors import OperationRefused
from engines.visits.errors import VisitRefused

REFUSED = (StandRefused, InspectionRefused, OperationRefused, VisitRefused)


def status_of(refused: Exception) -> int:
    return int(getattr(refused, "status", 409))
