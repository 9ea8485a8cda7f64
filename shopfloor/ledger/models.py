"""Chain heads, events, and the texts that may be erased while the hash stays."""

import json
from functools import cached_property
from typing import Any

from django.db import models


class ChainHead(models.Model):
    """Where a chain ends: the sequence and the hash of its last event. Locked by every append."""

    name = models.CharField(max_length=80, primary_key=True)
    sequence = models.BigIntegerField()
    hash = models.BinaryField(max_length=32)


class LedgerEvent(models.Model):
    """One act on one chain. `body_bytes` is what was hashed; the other columns repeat parts of it for finding."""

    chain = models.CharField(max_length=80)
    sequence = models.BigIntegerField()
    kind = models.CharField(max_length=60)
    act = models.UUIDField()
    by = models.BigIntegerField(null=True)
    at = models.DateTimeField()
    about_label = models.CharField(max_length=60, blank=True)
    about_id = models.CharField(max_length=80, blank=True)
    body_bytes = models.BinaryField()
    previous = models.BinaryField(max_length=32)
    hash = models.BinaryField(max_length=32)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["chain", "sequence"], name="one_event_per_place")]
        indexes = [
            models.Index(fields=["chain", "id"], name="event_chain"),
            models.Index(fields=["act"], name="event_act"),
            models.Index(fields=["kind", "id"], name="event_kind"),
            models.Index(fields=["at"], name="event_at"),
            models.Index(fields=["about_label", "about_id", "id"], name="event_about"),
        ]

    @cached_property
    def body(self) -> dict[str, Any]:
        body: dict[str, Any] = json.loads(bytes(self.body_bytes))
        return body


class ErasableText(models.Model):
    """A name or free text whose salted hash stands in an event. Erasing it leaves every hash whole."""

    digest = models.BinaryField(max_length=32, unique=True)
    salt = models.BinaryField(max_length=32)
    text = models.TextField()
    about_label = models.CharField(max_length=60)
    about_id = models.CharField(max_length=80)
    field = models.CharField(max_length=60)

    class Meta:
        indexes = [models.Index(fields=["about_label", "about_id"], name="text_about")]
