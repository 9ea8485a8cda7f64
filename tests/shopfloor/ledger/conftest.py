"""What every test of the ledger uses: kinds of event, persons as records, a clean registry afterwards."""

from unittest.mock import patch

import pytest

from shopfloor.ledger import append_only, kinds, records
from shopfloor.people.models import Person, RoleGrant


@pytest.fixture(autouse=True)
def _registries():
    with patch.dict(kinds._kinds), patch.dict(records._kinds), patch.dict(append_only._protected):
        records._kinds.clear()
        kinds.register_kind("bench.swept", sentence=lambda event: "the bench was swept", link=lambda event: "/benches/3/")
        kinds.register_kind("person.changed", sentence=lambda event: f"person {event.about_id} was changed")
        records.register_record(Person, content=lambda person: {"username": person.username}, private=("name",))
        append_only.protect(RoleGrant, closes=("ended_by", "ended_at"))
        yield
