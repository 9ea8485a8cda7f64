"""Discrepancies for their pages, and the earlier values of a part."""

from uuid import UUID

from django.db.models import QuerySet

from engines.inspection.models import Discrepancy, Taken


def discrepancies() -> QuerySet[Discrepancy]:
    joined = ("visit__engine__item", "visit__engine__model", "visit__customer", "visit__pack__model", "visit__received_by")
    return Discrepancy.objects.select_related(*joined, "reading__row", "item", "raised_by")


def earlier_values(item: UUID, row: str) -> QuerySet[Taken]:
    """What was read on a part for one characteristic, over all visits, the newest first: one query."""
    return Taken.objects.filter(item=item, row=row).select_related("reading", "visit").order_by("-taken_at")
