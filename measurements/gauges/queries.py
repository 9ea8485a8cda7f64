"""What pages and readings ask of the register."""

from datetime import date
from typing import NamedTuple

from django.db.models import Prefetch, QuerySet
from django.utils import timezone

from measurements.gauges.models import Calibration, Gauge
from measurements.gauges.standing import Calibrated, Facts, Standing, standing_on


class Listed(NamedTuple):
    gauge: Gauge
    standing: Standing


def gauges() -> QuerySet[Gauge]:
    """The register, gauges in use first, each with its `standing_calibrations`: two queries, however many gauges."""
    standing = Prefetch("calibrations", queryset=_uncorrected(), to_attr="standing_calibrations")
    return Gauge.objects.prefetch_related(standing).order_by("retired_at", "number")


def listed(found: QuerySet[Gauge] | list[Gauge], day: date) -> list[Listed]:
    return [Listed(gauge, standing_on(facts_of(gauge), day)) for gauge in found]


def facts_of(gauge: Gauge) -> Facts:
    """The gauge as `standing_on` needs it; gauges of `gauges()` cost no query."""
    found = getattr(gauge, "standing_calibrations", None)
    calibrations = _uncorrected().filter(gauge=gauge) if found is None else found
    return Facts(
        unit=gauge.unit,
        range_min=gauge.range_min,
        range_max=gauge.range_max,
        retired_on=timezone.localdate(gauge.retired_at) if gauge.retired_at else None,
        calibrations=tuple(Calibrated(each.done_on, each.due_on, each.expanded_u) for each in calibrations),
    )


def history(gauge: Gauge) -> QuerySet[Calibration]:
    """Every calibration ever booked, the newest first; a corrected one has `corrected_by`."""
    return gauge.calibrations.select_related("booked_by", "corrected_by").order_by("-done_on", "-id")


def _uncorrected() -> QuerySet[Calibration]:
    return Calibration.objects.filter(corrected_by__isnull=True).order_by("-done_on", "-id")
