"""One stay of an engine: what came in, where its areas stand, what was tagged."""

import json

from django.db import models
from django.db.models import F, Q
from uuid_utils.compat import uuid7

from engines.catalogue.data import Operation, operation_from_plain
from engines.catalogue.models import Pack
from engines.parts.models import Engine, Item
from shopfloor.documents.models import StoredFile
from shopfloor.people.models import Customer, Person


class Visit(models.Model):
    """`hours_since_new` and `hours_since_overhaul` are kept as typed, blank where nobody knows.

    `added` are the ids of the operations that were added to the route and approved, in that order.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    number = models.PositiveIntegerField(unique=True)
    engine = models.ForeignKey(Engine, on_delete=models.PROTECT, related_name="visits")
    customer = models.ForeignKey(Customer, on_delete=models.PROTECT, related_name="visits")
    pack = models.ForeignKey(Pack, on_delete=models.PROTECT, related_name="visits")
    scope = models.CharField(max_length=20)
    reasons = models.JSONField(default=list)
    hours_since_new = models.CharField(max_length=20, blank=True)
    hours_since_overhaul = models.CharField(max_length=20, blank=True)
    received_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    received_at = models.DateTimeField()
    promised_on = models.DateField(null=True)
    closed_at = models.DateTimeField(null=True)
    added = models.JSONField(default=list)

    class Meta:
        indexes = [
            models.Index(fields=["closed_at", "promised_on", "number"], name="visits_open_first"),
            models.Index(fields=["customer", "number"], name="visits_of_customer"),
        ]
        constraints = [
            models.UniqueConstraint(fields=["engine"], condition=Q(closed_at__isnull=True), name="one_open_visit_per_engine"),
        ]

    def __str__(self) -> str:
        return f"Visit {self.number}"


class VisitArea(models.Model):
    """An area of the engine on its way through the shop; `since` is when it came to its stage."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="areas")
    code = models.CharField(max_length=60)
    name = models.CharField(max_length=120)
    order = models.PositiveSmallIntegerField()
    stage = models.CharField(max_length=20)
    bench = models.CharField(max_length=40)
    since = models.DateTimeField()

    class Meta:
        ordering = ["order"]
        constraints = [models.UniqueConstraint(fields=["visit", "code"], name="an_area_once_in_a_visit")]

    def __str__(self) -> str:
        return self.name


class StageMove(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    area = models.ForeignKey(VisitArea, on_delete=models.PROTECT, related_name="moves")
    before = models.CharField(max_length=20)
    after = models.CharField(max_length=20)
    reason = models.CharField(max_length=400, blank=True)
    moved_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    moved_at = models.DateTimeField()


class What(models.TextChoices):
    CAME_WITH = "came with it"
    MISSING = "missing"
    RECORD = "record"
    DIRECTIVE = "directive"
    BLANK = "blank fitted"


class Received(models.Model):
    """One thing noted at receiving: an accessory that came or is missing, a record, a directive and how it stands."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="received")
    what = models.CharField(max_length=20, choices=What.choices)
    words = models.CharField(max_length=400)
    standing = models.CharField(max_length=40, blank=True)
    noted_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    noted_at = models.DateTimeField()


class Photo(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="photos")
    area = models.CharField(max_length=60, blank=True)
    words = models.CharField(max_length=200)
    file = models.ForeignKey(StoredFile, on_delete=models.PROTECT, related_name="+")
    taken_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    taken_at = models.DateTimeField()


class Tray(models.Model):
    """A tray holds the parts of one engine while its tag hangs on it."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    tag = models.CharField(max_length=40)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="trays")
    hung_at = models.DateTimeField()
    emptied_at = models.DateTimeField(null=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["tag"], condition=Q(emptied_at__isnull=True), name="a_tag_on_one_tray")]


class Tagged(models.Model):
    """A part identified at its position, as received or as the one that takes another's place. The latest one counts.

    Without an item the part was not there.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="tagged")
    area = models.CharField(max_length=60)
    line = models.CharField(max_length=60)
    place = models.CharField(max_length=60)
    item = models.ForeignKey(Item, null=True, on_delete=models.PROTECT, related_name="tagged")
    tray = models.ForeignKey(Tray, null=True, on_delete=models.PROTECT, related_name="tagged")
    as_found = models.CharField(max_length=400, blank=True)
    in_place_of = models.OneToOneField("self", null=True, on_delete=models.PROTECT, related_name="followed_by")
    tagged_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    tagged_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["visit", "line", "place"], condition=Q(in_place_of__isnull=True), name="a_position_is_tagged_once"
            ),
        ]


class ImpactLine(models.Model):
    """What a newer revision of the engine data changes for a visit that was received under an older one."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="impact_lines")
    pack = models.ForeignKey(Pack, on_delete=models.PROTECT, related_name="+")
    area = models.CharField(max_length=60, blank=True)
    words = models.CharField(max_length=600)
    listed_at = models.DateTimeField()
    settled_words = models.CharField(max_length=400, blank=True)
    settled_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    settled_at = models.DateTimeField(null=True)

    class Meta:
        indexes = [models.Index(fields=["visit", "settled_at"], name="impact_lines_of_visit")]


class AddedOperation(models.Model):
    """Work that the pinned data do not ask for, on this visit only. `content` is the operation as canonical JSON, in the same
    fields as those of the route; `from_data` says that the document it cites is one of the engine data, else that document
    allows it. `approved` is empty until another person decided.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="additions")
    area = models.CharField(max_length=60)
    stage = models.CharField(max_length=20)
    code = models.CharField(max_length=60)
    content = models.TextField()
    from_data = models.BooleanField()
    reason = models.CharField(max_length=600)
    asked_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    asked_at = models.DateTimeField()
    approved = models.BooleanField(null=True)
    decided_words = models.CharField(max_length=400, blank=True)
    decided_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    decided_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["asked_at", "id"]
        indexes = [models.Index(fields=["visit", "decided_at"], name="added_operations_of_visit")]
        constraints = [
            models.UniqueConstraint(fields=["visit", "code"], name="an_added_code_once_in_a_visit"),
            models.CheckConstraint(
                condition=Q(approved__isnull=True, decided_by__isnull=True, decided_at__isnull=True)
                | Q(approved__isnull=False, decided_by__isnull=False, decided_at__isnull=False),
                name="an_addition_is_decided_as_a_whole",
            ),
            models.CheckConstraint(
                condition=~Q(approved=True) | ~Q(decided_by=F("asked_by")), name="nobody_approves_own_addition"
            ),
        ]

    @property
    def operation(self) -> Operation:
        return operation_from_plain(json.loads(self.content))
