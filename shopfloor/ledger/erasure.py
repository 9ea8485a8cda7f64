"""Erasing what is private, so that every hash still stands.

To erase a record: put `ERASED` into its private fields, call `erase_texts`, then record an event of it. The rows are
deleted; a database keeps freed pages, write-ahead logs and backups for a while, and those are the operator's to age out.
"""

from django.db.models import Model

from shopfloor.ledger.models import ErasableText
from shopfloor.ledger.texts import ERASED

__all__ = ["ERASED", "erase_texts"]


def erase_texts(*, of: Model) -> int:
    """Drop the text and the salt of every private field of this record, in all its events. Returns how many there were."""
    texts = ErasableText.objects.using(of._state.db).filter(about_label=of._meta.label_lower, about_id=str(of.pk))
    return texts.delete()[0]
