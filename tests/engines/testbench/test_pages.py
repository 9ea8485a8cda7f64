"""The pages of the stand as the people there see them, and what they cost."""

from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from engines.testbench import services
from engines.testbench.models import Run, RunReading
from engines.testbench.queries import runs
from shopfloor.ledger.queries import newest_event
from tests.making_people import PASSWORD
from tests.making_runs import GOOD, MINUTES, OIL, Stand

pytestmark = pytest.mark.django_db


@pytest.fixture
def stand(client):
    stand = Stand()
    client.force_login(stand.by)
    return stand


def address(stand, name, **of):
    return reverse(f"testbench:{name}", args=[stand.run.pk])


def post(client, stand, name, key=None, **fields):
    return client.post(address(stand, name), {"receipt_key": str(key or uuid4()), **fields})


def page(client, stand):
    return client.get(address(stand, "run")).content.decode()


def fields_of(client, stand, step, values):
    """The post of the form as the page gives it: labels found, values filled in."""
    form = client.get(address(stand, "run")).context["read_form" if step else "oil_form"]
    filled = {"step": step}
    for name, field in form.fields.items():
        if name == "step":
            continue
        channel = field.label.partition(", cylinder")[0].lower()
        filled |= {name: values[channel]} if channel in values else {}
    return filled


def test_a_run_is_driven_from_the_pages_to_passed(client, monkeypatch):
    stand = Stand(begun=False)
    client.force_login(stand.by)
    clock = [stand.now]
    monkeypatch.setattr(timezone, "now", lambda: clock[0])
    begin = reverse("testbench:begin", args=[stand.visit.pk])
    assert client.post(begin, {"receipt_key": str(uuid4())}).status_code == 422, "the cautions come first"
    client.post(begin, {"receipt_key": str(uuid4()), "clear": "on"})
    stand.run = Run.objects.get()
    for step, values in GOOD.items():
        assert post(client, stand, "begin-step", step=step).status_code == 302
        clock[0] += timezone.timedelta(minutes=MINUTES[step])
        if values:
            assert post(client, stand, "read", **fields_of(client, stand, step, values)).status_code == 302
        if step in ("magnetos", "stopped"):
            code = "grounded" if step == "magnetos" else "no-leak"
            assert post(client, stand, "answer", code=code, yes="yes").status_code == 302
        assert post(client, stand, "end-step", step=step).status_code == 302
    assert "oil put in was not read" in page(client, stand)
    post(client, stand, "read", **fields_of(client, stand, "", OIL))
    shown = client.get(address(stand, "run"))
    assert "the run ends as passed" in shown.content.decode()
    seen = shown.context["end_form"].initial["seen"]
    assert post(client, stand, "end", password="not it", seen=seen).status_code == 403
    assert Run.objects.get().ended_at is None
    assert post(client, stand, "end", password=PASSWORD, seen=seen).status_code == 302
    assert Run.objects.get().passed


def test_the_page_shows_what_is_held_what_is_read_and_what_kills(client, stand):
    stand.hold_all("pre-oil", "warm")
    stand.begin_step("full")
    stand.read("full", oil_pressure="95")
    text = page(client, stand)
    for words in (
        "Hold <b>2500 rpm</b>",
        "<b>10 minutes</b>",
        "A running engine and its propeller kill",
        "Nobody stands in line with the test club.",
        "50 to 90 psi",
        "95 psi",
        "outside limits",
        "Break off now",
        "invented data: not for any real engine",
    ):
        assert words in text, words
    assert 'class="curve"' in text, "oil pressure was read at three moments"


def test_corrected_power_is_shown_with_its_formula_and_constants(client):
    stand = Stand().passed()
    client.force_login(stand.shop.manager)
    text = page(client, stand)
    for words in ("classic 460/519", "CF = (29.92 / (B - e)) * sqrt((460 + t) / 519)", "Standard dry pressure", "88.4 hp"):
        assert words in text, words
    kept = runs().get(pk=stand.run.pk).findings
    for words in (
        "classic 460/519",
        "CF = (29.92 / (B - e))",
        '"standard temperature":"519"',
        '"vapour pressure, inHg":"0.0000"',
    ):
        assert words in kept, words
    assert "Keep the readings" not in text, "nothing is entered any more"


def test_a_retry_with_the_same_key_enters_nothing_twice(client, stand):
    stand.begin_step("pre-oil")
    key, filled = uuid4(), fields_of(client, stand, "pre-oil", GOOD["pre-oil"])
    first, second = (post(client, stand, "read", key, **filled) for _ in range(2))
    assert (first.status_code, first["Location"]) == (second.status_code, second["Location"])
    assert RunReading.objects.count() == 1


