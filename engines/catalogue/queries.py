"""What is in force, and what a pack says. A pack never changes, so what was parsed once is kept."""

import json
from collections import OrderedDict
from dataclasses import replace
from threading import Lock
from uuid import UUID

from django.db.models import QuerySet
from django.forms.models import model_to_dict

from engines.catalogue.data import PackData, Source, from_plain
from engines.catalogue.models import Pack, PageCheck, RouteDraft, RouteText
from measurements.limits.models import LimitRow, State
from shopfloor.people.models import Person

KEPT = 64
_parsed: OrderedDict[UUID, PackData] = OrderedDict()
_rows: OrderedDict[UUID, tuple[LimitRow, ...]] = OrderedDict()
_lock = Lock()


def packs() -> QuerySet[Pack]:
    return Pack.objects.select_related("model", "loaded_by", "approved_by").order_by("model__code", "-loaded_at")


def packs_in_force() -> QuerySet[Pack]:
    return packs().filter(state=State.APPROVED)


def data_of(pack: Pack) -> PackData:
    """The pack with its limit rows; no query once it was parsed in this process."""
    with _lock:
        if pack.pk in _parsed:
            _parsed.move_to_end(pack.pk)
            return _parsed[pack.pk]
    parsed = replace(from_plain(json.loads(pack.content)), limits=tuple(map(_fields, rows_of(pack))))
    with _lock:
        _parsed[pack.pk] = parsed
        if len(_parsed) > KEPT:
            _parsed.popitem(last=False)
    return parsed


def rows_of(pack: Pack) -> tuple[LimitRow, ...]:
    """The limit rows in their order; no query once they were read in this process, because rows never change."""
    with _lock:
        if pack.limit_table_id in _rows:
            _rows.move_to_end(pack.limit_table_id)
            return _rows[pack.limit_table_id]
    rows = tuple(LimitRow.objects.filter(table_id=pack.limit_table_id).order_by("order"))
    with _lock:
        _rows[pack.limit_table_id] = rows
        if len(_rows) > KEPT:
            _rows.popitem(last=False)
    return rows


def unchecked_pages(pack: Pack) -> list[Source]:
    checked = {(check.document, check.document_revision, check.page) for check in PageCheck.objects.filter(pack=pack)}
    return [each for each in data_of(pack).sources if (each.document, each.revision, each.page) not in checked]


def wrote_in(pack: Pack, person: Person) -> bool:
    """Whether the person loaded the pack, or saved a version of the draft that it was written as."""
    return pack.loaded_by_id == person.pk or RouteText.objects.filter(draft__sent_as=pack, saved_by=person).exists()


def route_drafts() -> QuerySet[RouteDraft]:
    """The newest first."""
    return RouteDraft.objects.select_related("pack__model", "opened_by", "sent_as__model", "sent_by")


def open_drafts() -> QuerySet[RouteDraft]:
    return route_drafts().filter(sent_at__isnull=True)


def newest_text(draft: RouteDraft) -> RouteText:
    return RouteText.objects.filter(draft=draft).select_related("saved_by").order_by("-version")[0]


def _fields(row: LimitRow) -> dict[str, object]:
    return model_to_dict(row, exclude=["id", "table", "order"])
