"""Real parts, their places in time, and their evidence."""

from django.db import models
from django.db.models import F, Q
from uuid_utils.compat import uuid7

from engines.catalogue.models import EngineModel
from shopfloor.documents.models import StoredFile
from shopfloor.people.models import Customer, Person


class Tracking(models.TextChoices):
    """How a part is told from others: by serial, by the shop's mark, as a lot, or as a piece taken from one."""

    SERIAL = "serial"
    MARK = "mark"
    LOT = "lot"
    PIECE = "piece"


class Item(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    part_number = models.CharField(max_length=60)
    name = models.CharField(max_length=120)
    serial = models.CharField(max_length=60, blank=True)
    mark = models.CharField(max_length=60, blank=True)
    tracking = models.CharField(max_length=10, choices=Tracking.choices)
    quantity = models.PositiveIntegerField(default=1)
    lot = models.ForeignKey("self", null=True, on_delete=models.PROTECT, related_name="pieces")
    customer = models.ForeignKey(Customer, null=True, on_delete=models.PROTECT, related_name="+")
    origin = models.CharField(max_length=60)
    known_at = models.DateTimeField()
    added_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    scrapped_at = models.DateTimeField(null=True)
    scrapped_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    scrapped_reason = models.CharField(max_length=600, blank=True)

    class Meta:
        indexes = [
            models.Index(fields=["serial"], name="items_by_serial"),
            models.Index(fields=["mark"], name="items_by_mark"),
            models.Index(fields=["part_number", "-id"], name="items_by_number"),
        ]
        constraints = [
            models.UniqueConstraint(fields=["part_number", "serial"], condition=~Q(serial=""), name="a_serial_once_per_number"),
            models.CheckConstraint(condition=Q(quantity__gte=1), name="an_item_is_at_least_one"),
            models.CheckConstraint(condition=Q(tracking="lot") | Q(quantity=1), name="only_a_lot_is_many"),
            models.CheckConstraint(
                condition=Q(tracking="piece", lot__isnull=False) | (~Q(tracking="piece") & Q(lot__isnull=True)),
                name="a_piece_has_its_lot",
            ),
            models.CheckConstraint(
                condition=Q(scrapped_at__isnull=True, scrapped_by__isnull=True)
                | Q(scrapped_at__isnull=False, scrapped_by__isnull=False),
                name="scrapped_as_a_whole",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name} {self.identity}"

    @property
    def identity(self) -> str:
        return self.serial or self.mark


class Engine(models.Model):
    item = models.OneToOneField(Item, primary_key=True, on_delete=models.PROTECT, related_name="engine")
    model = models.ForeignKey(EngineModel, on_delete=models.PROTECT, related_name="engines")
    customer = models.ForeignKey(Customer, on_delete=models.PROTECT, related_name="engines")

    def __str__(self) -> str:
        return f"{self.model.code} {self.item.serial}"


class Fitment(models.Model):
    """An item at a place of a root from one moment to another; `..._known_at` is when we learnt of it."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    item = models.ForeignKey(Item, on_delete=models.PROTECT, related_name="fitments")
    root = models.ForeignKey(Item, on_delete=models.PROTECT, related_name="holds")
    line = models.CharField(max_length=60)
    place = models.CharField(max_length=60)
    fitted_at = models.DateTimeField()
    fitted_known_at = models.DateTimeField()
    fitted_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    removed_at = models.DateTimeField(null=True)
    removed_known_at = models.DateTimeField(null=True)
    removed_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    removed_reason = models.CharField(max_length=400, blank=True)

    class Meta:
        indexes = [
            models.Index(fields=["root", "place"], condition=Q(removed_at__isnull=True), name="fitted_now"),
            models.Index(fields=["root", "fitted_at"], name="fitted_ever"),
            models.Index(fields=["item", "fitted_at"], name="places_of_item"),
        ]
        constraints = [
            models.UniqueConstraint(fields=["item"], condition=Q(removed_at__isnull=True), name="in_one_place_at_a_time"),
            models.CheckConstraint(condition=~Q(item=F("root")), name="nothing_is_in_itself"),
            models.CheckConstraint(
                condition=Q(removed_at__isnull=True, removed_known_at__isnull=True, removed_by__isnull=True)
                | Q(removed_at__gt=F("fitted_at"), removed_known_at__isnull=False, removed_by__isnull=False),
                name="removed_as_a_whole_and_later",
            ),
        ]


class Certificate(models.Model):
    """Evidence of eligibility of an item."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    item = models.ForeignKey(Item, on_delete=models.PROTECT, related_name="certificates")
    kind = models.CharField(max_length=60)
    number = models.CharField(max_length=80)
    issued_by = models.CharField(max_length=120, blank=True)
    issued_on = models.DateField(null=True)
    file = models.ForeignKey(StoredFile, null=True, on_delete=models.PROTECT, related_name="+")
    booked_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    booked_at = models.DateTimeField()
