"""Vendors with their approvals and suspensions, and orders with what became of them. Nothing here is overwritten."""

from datetime import date

from django.db import models
from django.db.models import F, Q
from uuid_utils.compat import uuid7

from engines.parts.models import Certificate, Item
from shopfloor.people.models import Person


class Vendor(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    name = models.CharField(max_length=120, unique=True)
    address = models.CharField(max_length=300, blank=True)
    added_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    added_at = models.DateTimeField()

    def __str__(self) -> str:
        return self.name


class Approval(models.Model):
    """What the vendor may do from one day to another, both included. Each of `scope` is `kind of work: sort of part`."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    vendor = models.ForeignKey(Vendor, on_delete=models.PROTECT, related_name="approvals")
    reference = models.CharField(max_length=80)
    scope = models.JSONField(default=list)
    valid_from = models.DateField()
    valid_until = models.DateField()
    words = models.CharField(max_length=600)
    granted_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    granted_at = models.DateTimeField()

    class Meta:
        ordering = ["valid_from", "granted_at", "id"]
        constraints = [models.CheckConstraint(condition=Q(valid_until__gte=F("valid_from")), name="approved_until_after_from")]


class Suspension(models.Model):
    """Nothing goes to the vendor from `suspended_on` until the day on which it is lifted, once."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    vendor = models.ForeignKey(Vendor, on_delete=models.PROTECT, related_name="suspensions")
    suspended_on = models.DateField()
    reason = models.CharField(max_length=400)
    suspended_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    suspended_at = models.DateTimeField()
    lifted_on = models.DateField(null=True)
    lifted_words = models.CharField(max_length=400, blank=True)
    lifted_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    lifted_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["suspended_at", "id"]
        constraints = [
            models.UniqueConstraint(fields=["vendor"], condition=Q(lifted_at__isnull=True), name="a_vendor_is_suspended_once"),
        ]


class OutsideWork(models.Model):
    """An order: which item, from which position of which engine, and what the data ask, as they stood when it was made.

    `evidence` names the papers that must come back, `read_again` the limit rows that are read anew afterwards. It has ended
    when the item is back or the order was withdrawn.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    number = models.PositiveIntegerField(unique=True)
    vendor = models.ForeignKey(Vendor, on_delete=models.PROTECT, related_name="orders")
    approval = models.ForeignKey(Approval, on_delete=models.PROTECT, related_name="+")
    item = models.ForeignKey(Item, on_delete=models.PROTECT, related_name="outside_work")
    root = models.ForeignKey(Item, on_delete=models.PROTECT, related_name="work_outside")
    area = models.CharField(max_length=60)
    line = models.CharField(max_length=60)
    place = models.CharField(max_length=60)
    operation = models.CharField(max_length=60)
    work = models.CharField(max_length=120)
    part = models.CharField(max_length=120)
    asked = models.CharField(max_length=600)
    source = models.CharField(max_length=240)
    evidence = models.JSONField(default=list)
    read_again = models.JSONField(default=list)
    due_on = models.DateField()
    ordered_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    ordered_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["number"]
        indexes = [
            models.Index(fields=["root", "ended_at"], name="orders_of_engine"),
            models.Index(fields=["ended_at", "due_on"], name="orders_due_first"),
        ]
        constraints = [
            models.UniqueConstraint(fields=["item"], condition=Q(ended_at__isnull=True), name="one_open_order_of_an_item"),
        ]

    def __str__(self) -> str:
        return f"Order {self.number}"

    @property
    def position(self) -> str:
        return f"{self.line}, {self.place}"

    @property
    def is_out(self) -> bool:
        return hasattr(self, "sent") and self.ended_at is None

    @property
    def is_back(self) -> bool:
        return hasattr(self, "back")

    @property
    def standing(self) -> str:
        if hasattr(self, "withdrawal"):
            return "withdrawn"
        if hasattr(self, "look"):
            return f"back, {self.look.verdict}"
        if self.is_back:
            return "back, an inspector has to look at it"
        return "out" if hasattr(self, "sent") else "ordered, not sent yet"

    def is_late_on(self, day: date) -> bool:
        return self.ended_at is None and self.due_on < day


class Sent(models.Model):
    """The part left the shop."""

    order = models.OneToOneField(OutsideWork, primary_key=True, on_delete=models.PROTECT, related_name="sent")
    words = models.CharField(max_length=400)
    sent_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    sent_at = models.DateTimeField()


class Back(models.Model):
    """The part came back: with the vendor's certificate and the other papers asked for, or `without` them and why.

    Each of `papers` is `evidence: number`.
    """

    order = models.OneToOneField(OutsideWork, primary_key=True, on_delete=models.PROTECT, related_name="back")
    certificate = models.ForeignKey(Certificate, null=True, on_delete=models.PROTECT, related_name="+")
    did = models.CharField(max_length=600, blank=True)
    papers = models.JSONField(default=list)
    without = models.CharField(max_length=400, blank=True)
    back_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    back_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(certificate__isnull=False, without="") | (Q(certificate__isnull=True) & ~Q(without="")),
                name="back_with_its_certificate_or_why_not",
            ),
        ]


class Withdrawal(models.Model):
    """An order that was never sent is taken back."""

    order = models.OneToOneField(OutsideWork, primary_key=True, on_delete=models.PROTECT, related_name="withdrawal")
    words = models.CharField(max_length=400)
    withdrawn_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    withdrawn_at = models.DateTimeField()


class Seen(models.TextChoices):
    AS_ASKED = "as asked"
    WRONG = "damaged or wrong"


class Look(models.Model):
    """What an inspector says of what came back, once."""

    order = models.OneToOneField(OutsideWork, primary_key=True, on_delete=models.PROTECT, related_name="look")
    verdict = models.CharField(max_length=20, choices=Seen.choices)
    words = models.CharField(max_length=400, blank=True)
    looked_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    looked_at = models.DateTimeField()
