"""A judged sheet: which files were judged, by whom, and how many of each verdict."""

from django.db import models
from uuid_utils.compat import uuid7


class Sheet(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    title = models.CharField(max_length=120)
    customer = models.ForeignKey("people.Customer", null=True, on_delete=models.PROTECT, related_name="+")
    limits_file = models.ForeignKey("documents.StoredFile", on_delete=models.PROTECT, related_name="+")
    readings_file = models.ForeignKey("documents.StoredFile", on_delete=models.PROTECT, related_name="+")
    verdicts_file = models.ForeignKey("documents.StoredFile", on_delete=models.PROTECT, related_name="+")
    limits_name = models.CharField(max_length=120)
    readings_name = models.CharField(max_length=120)
    warnings = models.JSONField(default=list)
    within_new_limits = models.PositiveIntegerField()
    serviceable = models.PositiveIntegerField()
    outside_limits = models.PositiveIntegerField()
    too_close_to_call = models.PositiveIntegerField()
    not_judged = models.PositiveIntegerField()
    judged_by = models.ForeignKey("people.Person", on_delete=models.PROTECT, related_name="+")
    judged_at = models.DateTimeField()

    class Meta:
        ordering = ["-judged_at", "-id"]
        indexes = [
            models.Index(fields=["-judged_at", "-id"], name="sheets_newest"),
            models.Index(fields=["customer", "-judged_at"], name="sheets_of_customer"),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def undecided(self) -> int:
        return self.too_close_to_call + self.not_judged

    @property
    def total(self) -> int:
        return self.within_new_limits + self.serviceable + self.outside_limits + self.undecided

    @property
    def counts(self) -> list[tuple[str, int]]:
        return [
            ("within new limits", self.within_new_limits),
            ("serviceable", self.serviceable),
            ("outside limits", self.outside_limits),
            ("too close to call", self.too_close_to_call),
            ("not judged", self.not_judged),
        ]
