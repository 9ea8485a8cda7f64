"""Loading data from files, and putting it into force with all that hangs on it."""

from datetime import datetime
from pathlib import Path

from django.db import transaction

from engines.catalogue import services as catalogue
from engines.catalogue.models import Pack
from engines.catalogue.queries import packs_in_force
from engines.packs import hooks
from engines.packs.reading import read_pack, read_zip
from shopfloor.people.models import Person


def load_pack(*, data: bytes | Path, name: str, by: Person, at: datetime) -> Pack:
    """Keep the data of a folder or zip as a draft; `name` is what the sender calls it.

    Raises PackMistakes with everything that is wrong, and RevisionTaken; then nothing is kept.
    """
    read = read_pack(data) if isinstance(data, Path) else read_zip(data, name)
    return catalogue.add_pack(data=read, by=by, at=at)


@transaction.atomic
def approve(*, pack: Pack, by: Person, at: datetime) -> Pack:
    """Put a checked draft into force and tell every room that asked. Raises OwnData, NotADraft, NotAnApprover, PagesUnchecked."""
    older = packs_in_force().filter(model_id=pack.model_id).first()
    approved = catalogue.approve_pack(pack=pack, by=by, at=at)
    for told in hooks.after_approval:
        told(older, approved, by, at)
    return approved
