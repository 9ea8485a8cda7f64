"""Files kept by their hash, and the papers that were asked for."""

from django.db import models
from django.db.models import Q
from uuid_utils.compat import uuid7

from shopfloor.documents.kinds import title_of
from shopfloor.jobs.models import Job
from shopfloor.people.models import Customer, Person


class StoredFile(models.Model):
    """Bytes that never change; their name is their SHA-256."""

    sha256 = models.CharField(max_length=64, unique=True)
    size = models.PositiveBigIntegerField()
    media_type = models.CharField(max_length=100)
    stored_at = models.DateTimeField()

    def __str__(self) -> str:
        return self.sha256


class Document(models.Model):
    """A paper of one kind about one subject. Its file is filled in once, by the worker whose attempt counts."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    kind = models.CharField(max_length=60)
    subject = models.CharField(max_length=200)
    about = models.CharField(max_length=200)
    customer = models.ForeignKey(Customer, null=True, on_delete=models.PROTECT, related_name="+")
    requested_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    requested_at = models.DateTimeField(db_index=True)
    job = models.OneToOneField(Job, on_delete=models.PROTECT, related_name="document")
    file = models.ForeignKey(StoredFile, null=True, on_delete=models.PROTECT, related_name="documents")
    rendered_at = models.DateTimeField(null=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(file__isnull=True, rendered_at__isnull=True) | Q(file__isnull=False, rendered_at__isnull=False),
                name="document_file_has_a_moment",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def title(self) -> str:
        return title_of(self.kind)
