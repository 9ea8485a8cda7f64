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
    return _facts(gauge, _standing_calibrations(gauge))


class OnDay(NamedTuple):
    """The calibration that stands on a day, or why the gauge decides nothing then; and its range."""

    calibration: Calibration | None
    reason: str
    facts: Facts


def on_day(gauge: Gauge, day: date) -> OnDay:
    """What a reading taken with the gauge that day rests on: one query, none for gauges of `gauges()`."""
    found = _standing_calibrations(gauge)
    facts = _facts(gauge, found)
    standing = standing_on(facts, day)
    calibration = next((each for each in found if _plain(each) == standing.calibration), None)
    return OnDay(calibration, standing.reason, facts)


def _standing_calibrations(gauge: Gauge) -> list[Calibration]:
    found: list[Calibration] | None = getattr(gauge, "standing_calibrations", None)
    return list(_uncorrected().filter(gauge=gauge)) if found is None else found


def _plain(calibration: Calibration) -> Calibrated:
    return Calibrated(calibration.done_on, calibration.due_on, calibration.expanded_u)


def _facts(gauge: Gauge, calibrations: list[Calibration]) -> Facts:
    return Facts(
        unit=gauge.unit,
        range_min=gauge.range_min,
        range_max=gauge.range_max,
        retired_on=timezone.localdate(gauge.retired_at) if gauge.retired_at else None,
        calibrations=tuple(map(_plain, calibrations)),
    )


def history(gauge: Gauge) -> QuerySet[Calibration]:
    """Every calibration ever booked, the newest first; a corrected one has `corrected_by`."""
    return gauge.calibrations.select_related("booked_by", "corrected_by").order_by("-done_on", "-id")


def _uncorrected() -> QuerySet[Calibration]:
    return Calibration.objects.filter(corrected_by__isnull=True).order_by("-done_on", "-id")
