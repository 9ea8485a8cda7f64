"""Who may write the next revision of a route: whoever may load data; all who see data may read it."""

from engines.packs.services import open_draft, remove_operation, send_in
from shopfloor.people.models import Role
from tests.making_packs import make_draft
from tests.making_people import AT, make_person
from tests.permission_rows.row import Row

KEY = {"receipt_key": "01a21364-3dc3-7376-891b-2b3866c9f427"}
MISSING = "01a21364-3dc3-7376-891b-2b3866c9f427"


def _draft():
    author = make_person(Role.MANAGER)
    return open_draft(pack=make_draft(author), revision="2", by=author, at=AT), author


def _plain(**more):
    return {"pk": _draft()[0].pk} | more


def _newer(**more):
    draft, author = _draft()
    remove_operation(draft=draft, seen=1, place=15, by=author, at=AT)
    return {"pk": draft.pk} | more


def _sent(**more):
    draft, author = _draft()
    send_in(draft=draft, seen=1, revision="2", by=author, at=AT)
    return {"pk": draft.pk} | more


OBJECTS = {
    "pack to write from": lambda world: {"pk": make_draft(make_person(Role.MANAGER)).pk},
    "route draft": lambda world: _plain(),
    "newer route draft": lambda world: _newer(),
    "sent route draft": lambda world: _sent(),
    "missing route draft": lambda world: {"pk": MISSING},
    "operation of a draft": lambda world: _plain(place=0),
    "operation of a newer draft": lambda world: _newer(place=0),
    "operation of a sent draft": lambda world: _sent(place=0),
    "missing operation of a draft": lambda world: _plain(place=99),
}


def reading(url, method, status, **rest):
    return Row(url, method, others=status, customer=403, no_role=403, anonymous=302, first_password=302, **rest)


def writing(url, method, status, **rest):
    return Row(
        url, method, **dict.fromkeys(("manager", "inspector"), status), others=403, anonymous=302, first_password=302, **rest
    )


SEEN = {"seen": "1"}
ENTRY = {"entry": "- code: one\n  title: x"}
ROWS = [
    writing("packs:open-draft", "GET", 405, of="pack to write from"),
    writing("packs:open-draft", "POST", 400, of="pack to write from"),
    writing("packs:open-draft", "POST", 422, of="pack to write from", data=KEY),
    writing("packs:open-draft", "POST", 409, of="pack to write from", data=KEY | {"revision": "1"}),
    writing("packs:open-draft", "POST", 302, of="pack to write from", data=KEY | {"revision": "2"}),
    writing("packs:open-draft", "POST", 404, of="missing route draft", data=KEY | {"revision": "2"}),
    reading("packs:draft", "GET", 200, of="route draft"),
    reading("packs:draft", "GET", 404, of="missing route draft"),
    reading("packs:draft", "POST", 405, of="route draft"),
    reading("packs:draft-download", "GET", 200, of="route draft"),
    reading("packs:draft-download", "GET", 404, of="missing route draft"),
    reading("packs:draft-download", "POST", 405, of="route draft"),
    reading("packs:draft-beside", "GET", 200, of="route draft"),
    reading("packs:draft-beside", "GET", 404, of="missing route draft"),
    reading("packs:draft-beside", "POST", 405, of="route draft"),
    writing("packs:draft-text", "GET", 200, of="route draft"),
    writing("packs:draft-text", "GET", 404, of="missing route draft"),
    writing("packs:draft-text", "POST", 400, of="route draft"),
    writing("packs:draft-text", "POST", 422, of="route draft", data=KEY),
    writing("packs:draft-text", "POST", 422, of="route draft", data=KEY | SEEN | {"text": "no list"}),
    writing("packs:draft-text", "POST", 302, of="route draft", data=KEY | SEEN | {"text": "- code: one"}),
    writing("packs:draft-text", "POST", 409, of="newer route draft", data=KEY | SEEN | {"text": "- code: one"}),
    writing("packs:draft-text", "POST", 409, of="sent route draft", data=KEY | SEEN | {"text": "- code: one"}),
    writing("packs:draft-operation", "GET", 200, of="operation of a draft"),
    writing("packs:draft-operation", "GET", 404, of="missing operation of a draft"),
    writing("packs:draft-operation", "POST", 400, of="operation of a draft"),
    writing("packs:draft-operation", "POST", 422, of="operation of a draft", data=KEY),
    writing("packs:draft-operation", "POST", 302, of="operation of a draft", data=KEY | SEEN | ENTRY),
    writing("packs:draft-operation", "POST", 409, of="operation of a newer draft", data=KEY | SEEN | ENTRY),
    writing("packs:draft-more", "GET", 200, of="operation of a draft"),
    writing("packs:draft-more", "POST", 400, of="operation of a draft"),
    writing("packs:draft-more", "POST", 422, of="operation of a draft", data=KEY),
    writing("packs:draft-more", "POST", 302, of="operation of a draft", data=KEY | SEEN | ENTRY),
    writing("packs:draft-more", "POST", 409, of="operation of a newer draft", data=KEY | SEEN | ENTRY),
    writing("packs:draft-move", "GET", 405, of="operation of a draft"),
    writing("packs:draft-move", "POST", 422, of="operation of a draft", data=KEY | SEEN),
    writing("packs:draft-move", "POST", 302, of="operation of a draft", data=KEY | SEEN | {"to": "1"}),
    writing("packs:draft-move", "POST", 409, of="operation of a newer draft", data=KEY | SEEN | {"to": "1"}),
    writing("packs:draft-remove", "GET", 405, of="operation of a draft"),
    writing("packs:draft-remove", "POST", 422, of="operation of a draft", data=KEY),
    writing("packs:draft-remove", "POST", 302, of="operation of a draft", data=KEY | SEEN),
    writing("packs:draft-remove", "POST", 422, of="missing operation of a draft", data=KEY | SEEN),
    writing("packs:draft-remove", "POST", 409, of="operation of a sent draft", data=KEY | SEEN),
    writing("packs:draft-send", "GET", 405, of="route draft"),
    writing("packs:draft-send", "POST", 422, of="route draft", data=KEY),
    writing("packs:draft-send", "POST", 302, of="route draft", data=KEY | SEEN | {"revision": "2"}),
    writing("packs:draft-send", "POST", 409, of="route draft", data=KEY | SEEN | {"revision": "1"}),
    writing("packs:draft-send", "POST", 409, of="newer route draft", data=KEY | SEEN | {"revision": "2"}),
]
