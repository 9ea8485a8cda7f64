"""The release of an engine, what amends it, what the customer is told, and serious defects. None of it ever changes."""

import json
from datetime import datetime, timedelta
from typing import Any

from django.db import models
from django.db.models import Q
from uuid_utils.compat import uuid7

from engines.inspection.models import Discrepancy
from engines.visits.models import Visit
from shopfloor.people.models import Customer, Person

TIME_TO_REPORT = timedelta(hours=96)  # after discovery, 14 CFR 145.221(a)


class Status(models.TextChoices):
    """What the engine leaves as. There is no other word for it."""

    OVERHAULED = "overhauled"
    REPAIRED = "repaired"
    INSPECTED = "inspected"


class Release(models.Model):
    """What 14 CFR 43.9(a) asks of the record of work, as it was shown to the signer.

    `shown` is the whole text as canonical JSON, `shown_sha256` its hash; certificate and names are those of that moment. An
    amendment is a release of its own that names the one it takes the place of.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="releases")
    number = models.PositiveIntegerField(unique=True)
    amendment = models.PositiveSmallIntegerField(default=0)
    status = models.CharField(max_length=12, choices=Status.choices)
    description = models.TextField()
    completed_on = models.DateField()
    done_by = models.CharField(max_length=600, blank=True)
    recommendations = models.TextField(blank=True)
    certificate_kind = models.CharField(max_length=60)
    certificate_number = models.CharField(max_length=60)
    shown = models.TextField()
    shown_sha256 = models.CharField(max_length=64)
    signed_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    signed_at = models.DateTimeField()
    amends = models.OneToOneField("self", null=True, on_delete=models.PROTECT, related_name="amended_by")
    reason = models.CharField(max_length=400, blank=True)

    class Meta:
        ordering = ["-number"]
        constraints = [
            models.UniqueConstraint(fields=["visit", "amendment"], name="a_visit_is_released_once"),
            models.CheckConstraint(
                condition=Q(amendment=0, amends__isnull=True, reason="")
                | (Q(amendment__gt=0, amends__isnull=False) & ~Q(reason="")),
                name="an_amendment_names_what_it_amends_and_why",
            ),
            models.CheckConstraint(condition=Q(status__in=Status.values), name="released_as_one_of_three"),
            models.CheckConstraint(
                condition=~Q(certificate_kind="") & ~Q(certificate_number=""), name="a_release_names_the_certificate"
            ),
        ]

    def __str__(self) -> str:
        return f"Release {self.number}"

    @property
    def content(self) -> dict[str, Any]:
        found: dict[str, Any] = json.loads(self.shown)
        return found


class Notice(models.Model):
    """What a customer is told, and which of their persons said that it was seen."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    customer = models.ForeignKey(Customer, on_delete=models.PROTECT, related_name="notices")
    release = models.ForeignKey(Release, on_delete=models.PROTECT, related_name="notices")
    words = models.CharField(max_length=1000)
    made_at = models.DateTimeField()
    seen_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    seen_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-made_at", "-id"]
        indexes = [models.Index(fields=["customer", "-made_at"], name="notices_of_customer")]


class SeriousDefect(models.Model):
    """A discrepancy that is a serious failure, malfunction or defect: it is reported within 96 hours of its discovery."""

    discrepancy = models.OneToOneField(Discrepancy, primary_key=True, on_delete=models.PROTECT, related_name="serious")
    due_at = models.DateTimeField()
    marked_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    marked_at = models.DateTimeField()
    reported_to = models.CharField(max_length=200, blank=True)
    reported_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    reported_at = models.DateTimeField(null=True)

    class Meta:
        indexes = [models.Index(fields=["reported_at", "due_at"], name="serious_defects_to_report")]

    def hours_left(self, at: datetime) -> int:
        """Whole hours until it must be reported, negative once that has passed."""
        return int((self.due_at - at).total_seconds() // 3600)
