"""What the ledger keeps of gauges and calibrations, and the sentence of each event."""

from datetime import datetime

from django.urls import reverse

from measurements.gauges.models import Calibration, Gauge
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.records import register_record


def register() -> None:
    register_record(Gauge, content=_gauge, private=("retired_reason",))
    register_record(Calibration, content=_calibration, private=("laboratory", "correction_reason"))
    protect(Gauge, closes=("retired_by", "retired_at", "retired_reason"))
    protect(Calibration)
    register_kind("gauge.added", sentence=_about("Gauge {number} was added to the register."), link=_to_gauge)
    register_kind("gauge.retired", sentence=_about("Gauge {number} was retired."), link=_to_gauge)
    register_kind("calibration.booked", sentence=_about("A calibration was booked, due on {due_on}."), link=_to_its_gauge)
    register_kind("calibration.corrected", sentence=_about("A calibration was corrected, due on {due_on}."), link=_to_its_gauge)


def _about(words: str):  # type: ignore[no-untyped-def]
    return lambda event: words.format(**event.body["content"])


def _to_gauge(event: LedgerEvent) -> str:
    return reverse("gauges:gauge", args=[event.body["about"][1]])


def _to_its_gauge(event: LedgerEvent) -> str:
    return reverse("gauges:gauge", args=[event.body["content"]["gauge"]])


def _gauge(gauge: Gauge) -> dict[str, object]:
    return {
        "number": gauge.number,
        "description": gauge.description,
        "unit": gauge.unit,
        "range_min": gauge.range_min,
        "range_max": gauge.range_max,
        "resolution": gauge.resolution,
        "added_by": str(gauge.added_by_id),
        "added_at": moment(gauge.added_at),
        "retired_by": _key(gauge.retired_by_id),
        "retired_at": _moment(gauge.retired_at),
    }


def _calibration(calibration: Calibration) -> dict[str, object]:
    return {
        "gauge": str(calibration.gauge_id),
        "done_on": calibration.done_on.isoformat(),
        "due_on": calibration.due_on.isoformat(),
        "expanded_u": calibration.expanded_u,
        "certificate_number": calibration.certificate_number,
        "corrects": _key(calibration.corrects_id),
        "booked_by": str(calibration.booked_by_id),
        "booked_at": moment(calibration.booked_at),
    }


def _key(key: object) -> str | None:
    return None if key is None else str(key)


def _moment(at: datetime | None) -> str | None:
    return moment(at) if at else None
