"""Engine models, and the data packs that say how each is overhauled."""

from django.db import models
from django.db.models import F, Q
from uuid_utils.compat import uuid7

from measurements.limits.models import LimitTable, State
from shopfloor.people.models import Person


class EngineModel(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    code = models.CharField(max_length=60, unique=True)
    name = models.CharField(max_length=120)
    maker = models.CharField(max_length=120)
    added_at = models.DateTimeField()

    def __str__(self) -> str:
        return self.code


class Pack(models.Model):
    """One revision of the data of a model. `content` is canonical JSON and never changes; only the state moves on."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    model = models.ForeignKey(EngineModel, on_delete=models.PROTECT, related_name="packs")
    revision = models.CharField(max_length=40)
    state = models.CharField(max_length=12, choices=State.choices, default=State.DRAFT)
    label = models.CharField(max_length=200, blank=True)
    content = models.TextField()
    limit_table = models.OneToOneField(LimitTable, on_delete=models.PROTECT, related_name="pack")
    loaded_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    loaded_at = models.DateTimeField()
    approved_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    approved_at = models.DateTimeField(null=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["model", "revision"], name="one_pack_per_revision"),
            models.UniqueConstraint(fields=["model"], condition=Q(state="approved"), name="one_pack_in_force_per_model"),
            models.CheckConstraint(
                condition=Q(approved_by__isnull=True) | ~Q(approved_by=F("loaded_by")), name="nobody_approves_own_pack"
            ),
            models.CheckConstraint(
                condition=Q(state="draft", approved_by__isnull=True) | (~Q(state="draft") & Q(approved_by__isnull=False)),
                name="in_force_only_when_approved",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.model.code}, data revision {self.revision}"


class PageCheck(models.Model):
    """A second person held everything that a pack says of one page against that page."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    pack = models.ForeignKey(Pack, on_delete=models.PROTECT, related_name="page_checks")
    document = models.CharField(max_length=120)
    document_revision = models.CharField(max_length=40)
    page = models.CharField(max_length=40)
    checked_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    checked_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["pack", "document", "document_revision", "page"], name="a_page_is_checked_once"),
        ]


class RouteDraft(models.Model):
    """The route of a pack on its way to the next revision. Everything else of the data is that of `pack`.

    Sent in, it becomes a pack of its own, which waits to be checked and approved like any other.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    pack = models.ForeignKey(Pack, on_delete=models.PROTECT, related_name="route_drafts")
    revision = models.CharField(max_length=40)
    opened_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    opened_at = models.DateTimeField()
    sent_as = models.OneToOneField(Pack, null=True, on_delete=models.PROTECT, related_name="written_as")
    sent_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    sent_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-opened_at", "-id"]

    def __str__(self) -> str:
        return f"{self.pack.model.code}, route for revision {self.revision}"


class RouteText(models.Model):
    """One version of a draft: the route as YAML. Each save is a version more, and none is ever changed."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    draft = models.ForeignKey(RouteDraft, on_delete=models.PROTECT, related_name="texts")
    version = models.PositiveIntegerField()
    text = models.TextField()
    saved_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    saved_at = models.DateTimeField()

    class Meta:
        ordering = ["version"]
        constraints = [models.UniqueConstraint(fields=["draft", "version"], name="a_version_of_a_draft_once")]
