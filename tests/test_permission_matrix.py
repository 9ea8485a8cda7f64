"""Every cell of the hand-written permission table is asked over HTTP, and no address is missing from it."""

from contextlib import contextmanager

import pytest
from django.contrib.auth.models import AnonymousUser
from django.db import transaction
from django.test.client import BOUNDARY, MULTIPART_CONTENT, encode_multipart
from django.urls import reverse

from engines.traveler.models import Authorised
from shopfloor.people.models import Person, Role
from tests.addresses import patterns
from tests.making_authorisations import entrust
from tests.making_people import make_customer, make_person
from tests.permission_table import OBJECTS, READERS, ROWS, Row, World

ASK_THE_ROSTER = {"packs:approve", "benches:enter", "benches:take", "benches:sign", "benches:accept"}


class OfTheReader(Exception):
    """The object of a row depends on who asks."""


class NobodysWorld:
    """A world without a reader: what can be made in it is the same for all who ask, and made once for them."""

    @property
    def reader(self):
        raise OfTheReader

    self_or_stranger = reader


def _reader(name):
    match name:
        case "anonymous":
            return AnonymousUser()
        case "no_role":
            return make_person(username="reader")
        case "first_password":
            return make_person(Role.MANAGER, username="reader", must_change_password=True)
        case "customer":
            return make_person(Role.CUSTOMER, username="reader", customer=make_customer())
        case role:
            return make_person(Role(role), username="reader")


def _authorised(person, row):
    """Where the roster is asked too, everybody stands on it, so that the role alone decides."""
    if person.pk and row.url in ASK_THE_ROSTER:
        entrust(person, whats=Authorised.values, by=Person.objects.get(username="another-manager"))
    return person


@pytest.mark.django_db
@pytest.mark.parametrize("row", ROWS, ids=str)
def test_row(client, row, record_property):
    """Every reader in turn, each on the same untouched shop; all cells that are wrong are told together."""
    make_person(Role.MANAGER, username="another-manager")
    shared = _made_once(row)
    wrong = []
    for reader in READERS:
        with _undone(client):
            wrong += _cell(client, row, reader, shared)
    assert not wrong, "\n\n".join(wrong)
    record_property("cells", len(READERS))


@contextmanager
def _undone(client):
    """The next reader finds the shop as this one found it. No atomic block: a count of tries refuses to stand in one."""
    before = transaction.savepoint()
    yield
    transaction.savepoint_rollback(before)
    client.cookies.clear()


def _made_once(row):
    """The address's arguments, or none where they depend on the reader."""
    try:
        with transaction.atomic():
            return OBJECTS[row.of](NobodysWorld())
    except OfTheReader:
        return None


def _cell(client, row, reader, shared):
    try:
        answer = _ask(client, row, _authorised(_reader(reader), row), shared)
    except Exception as error:
        error.add_note(f"at {row} by {reader}")
        raise
    if answer.status_code != row.expected[reader]:
        yield f"{row} by {reader}: {answer.status_code}, not {row.expected[reader]}. {answer.content.decode()[:2000]}"
    elif answer.status_code == 302 and reader in ("anonymous", "first_password") and row.url != "people:sign-out":
        gate = reverse("people:sign-in" if reader == "anonymous" else "people:own-password")
        if answer.url.partition("?")[0] != gate:
            yield f"{row} by {reader}: sent to {answer.url}, not to {gate}"


def _ask(client, row, person, shared):
    if person.pk:
        client.force_login(person)
    address = reverse(row.url, kwargs=OBJECTS[row.of](World(person)) if shared is None else shared)
    headers = {"HX-Request": "true"} if row.fragment else {}
    return client.generic(row.method, address, **_body(row), headers=headers)


def _body(row):
    if row.method not in ("POST", "PUT", "PATCH"):
        return {}
    for value in row.data.values():
        if hasattr(value, "seek"):
            value.seek(0)
    return {"data": encode_multipart(BOUNDARY, row.data), "content_type": MULTIPART_CONTENT}


def test_every_address_and_no_other_is_in_the_table():
    in_table = {row.url for row in ROWS}
    served = {name for name, _ in patterns()}
    assert served - in_table == set(), "these addresses have no row in tests/permission_table.py"
    assert in_table - served == set(), "tests/permission_table.py lists addresses that do not exist"


@pytest.mark.parametrize("method", ["GET", "POST"])
def test_every_address_is_asked_with(method):
    asked = {row.url for row in ROWS if row.method == method}
    assert {name for name, _ in patterns()} - asked == set()


def test_an_address_with_an_owner_is_asked_for_ones_own_and_for_anothers():
    """Any address that some row asks for one's own object must also be asked for another's, and the other way round."""
    own = {row.url for row in ROWS if row.of.startswith("own ")}
    anothers = {row.url for row in ROWS if row.of.startswith("another")}
    assert own == anothers


def test_a_cell_that_is_wrong_is_told_with_its_reader(client, db):
    """The other cells of the row hold: only the wrong status and the wrong gate are told."""
    held = Row("people:persons", "GET", auditor=200, others=403, anonymous=302)
    bent = Row("people:persons", "GET", auditor=403, others=403, anonymous=302)
    told = []
    for row, reader in [(held, "anonymous"), (bent, "anonymous"), (held, "auditor"), (bent, "auditor")]:
        with _undone(client):
            told += _cell(client, row, reader, {})
    assert [wrong.partition(". ")[0] for wrong in told] == ["GET people:persons by auditor: 200, not 403"]


def test_what_belongs_to_the_reader_is_not_made_once(db):
    assert _made_once(Row("people:person", "GET", of="own person", everyone=200)) is None
    assert _made_once(Row("people:person", "GET", of="another person", everyone=200)).keys() == {"pk"}


def test_a_row_must_say_what_every_reader_gets():
    with pytest.raises(ValueError, match="anonymous"):
        Row("people:persons", "GET", others=403)
    with pytest.raises(ValueError, match="janitor"):
        Row("people:persons", "GET", everyone=403, janitor=200)
