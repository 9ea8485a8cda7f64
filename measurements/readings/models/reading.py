"""One reading, derived value or fit, with all that its verdict rests on. Figures are kept as text; nothing changes later."""

from django.db import models
from django.db.models import Q
from uuid_utils.compat import uuid7

from measurements.limits.models import Condition

FIGURE, COMPUTED, WORDS = 40, 200, 200


class Reading(models.Model):
    """A row of a limit table, read once: `points` are [plane, direction, value as typed], all in `unit`.

    `minimum`, `maximum` and `mean` stand in the row's unit. `expanded_u` is U at k = 2 in `unit`, rounded up; blank where no
    gauge is named or the gauge may not decide, and then `reason` says why. `temperature` is the part's, in °C, and the two
    coefficients are per kelvin; blank: taken as read. A derived value names its `source`, a fit its mates; both have no
    points. `taken_at` and `sequence` come from the tablet, `received_at` is ours.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    row = models.ForeignKey("limits.LimitRow", on_delete=models.PROTECT, related_name="readings", db_index=False)
    points = models.JSONField(default=list)
    unit = models.CharField(max_length=12)
    gauge = models.ForeignKey("gauges.Gauge", null=True, on_delete=models.PROTECT, related_name="readings")
    calibration = models.ForeignKey("gauges.Calibration", null=True, on_delete=models.PROTECT, related_name="readings")
    expanded_u = models.CharField(max_length=FIGURE, blank=True)
    condition = models.CharField(max_length=12, choices=Condition.choices)
    set_up = models.CharField(max_length=WORDS, blank=True)
    temperature = models.CharField(max_length=FIGURE, blank=True)
    part_coefficient = models.CharField(max_length=FIGURE, blank=True)
    gauge_coefficient = models.CharField(max_length=FIGURE, blank=True)
    minimum = models.CharField(max_length=COMPUTED)
    maximum = models.CharField(max_length=COMPUTED)
    mean = models.CharField(max_length=COMPUTED)
    verdict = models.CharField(max_length=20)
    reason = models.TextField(blank=True)
    conformity = models.TextField(blank=True)
    evaluator_version = models.CharField(max_length=12)
    source = models.ForeignKey("self", null=True, on_delete=models.PROTECT, related_name="derived")
    outer = models.ForeignKey("self", null=True, on_delete=models.PROTECT, related_name="fits_as_outer")
    inner = models.ForeignKey("self", null=True, on_delete=models.PROTECT, related_name="fits_as_inner")
    corrects = models.OneToOneField("self", null=True, on_delete=models.PROTECT, related_name="corrected_by")
    correction_reason = models.CharField(max_length=WORDS, null=True)  # noqa: DJ001  none: the ledger keeps no text for it
    taken_by = models.ForeignKey("people.Person", on_delete=models.PROTECT, related_name="+", db_index=False)
    taken_at = models.DateTimeField()
    received_at = models.DateTimeField()
    sequence = models.PositiveBigIntegerField()

    class Meta:
        ordering = ["taken_at", "sequence", "id"]
        indexes = [models.Index(fields=["row", "taken_at"], name="readings_of_row")]
        constraints = [
            models.CheckConstraint(
                condition=Q(outer__isnull=True, inner__isnull=True)
                | Q(outer__isnull=False, inner__isnull=False, source__isnull=True),
                name="a_fit_has_both_mates",
            ),
            models.CheckConstraint(
                condition=Q(corrects__isnull=True) | Q(correction_reason__isnull=False), name="a_correction_has_its_reason"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.minimum} to {self.maximum}: {self.verdict}"

    @property
    def gauge_is_barred(self) -> bool:
        """A gauge was named and decides nothing here; `reason` says why."""
        return self.gauge_id is not None and not self.expanded_u
