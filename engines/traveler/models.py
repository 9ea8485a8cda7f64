"""Operations of a visit, entries and signatures. Entries, signatures and reopenings never change."""

import json
from datetime import date
from typing import Any

from django.db import models
from django.db.models import F, Q
from uuid_utils.compat import uuid7

from engines.visits.models import VisitArea
from shopfloor.people.models import Person


class Act(models.TextChoices):
    DONE = "done"
    ACCEPTED = "accepted"


HIGHEST_LEVEL = 3


class Authorised(models.TextChoices):
    """What a person is authorised for by name, beyond what their role lets them do."""

    WORK = "work", "work at operations"
    HOLD_POINTS = "hold-points", "acceptance of hold points"
    DATA_APPROVAL = "data-approval", "approval of engine data"
    RELEASE = "release", "release of engines"


class Operation(models.Model):
    """An operation as the data describe it (`code` in the pinned pack), and how far it has come in this `round`."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    area = models.ForeignKey(VisitArea, on_delete=models.PROTECT, related_name="operations")
    code = models.CharField(max_length=60)
    order = models.PositiveIntegerField()
    stage = models.CharField(max_length=20)
    kind = models.CharField(max_length=40)
    title = models.CharField(max_length=200)
    hold_point = models.BooleanField(default=False)
    round = models.PositiveSmallIntegerField(default=1)
    signed_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    signed_at = models.DateTimeField(null=True)
    accepted_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    accepted_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["order"]
        indexes = [models.Index(fields=["hold_point", "accepted_at", "signed_at"], name="operations_to_accept")]
        constraints = [
            models.UniqueConstraint(fields=["area", "code"], name="an_operation_once_in_an_area"),
            models.CheckConstraint(
                condition=Q(accepted_by__isnull=True) | (Q(signed_by__isnull=False) & ~Q(accepted_by=F("signed_by"))),
                name="a_hold_point_takes_two_persons",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def is_complete(self) -> bool:
        return self.signed_at is not None and (not self.hold_point or self.accepted_at is not None)

    @property
    def standing(self) -> str:
        if self.is_complete:
            return "complete"
        if self.signed_at:
            return "waits for acceptance"
        return "open" if self.round == 1 else "open again"


class Entry(models.Model):
    """What was entered: `text` is canonical JSON."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    operation = models.ForeignKey(Operation, on_delete=models.PROTECT, related_name="entries")
    round = models.PositiveSmallIntegerField()
    text = models.TextField()
    entered_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    entered_at = models.DateTimeField()

    class Meta:
        ordering = ["entered_at", "id"]

    @property
    def content(self) -> dict[str, Any]:
        found: dict[str, Any] = json.loads(self.text)
        return found


class Signature(models.Model):
    """`shown` is what the signer saw, as canonical text, `shown_sha256` its hash; given `under` that authorisation."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    operation = models.ForeignKey(Operation, on_delete=models.PROTECT, related_name="signatures")
    round = models.PositiveSmallIntegerField()
    act = models.CharField(max_length=10, choices=Act.choices)
    shown = models.TextField()
    shown_sha256 = models.CharField(max_length=64)
    signed_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    signed_at = models.DateTimeField()
    under = models.ForeignKey("Authorisation", null=True, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["signed_at", "id"]
        constraints = [models.UniqueConstraint(fields=["operation", "round", "act"], name="signed_once_in_a_round")]

    @property
    def meaning(self) -> str:
        """In the words that the signer saw; blank where the text was shown before meanings stood in it."""
        return str(json.loads(self.shown).get("meaning", ""))


class Reopening(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    operation = models.ForeignKey(Operation, on_delete=models.PROTECT, related_name="reopenings")
    round = models.PositiveSmallIntegerField()
    reason = models.CharField(max_length=400)
    reopened_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    reopened_at = models.DateTimeField()


class Authorisation(models.Model):
    """A person may do something on some engine models (none named: on all) for a span of days. Ended once.

    For work at operations `kinds` names each kind of step, and `level` is the level of training where the data ask for one.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="authorisations")
    what = models.CharField(max_length=40, choices=Authorised.choices)
    kinds = models.JSONField(default=list)
    level = models.PositiveSmallIntegerField(default=0)
    covers = models.JSONField(default=list)
    valid_from = models.DateField()
    valid_until = models.DateField(null=True)
    training = models.CharField(max_length=600)
    granted_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    granted_at = models.DateTimeField()
    ended_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    ended_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-granted_at", "-id"]
        indexes = [models.Index(fields=["person", "what", "ended_at"], name="authorisations_of_person")]
        constraints = [
            models.CheckConstraint(condition=~Q(granted_by=F("person")), name="nobody_authorises_self"),
            models.CheckConstraint(
                condition=Q(valid_until__isnull=True) | Q(valid_until__gte=F("valid_from")), name="authorised_until_after_from"
            ),
            models.CheckConstraint(
                condition=Q(ended_at__isnull=True, ended_by__isnull=True) | Q(ended_at__isnull=False, ended_by__isnull=False),
                name="an_authorisation_ends_as_a_whole",
            ),
            models.CheckConstraint(
                condition=Q(level=0) | Q(level__lte=HIGHEST_LEVEL, what=Authorised.WORK), name="a_level_is_of_work_at_operations"
            ),
        ]

    def includes(self, model: str) -> bool:
        return not self.covers or model in self.covers

    def is_valid_on(self, day: date) -> bool:
        return self.valid_from <= day and (self.valid_until is None or day <= self.valid_until)
