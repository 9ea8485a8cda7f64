"""The invented engine data: loaded by the manager, every page checked by the inspector."""

from datetime import datetime
from pathlib import Path

from engines.catalogue.models import Pack
from engines.catalogue.queries import data_of, packs_in_force
from engines.catalogue.services import check_pages
from engines.packs.services import approve, load_pack
from engines.scenario.saying import Say
from shopfloor.people.models import Person

DATA = Path(__file__).resolve().parent.parent / "data" / "packs"
FOLDERS = ("f6-240", "f4-130", "r5-110")


def tell(at: datetime, say: Say) -> None:
    for folder in FOLDERS:
        _put_into_force(folder, at)


def in_force(model: str) -> Pack:
    return packs_in_force().get(model__code=model)


def _put_into_force(folder: str, at: datetime) -> None:
    manager, inspector = (Person.objects.get(username=name) for name in ("manager", "inspector"))
    pack = Pack.objects.filter(model__code=folder.upper()).first()
    if pack is None:
        pack = load_pack(data=DATA / folder, name=folder, by=manager, at=at)
    if pack.approved_at is None:
        check_pages(pack=pack, pages=data_of(pack).sources, by=inspector, at=at)
        approve(pack=pack, by=inspector, at=at)
