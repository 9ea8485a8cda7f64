"""Keeping engine data: a draft first, every page checked by another person, then in force."""

from collections.abc import Sequence
from datetime import datetime

from django.db import IntegrityError, transaction
from django.utils.timezone import localdate

from engines.catalogue import hooks
from engines.catalogue.data import PackData, Source, to_plain
from engines.catalogue.errors import NoSuchPage, NotADraft, NotAnApprover, OwnData, PagesUnchecked, RevisionTaken
from engines.catalogue.models import EngineModel, Pack, PageCheck
from engines.catalogue.queries import data_of, unchecked_pages
from measurements.limits.models import State
from measurements.limits.services import add_table, approve_table
from shopfloor.ledger.canonical import canonical
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

CHAIN = "catalogue"


@transaction.atomic
def add_pack(*, data: PackData, by: Person, at: datetime) -> Pack:
    """Keep checked data as a draft. Raises RevisionTaken."""
    model = EngineModel.objects.filter(code=data.model).first() or _add_model(data, by, at)
    try:
        with transaction.atomic():
            table = add_table(subject=data.model, revision=data.revision, rows=data.limits, by=by, at=at)
    except IntegrityError:
        raise RevisionTaken(data.model, data.revision) from None
    pack = Pack.objects.create(
        model=model,
        revision=data.revision,
        label=data.label,
        content=canonical(to_plain(data)).decode(),
        limit_table=table,
        loaded_by=by,
        loaded_at=at,
    )
    record(Entry(chain=CHAIN, kind="pack.loaded", of=pack), by=by.pk, at=at)
    return pack


@transaction.atomic
def check_pages(*, pack: Pack, pages: Sequence[Source], by: Person, at: datetime) -> None:
    """Say that what the pack says of these pages is what stands there. Raises OwnData, NotADraft, NoSuchPage."""
    pack = _draft(pack, by)
    if not set(pages) <= set(data_of(pack).sources):
        raise NoSuchPage
    waiting = set(unchecked_pages(pack))
    checks = [
        PageCheck(
            pack=pack,
            document=source.document,
            document_revision=source.revision,
            page=source.page,
            checked_by=by,
            checked_at=at,
        )
        for source in dict.fromkeys(pages)
        if source in waiting
    ]
    if checks:
        PageCheck.objects.bulk_create(checks)
        record(*(Entry(chain=CHAIN, kind="page.checked", of=check) for check in checks), by=by.pk, at=at)


@transaction.atomic
def approve_pack(*, pack: Pack, by: Person, at: datetime) -> Pack:
    """Put a checked draft into force; the older revision gives way. Raises OwnData, NotADraft, NotAnApprover, PagesUnchecked."""
    pack = _draft(pack, by)
    if refused := hooks.why_not(by, pack.model.code, localdate(at)):
        raise NotAnApprover(refused)
    if missing := unchecked_pages(pack):
        raise PagesUnchecked(len(missing))
    approve_table(table=pack.limit_table, by=by, at=at)
    for older in Pack.objects.select_for_update().filter(model=pack.model, state=State.APPROVED):
        older.state = State.SUPERSEDED
        older.save(update_fields=["state"])
        record(Entry(chain=CHAIN, kind="pack.superseded", of=older), by=by.pk, at=at)
    pack.state, pack.approved_by, pack.approved_at = State.APPROVED, by, at
    pack.save(update_fields=["state", "approved_by", "approved_at"])
    record(Entry(chain=CHAIN, kind="pack.approved", of=pack), by=by.pk, at=at)
    return pack


def _add_model(data: PackData, by: Person, at: datetime) -> EngineModel:
    model = EngineModel.objects.create(code=data.model, name=data.model_name, maker=data.maker, added_at=at)
    record(Entry(chain=CHAIN, kind="model.added", of=model), by=by.pk, at=at)
    return model


def _draft(pack: Pack, by: Person) -> Pack:
    pack = Pack.objects.select_for_update().get(pk=pack.pk)
    if pack.loaded_by_id == by.pk:
        raise OwnData
    if pack.state != State.DRAFT:
        raise NotADraft
    return pack
