"""Gauges and their calibrations. Figures are kept as typed."""

from django.db import models
from django.db.models import F, Q
from uuid_utils.compat import uuid7

from shopfloor.people.models import Person

FIGURE = 40


class Gauge(models.Model):
    """One instrument. Range and resolution in `unit`; `number` is what the shop has marked on it."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    number = models.CharField(max_length=40, unique=True)
    description = models.CharField(max_length=120)
    unit = models.CharField(max_length=12)
    range_min = models.CharField(max_length=FIGURE)
    range_max = models.CharField(max_length=FIGURE)
    resolution = models.CharField(max_length=FIGURE)
    added_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    added_at = models.DateTimeField()
    retired_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    retired_at = models.DateTimeField(null=True)
    retired_reason = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(retired_at__isnull=True, retired_by__isnull=True)
                | Q(retired_at__isnull=False, retired_by__isnull=False),
                name="retired_as_a_whole",
            )
        ]

    def __str__(self) -> str:
        return f"{self.number} {self.description}"


class Calibration(models.Model):
    """What a laboratory found: the expanded uncertainty at k = 2 in the gauge's unit, good from one day to another."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    gauge = models.ForeignKey(Gauge, on_delete=models.PROTECT, related_name="calibrations")
    done_on = models.DateField()
    due_on = models.DateField()
    expanded_u = models.CharField(max_length=FIGURE)
    certificate_number = models.CharField(max_length=80)
    laboratory = models.CharField(max_length=120)
    corrects = models.OneToOneField("self", null=True, on_delete=models.PROTECT, related_name="corrected_by")
    correction_reason = models.CharField(max_length=200, blank=True)
    booked_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    booked_at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["gauge", "-done_on", "-id"], name="calibrations_newest")]
        constraints = [models.CheckConstraint(condition=Q(due_on__gt=F("done_on")), name="due_after_done")]
