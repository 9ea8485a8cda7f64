"""Every cell of the hand-written permission table is asked over HTTP, and no address is missing from it."""

import pytest
from django.contrib.auth.models import AnonymousUser
from django.test.client import BOUNDARY, MULTIPART_CONTENT, encode_multipart
from django.urls import reverse

from shopfloor.people.models import Role
from tests.addresses import patterns
from tests.making_people import make_customer, make_person
from tests.permission_table import OBJECTS, READERS, ROWS, Row, World

CELLS = [(row, reader) for row in ROWS for reader in READERS]


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


@pytest.mark.django_db
@pytest.mark.parametrize(("row", "reader"), CELLS, ids=[f"{row} by {reader}" for row, reader in CELLS])
def test_cell(client, row, reader):
    make_person(Role.MANAGER, username="another-manager")
    person = _reader(reader)
    if person.pk:
        client.force_login(person)
    address = reverse(row.url, kwargs=OBJECTS[row.of](World(person)))
    headers = {"HX-Request": "true"} if row.fragment else {}
    answer = client.generic(row.method, address, **_body(client, row), headers=headers)
    assert answer.status_code == row.expected[reader], answer.content.decode()[:2000]
    if row.expected[reader] == 302 and reader in ("anonymous", "first_password") and row.url != "people:sign-out":
        gate = "people:sign-in" if reader == "anonymous" else "people:own-password"
        assert answer.url.partition("?")[0] == reverse(gate)


def _body(client, row):
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


def test_a_row_must_say_what_every_reader_gets():
    with pytest.raises(ValueError, match="anonymous"):
        Row("people:persons", "GET", others=403)
    with pytest.raises(ValueError, match="janitor"):
        Row("people:persons", "GET", everyone=403, janitor=200)
