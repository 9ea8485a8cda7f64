"""The ledger as an auditor reads it: newest first, filtered, in pages, with the proof of each event."""

from datetime import UTC, datetime

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shopfloor.ledger.hashing import event_hash
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Role
from tests.making_people import make_person

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
pytestmark = pytest.mark.django_db


@pytest.fixture
def auditor(client):
    person = make_person(Role.AUDITOR, username="auditor")
    client.force_login(person)
    return person


def add(person, times=1, chain="people"):
    for _ in range(times):
        record(Entry(chain, "person.added", of=person), by=person.pk, at=NOON)


def rows(answer):
    return [(line.event.chain, line.event.sequence) for line in answer.context["lines"]]


def test_newest_first_with_sentence_link_and_person(client, auditor):
    add(auditor)
    page = client.get("/ledger/").content.decode()
    assert f'<a href="/people/{auditor.pk}/">Person {auditor.pk} was added.</a>' in page
    assert "<td>auditor</td>" in page
    assert rows(client.get("/ledger/")) == [("people", 1), ("shop", 2), ("shop", 1)]


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        ("chain=stores", [("stores", 1)]),
        ("kind=chain.created", [("shop", 3), ("shop", 2), ("shop", 1)]),
        ("record=people.person/{pk}", [("stores", 1), ("people", 1)]),
        ("chain=stores&kind=chain.created", []),
        ("record=people.person/9999", []),
    ],
)
def test_filters(client, auditor, asked, expected):
    add(auditor)
    add(auditor, chain="stores")
    assert rows(client.get("/ledger/?" + asked.format(pk=auditor.pk))) == expected


@pytest.mark.parametrize(
    "asked", ["before=x", "before=-1", "before=99999999999999999999", "kind=nonsense", "record=x", "chain=%00"]
)
def test_a_bad_question_is_answered_with_400(client, auditor, asked):
    assert client.get(f"/ledger/?{asked}").status_code == 400
    assert client.get(f"/api/v1/ledger/events/?{asked}").status_code == 400


def test_pages_follow_each_other_without_gap_or_overlap(client, auditor):
    add(auditor, times=120)
    seen, address = [], "/ledger/?chain=people"
    while address:
        answer = client.get(address)
        seen += [sequence for _, sequence in rows(answer)]
        address = f"/ledger/?{answer.context['older']}" if answer.context["older"] else ""
    assert seen == list(range(120, 0, -1))


def test_the_number_of_queries_does_not_grow(client, auditor):
    counts = []
    for more in (1, 40):
        add(auditor, times=more)
        with CaptureQueriesContext(connection) as queries:
            client.get("/ledger/")
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_one_event_shows_its_body_and_both_hashes(client, auditor):
    add(auditor, times=2)
    event = LedgerEvent.objects.get(chain="people", sequence=2)
    page = client.get("/ledger/people/2/").content.decode()
    assert bytes(event.hash).hex() in page
    assert bytes(event.previous).hex() in page
    assert "salted" in page


def test_a_program_can_check_the_chain_by_itself(client, auditor):
    add(auditor, times=3)
    events = client.get("/api/v1/ledger/events/?chain=people").json()["events"]
    for event in events:
        computed = event_hash("people", event["sequence"], bytes.fromhex(event["previous"]), event["body"].encode())
        assert computed.hex() == event["hash"]
    assert [event["previous"] for event in events[:-1]] == [event["hash"] for event in events[1:]]
    assert client.get("/api/v1/ledger/events/people/3/").json() == events[0]


def test_a_damaged_body_still_has_its_page(client, auditor, as_owner):
    add(auditor)
    with as_owner():
        LedgerEvent.objects.filter(chain="people").update(body_bytes=b"{damaged")
    assert client.get("/ledger/people/1/").status_code == 200
    assert "its body cannot be read" in client.get("/ledger/").content.decode()
