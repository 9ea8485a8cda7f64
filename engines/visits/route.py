"""The data that a visit is worked by: the pinned pack, and behind its route the operations that were added and approved."""

from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import replace
from threading import Lock
from uuid import UUID

from engines.catalogue.data import Operation, PackData
from engines.catalogue.queries import data_of
from engines.visits.models import AddedOperation, Visit

KEPT = 256
Key = tuple[UUID, tuple[str, ...]]
# What an id stands for never changes and is used once, so neither a rollback nor another process makes what is kept wrong.
_kept: OrderedDict[Key, PackData] = OrderedDict()
_lock = Lock()


def data_for(visit: Visit) -> PackData:
    """No query where nothing was added, or where it was read in this process before."""
    return data_for_all([visit])[visit.pk]


def data_for_all(visits: Sequence[Visit]) -> dict[UUID, PackData]:
    """By visit; one query for all that was not read yet."""
    found = {visit.pk: _known(visit) for visit in visits}
    unread = [visit for visit in visits if found[visit.pk] is None]
    if unread:
        added = _operations([each for visit in unread for each in visit.added])
        found |= {visit.pk: _keep(visit, [added[each] for each in visit.added]) for visit in unread}
    return {key: data for key, data in found.items() if data is not None}


def _known(visit: Visit) -> PackData | None:
    if not visit.added:
        return data_of(visit.pack)
    with _lock:
        return _kept.get(_key(visit))


def _keep(visit: Visit, added: list[Operation]) -> PackData:
    data = data_of(visit.pack)
    whole = replace(data, operations=(*data.operations, *added))
    with _lock:
        _kept[_key(visit)] = whole
        if len(_kept) > KEPT:
            _kept.popitem(last=False)
    return whole


def _key(visit: Visit) -> Key:
    return visit.pack_id, tuple(visit.added)


def _operations(ids: list[str]) -> dict[str, Operation]:
    return {str(each.pk): each.operation for each in AddedOperation.objects.filter(pk__in=ids)}