def test_of_two_posts_at_once_one_begins_the_step_and_the_other_is_told(client, stand):
    first, second = (post(client, stand, "begin-step", step="pre-oil") for _ in range(2))
    assert (first.status_code, second.status_code) == (302, 409)
    assert "Pre-oil is going on: end that step first." in second.content.decode()
    assert stand.run.spans.count() == 1


def test_a_form_of_a_step_that_is_over_is_refused(client, stand):
    stand.begin_step("pre-oil")
    filled = fields_of(client, stand, "pre-oil", GOOD["pre-oil"])
    stand.end_step("pre-oil")
    refused = post(client, stand, "read", **filled)
    assert (refused.status_code, RunReading.objects.count()) == (409, 0)
    assert "Pre-oil is not going on now" in refused.content.decode()


def test_a_mistyped_value_comes_back_with_what_was_typed(client, stand):
    stand.begin_step("pre-oil")
    refused = post(client, stand, "read", **fields_of(client, stand, "pre-oil", {"oil pressure": "thirty"}))
    assert refused.status_code == 422
    assert 'value="thirty"' in refused.content.decode()
    assert "is not a number" in refused.content.decode()


def test_the_mistakes_of_a_log_are_told_on_the_page(client, stand):
    stand.begin_step("pre-oil")
    log = SimpleUploadedFile("x.csv", b"time,channel,cylinder,value,unit\nnoon,oil pressure,,40,\n", "text/csv")
    refused = post(client, stand, "log", log=log)
    assert refused.status_code == 422
    assert "Line 2: “noon” is no moment" in refused.content.decode()


def test_a_reading_is_corrected_on_its_own_page_and_stays_struck_through(client, stand):
    stand.begin_step("pre-oil")
    stand.read("pre-oil", oil_pressure="13")
    wrong = reverse("testbench:correct", args=[RunReading.objects.get().pk])
    assert "13 psi" in client.get(wrong).content.decode()
    client.post(wrong, {"receipt_key": str(uuid4()), "value": "31", "reason": "upside down"})
    text = page(client, stand)
    assert 'class="struck"' in text
    assert "corrected: upside down" in text
    again = client.post(wrong, {"receipt_key": str(uuid4()), "value": "32", "reason": "again"})
    assert again.status_code == 409


def test_the_state_is_sent_only_when_something_moved(client, stand, monkeypatch):
    moment = timezone.now()
    monkeypatch.setattr(timezone, "now", lambda: moment)
    asked = f"{address(stand, 'state')}?at=between"
    etag = client.get(asked)["ETag"]
    with CaptureQueriesContext(connection) as queries:
        unchanged = client.get(asked, headers={"If-None-Match": etag})
    assert (unchanged.status_code, unchanged.content) == (304, b"")
    assert not [query for query in queries if "runreading" in query["sql"]]
    stand.begin_step("pre-oil")
    moved = client.get(asked, headers={"If-None-Match": etag})
    assert moved.headers["HX-Refresh"] == "true", "another step goes on: the forms of the page are of no use"
    here = client.get(f"{address(stand, 'state')}?at=pre-oil", headers={"If-None-Match": etag})
    assert "Pre-oil" in here.content.decode()
    assert str(newest_event()) in here["ETag"]


def test_the_page_costs_the_same_however_much_was_read(client, stand):
    stand.begin_step("pre-oil")
    costs = []
    for _ in range(2):
        stand.read("pre-oil", oil_pressure="30")
        with CaptureQueriesContext(connection) as queries:
            page(client, stand)
        costs.append(len(queries))
        for _ in range(12):
            stand.wait(0.1)
            stand.read("pre-oil", oil_pressure="31", oil_temperature="80")
        services.correct(
            reading=stand.run.readings.filter(corrected_by=None).first(), value="32", reason="x", by=stand.by, at=stand.now
        )
    assert costs[0] == costs[1]
    assert costs[0] < 25


def test_the_visit_leads_to_the_stand_while_the_engine_stands_in_test(client, stand):
    link = reverse("testbench:runs", args=[stand.visit.pk])
    visit = reverse("benches:visit", args=[stand.visit.pk])
    assert f'href="{link}">To the stand' in client.get(visit).content.decode()
    assert "Run 1: going on" in client.get(link).content.decode()
    services.break_off(run=stand.run, reason="a knock", engine_at_fault=True, by=stand.by, at=stand.now)
    assert "To the stand" not in client.get(visit).content.decode()
