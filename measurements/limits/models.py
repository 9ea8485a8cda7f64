"""Tables and their rows. Figures are kept as typed; a row once written never changes."""

from django.db import models
from uuid_utils.compat import uuid7

FIGURE = 40


class State(models.TextChoices):
    DRAFT = "draft"
    APPROVED = "approved"
    SUPERSEDED = "superseded"


class Condition(models.TextChoices):
    """When a reading is taken of a part."""

    AS_RECEIVED = "as received"
    AFTER_REWORK = "after rework"
    AS_ASSEMBLED = "as assembled"


class Quantity(models.TextChoices):
    """What a derived row takes from the points of the row that it names."""

    LEAST = "least"
    GREATEST = "greatest"
    MEAN = "mean"
    OUT_OF_ROUND = "out-of-round"
    TAPER = "taper"


class LimitTable(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    subject = models.CharField(max_length=60)
    revision = models.CharField(max_length=40)
    state = models.CharField(max_length=12, choices=State.choices, default=State.DRAFT)
    rows_sha256 = models.CharField(max_length=64)
    added_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["subject", "revision"], name="one_table_per_revision"),
            models.UniqueConstraint(
                fields=["subject"], condition=models.Q(state="approved"), name="one_table_in_force_per_subject"
            ),
        ]


class LimitRow(models.Model):
    """One characteristic at one or more places of a part, for one size class (blank: standard) and range of serials.

    `planes` and `directions` are the plan: a value is read at each plane in each direction; empty is a single value.
    With `from_row` it is derived (`quantity`; a taper runs from the first of `planes` to the second); with `outer_row` and
    `inner_row` it is a fit, at `outer_planes` and `inner_planes` (empty: all that were read).
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    table = models.ForeignKey(LimitTable, on_delete=models.PROTECT, related_name="rows")
    order = models.PositiveIntegerField()
    row = models.CharField(max_length=60)
    size_class = models.CharField(max_length=20, blank=True)
    serial_from = models.CharField(max_length=40, blank=True)
    serial_to = models.CharField(max_length=40, blank=True)
    part = models.CharField(max_length=60)
    characteristic = models.CharField(max_length=120)
    places = models.JSONField(default=list)
    unit = models.CharField(max_length=12)
    new_min = models.CharField(max_length=FIGURE, blank=True)
    new_max = models.CharField(max_length=FIGURE, blank=True)
    service_min = models.CharField(max_length=FIGURE, blank=True)
    service_max = models.CharField(max_length=FIGURE, blank=True)
    alt_unit = models.CharField(max_length=12, blank=True)
    alt_new_min = models.CharField(max_length=FIGURE, blank=True)
    alt_new_max = models.CharField(max_length=FIGURE, blank=True)
    alt_service_min = models.CharField(max_length=FIGURE, blank=True)
    alt_service_max = models.CharField(max_length=FIGURE, blank=True)
    worn = models.CharField(max_length=4, default="new")
    rule = models.CharField(max_length=8, blank=True)
    basis = models.CharField(max_length=8, default="absolute")
    decimals = models.PositiveSmallIntegerField(null=True)
    outer_row = models.CharField(max_length=60, blank=True)
    inner_row = models.CharField(max_length=60, blank=True)
    outer_planes = models.JSONField(default=list)
    inner_planes = models.JSONField(default=list)
    from_row = models.CharField(max_length=60, blank=True)
    quantity = models.CharField(max_length=12, choices=Quantity.choices, blank=True)
    planes = models.JSONField(default=list)
    directions = models.JSONField(default=list)
    set_up = models.CharField(max_length=200, blank=True)
    condition = models.CharField(max_length=12, choices=Condition.choices, default=Condition.AS_RECEIVED)
    required = models.BooleanField(default=True)
    document = models.CharField(max_length=120)
    document_revision = models.CharField(max_length=40)
    page = models.CharField(max_length=40)

    class Meta:
        ordering = ["order"]
        constraints = [
            models.UniqueConstraint(fields=["table", "row", "size_class", "serial_from"], name="one_row_per_class_and_range"),
        ]

    def __str__(self) -> str:
        return self.row

    @property
    def is_fit(self) -> bool:
        return bool(self.outer_row)

    @property
    def is_derived(self) -> bool:
        return bool(self.from_row)

    @property
    def is_read(self) -> bool:
        """Somebody reads a value for it; the other rows are computed."""
        return not self.outer_row and not self.from_row

    @property
    def source(self) -> str:
        return f"{self.document}, revision {self.document_revision}, {self.page}"
