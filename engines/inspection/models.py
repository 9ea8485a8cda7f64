"""A reading tied to where it was taken, what was found wrong, and what was decided about it."""

from django.db import models
from django.db.models import F, Q
from uuid_utils.compat import uuid7

from engines.inspection.standing import WORK, Kind
from engines.parts.models import Item
from engines.visits.models import Visit
from measurements.readings.models import Reading
from shopfloor.people.models import Person

KINDS = [(kind.value, kind.value) for kind in Kind]
WORKS = [(kind.value, kind.value) for kind in Kind if kind in WORK]


class Taken(models.Model):
    """A reading on this engine: visit, item (none for a fit), part and place, characteristic."""

    reading = models.OneToOneField(Reading, primary_key=True, on_delete=models.PROTECT, related_name="taken")
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="readings")
    item = models.ForeignKey(Item, null=True, on_delete=models.PROTECT, related_name="readings")
    line = models.CharField(max_length=60)
    row = models.CharField(max_length=60)
    place = models.CharField(max_length=60)
    taken_at = models.DateTimeField()

    class Meta:
        indexes = [
            models.Index(fields=["item", "row", "taken_at"], name="readings_of_item"),
            models.Index(fields=["visit", "row", "place"], name="readings_of_visit"),
        ]


class Discrepancy(models.Model):
    """Something is not as it must be: a reading, a finding at an operation, or a word of whoever saw it."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="discrepancies")
    number = models.PositiveIntegerField()
    area = models.CharField(max_length=60)
    line = models.CharField(max_length=60, blank=True)
    at = models.CharField(max_length=60, blank=True)
    row = models.CharField(max_length=60, blank=True)
    place = models.CharField(max_length=60, blank=True)
    item = models.ForeignKey(Item, null=True, on_delete=models.PROTECT, related_name="discrepancies")
    reading = models.OneToOneField(Reading, null=True, on_delete=models.PROTECT, related_name="discrepancy")
    operation = models.CharField(max_length=60, blank=True)
    words = models.CharField(max_length=600)
    raised_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    raised_at = models.DateTimeField()
    made: "list[Disposition]"  # gathered by inspection_of, in their order
    asked: "list[WorkAsked]"  # the same

    class Meta:
        ordering = ["number"]
        constraints = [models.UniqueConstraint(fields=["visit", "number"], name="discrepancies_are_numbered")]

    def __str__(self) -> str:
        return f"Discrepancy {self.number}"


class Disposition(models.Model):
    """What was decided, with the data that it rests on. A concession counts once a second person has signed it.

    `line` at `at` is the part it touches; `row` at `place` what a rework makes history.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    discrepancy = models.ForeignKey(Discrepancy, on_delete=models.PROTECT, related_name="dispositions")
    kind = models.CharField(max_length=20, choices=KINDS)
    line = models.CharField(max_length=60, blank=True)
    at = models.CharField(max_length=60, blank=True)
    row = models.CharField(max_length=60, blank=True)
    place = models.CharField(max_length=60, blank=True)
    document = models.CharField(max_length=120)
    document_revision = models.CharField(max_length=40)
    page = models.CharField(max_length=40)
    words = models.CharField(max_length=600)
    made_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    made_at = models.DateTimeField()
    second_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    second_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["made_at", "id"]
        constraints = [
            models.CheckConstraint(condition=~Q(document="") & ~Q(page=""), name="a_decision_cites_its_data"),
            models.CheckConstraint(condition=Q(second_by__isnull=True) | ~Q(second_by=F("made_by")), name="nobody_signs_twice"),
            models.CheckConstraint(
                condition=Q(second_by__isnull=True, second_at__isnull=True)
                | Q(second_by__isnull=False, second_at__isnull=False, kind=Kind.CONCESSION.value),
                name="only_a_concession_is_signed_again",
            ),
        ]

    @property
    def is_complete(self) -> bool:
        return self.kind != Kind.CONCESSION or self.second_at is not None


class CarriedOut(models.Model):
    """The rework of a finding was done. A rework after a reading is carried out by reading again."""

    disposition = models.OneToOneField(Disposition, primary_key=True, on_delete=models.PROTECT, related_name="carried_out")
    words = models.CharField(max_length=400)
    done_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    done_at = models.DateTimeField()


class Said(models.TextChoices):
    APPROVED = "approved"
    REFUSED = "refused"


class WorkAsked(models.Model):
    """The customer is asked whether work beyond the order may be done: what, with which parts, hours and price.

    `parts` holds a line for each part, its quantity first; `photos` the SHA-256 of each photo that the customer is shown;
    `hours` and `price` are decimals as typed.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="requests")
    discrepancy = models.ForeignKey(Discrepancy, on_delete=models.PROTECT, related_name="requests")
    number = models.PositiveIntegerField()
    kind = models.CharField(max_length=20, choices=WORKS)
    words = models.CharField(max_length=600)
    parts = models.TextField(blank=True)
    photos = models.JSONField(default=list)
    hours = models.CharField(max_length=20)
    price = models.CharField(max_length=20)
    currency = models.CharField(max_length=3)
    asked_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    asked_at = models.DateTimeField()

    class Meta:
        ordering = ["number"]
        indexes = [models.Index(fields=["asked_at"], name="requests_oldest_first")]
        constraints = [models.UniqueConstraint(fields=["visit", "number"], name="requests_are_numbered")]

    def __str__(self) -> str:
        return f"Request {self.number}"

    @property
    def part_lines(self) -> list[tuple[str, str]]:
        """How many, and what."""
        return [(quantity, what) for quantity, _, what in (line.partition(" ") for line in self.parts.splitlines())]

    @property
    def said(self) -> str:
        """What the customer answered; blank while nobody has."""
        return self.answer.said if hasattr(self, "answer") else ""

    @property
    def waits(self) -> bool:
        return not hasattr(self, "answer") and not hasattr(self, "withdrawal")


class Answer(models.Model):
    """What a person of that customer said to a request, once."""

    request = models.OneToOneField(WorkAsked, primary_key=True, on_delete=models.PROTECT, related_name="answer")
    said = models.CharField(max_length=10, choices=Said.choices)
    words = models.CharField(max_length=600, blank=True)
    answered_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    answered_at = models.DateTimeField()


class Withdrawal(models.Model):
    """The shop takes back a request that nobody has answered."""

    request = models.OneToOneField(WorkAsked, primary_key=True, on_delete=models.PROTECT, related_name="withdrawal")
    words = models.CharField(max_length=400)
    withdrawn_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    withdrawn_at = models.DateTimeField()
