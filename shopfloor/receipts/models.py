"""One receipt for each post that was carried out."""

from django.db import models


class Receipt(models.Model):
    key = models.UUIDField(primary_key=True)
    claim = models.UUIDField()
    person = models.ForeignKey("people.Person", on_delete=models.PROTECT, related_name="+")
    route = models.CharField(max_length=200)
    content_sha256 = models.CharField(max_length=64)
    status = models.PositiveSmallIntegerField(null=True)
    location = models.TextField(blank=True)
    media_type = models.CharField(max_length=100, blank=True)
    answer = models.BinaryField(default=b"")
    at = models.DateTimeField(db_index=True)
