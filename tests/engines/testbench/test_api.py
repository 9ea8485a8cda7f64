"""A data logger reads a run and sends readings: once, however often they arrive."""

from uuid import uuid4

import pytest
from django.urls import reverse

from engines.testbench.models import RunReading
from tests.making_runs import Stand

pytestmark = pytest.mark.django_db
OIL = {"step": "pre-oil", "channel": "oil pressure", "value": "30"}


@pytest.fixture
def stand(client):
    stand = Stand()
    client.force_login(stand.by)
    stand.begin_step("pre-oil")
    return stand


def send(client, stand, given, key=None):
    address = reverse("testbench-api:readings", args=[stand.run.pk])
    headers = {"Idempotency-Key": str(key)} if key else {}
    return client.post(address, given, content_type="application/json", headers=headers)


def test_a_reading_is_kept_once_under_its_key(client, stand):
    key = uuid4()
    first, second = (send(client, stand, OIL, key) for _ in range(2))
    assert (first.status_code, first.json()) == (201, {"run": str(stand.run.pk), "outcome": "", "why": ""})
    assert second.json() == first.json()
    assert RunReading.objects.count() == 1
    assert send(client, stand, OIL | {"value": "31"}, key).status_code == 409, "the key stands for another reading"


@pytest.mark.parametrize(
    ("changed", "status", "told"),
    [
        ({"value": "a lot"}, 422, "is not a number"),
        ({"step": "warm"}, 409, "Warm up is not going on now"),
        ({"channel": ""}, 400, "blank"),
        ({"taken_at": "2020-01-01T00:00:00Z"}, 422, "outside the step"),
    ],
)
def test_what_cannot_be_kept_is_refused_and_may_be_sent_again(client, stand, changed, status, told):
    key = uuid4()
    refused = send(client, stand, OIL | changed, key)
    assert refused.status_code == status
    assert told in refused.content.decode()
    assert send(client, stand, OIL, key).status_code == 201


def test_without_a_key_nothing_is_kept(client, stand):
    assert send(client, stand, OIL).status_code == 400
    assert not RunReading.objects.exists()


def test_a_program_learns_that_its_reading_ended_the_run(client, stand):
    answer = send(client, stand, OIL | {"value": "9.9"}, uuid4()).json()
    assert answer["outcome"] == "failed"
    assert "9.9 psi" in answer["why"]


def test_a_run_is_told_with_its_lines_and_what_is_missing(client, stand):
    send(client, stand, OIL, uuid4())
    told = client.get(reverse("testbench-api:run", args=[stand.run.pk])).json()
    assert (told["step"], told["outcome"], told["steps"][0]["lines"][0]["verdict"]) == ("pre-oil", "", "within limits")
    assert "Warm up: not begun; it is held for 5 minutes." in told["missing"]
    listed = client.get(reverse("testbench-api:readings", args=[stand.run.pk])).json()
    assert [(each["channel"], each["value"], each["unit"]) for each in listed] == [("oil pressure", "30", "psi")]
