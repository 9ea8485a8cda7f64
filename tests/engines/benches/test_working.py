"""Errands at the bench through the pages: what is typed, what is refused and why, what is kept."""

import io
from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from PIL import Image

from engines.inspection.models import Discrepancy, Taken
from engines.traveler.models import Entry, Signature
from engines.visits.models import Photo, Tagged, Visit
from engines.visits.services import Identity, tag_replacement
from measurements.readings.models import Reading
from shopfloor.documents.models import StoredFile
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_gauges import calibrate, make_gauge
from tests.making_people import AT, PASSWORD, make_person
from tests.making_visits import Shop
from tests.permission_rows.benches import to_inspection

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop():
    return Shop()


@pytest.fixture
def mechanic(client, shop):
    client.force_login(shop.mechanic)
    return client


def key():
    return {"receipt_key": str(uuid4())}


def said(answer):
    return " ".join(answer.content.decode().split())


def picture(kind="JPEG"):
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "grey").save(out, kind, comment=b"secret camera" if kind == "JPEG" else None)
    return out.getvalue()


class TestReceiving:
    FORM = {"scope": "overhaul", "reasons": ["propeller strike"], "bench": "1", "directive_0": "complied with"}

    def form(self, shop, **fields):
        return self.FORM | {"serial": "T2-77", "customer": shop.customer.pk} | key() | fields

    def receive(self, client, shop, **fields):
        return client.post(reverse("benches:receive", args=[shop.pack.pk]), self.form(shop, **fields))

    def test_an_engine_comes_in_with_all_that_was_noted(self, mechanic, shop):
        answer = self.receive(mechanic, shop, came_with="baffles\n\n mount ", missing="a hose", hours_since_new="412.5")
        page = said(mechanic.get(answer["Location"]))
        for words in ("T2-77", "propeller strike", "since new 412.5, since overhaul not known", "baffles", "mount", "a hose"):
            assert words in page
        assert "T2-SB-1: complied with" in page
        assert {each.title for each in Visit.objects.get().areas.get(code="case").operations.all()} >= {
            "Flange after a propeller strike"
        }

    def test_a_visit_for_another_reason_has_not_that_operation(self, mechanic, shop):
        self.receive(mechanic, shop, reasons=["time"])
        assert not Visit.objects.get().areas.get(code="case").operations.filter(title__contains="propeller strike")

    @pytest.mark.parametrize(
        ("fields", "sentence"),
        [
            ({"hours_since_new": "about 400"}, "not a number"),
            ({"hours_since_new": "-3"}, "hours are not negative"),
            ({"hours_since_new": "100", "hours_since_overhaul": "200"}, "More hours since overhaul than since new"),
            ({"promised_on": "2001-01-01"}, "has passed"),
            ({"reasons": []}, "This field is required"),
            ({"serial": "   "}, "This field is required"),
            ({"scope": "a look"}, "Select a valid choice"),
        ],
    )
    def test_what_cannot_be_is_said_and_nothing_is_kept(self, mechanic, shop, fields, sentence):
        answer = self.receive(mechanic, shop, **fields)
        assert answer.status_code == 422
        assert sentence in said(answer)
        assert not Visit.objects.exists()

    def test_an_engine_that_is_here_is_not_received_again(self, mechanic, shop):
        self.receive(mechanic, shop)
        answer = self.receive(mechanic, shop)
        assert answer.status_code == 409
        assert "is in the shop already, as visit 1" in said(answer)

    def test_the_same_post_twice_is_one_visit(self, mechanic, shop):
        form = self.form(shop)
        first, second = (mechanic.post(reverse("benches:receive", args=[shop.pack.pk]), form) for _ in range(2))
        assert first["Location"] == second["Location"]
        assert Visit.objects.count() == 1


class TestPhotos:
    @pytest.mark.parametrize(
        "data", [b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"<html><script>", picture()[:200], b"", b"\x89PNG torn"]
    )
    def test_what_is_no_photo_is_refused_and_not_kept(self, mechanic, shop, data):
        address = reverse("benches:photograph", args=[shop.receive().pk])
        photo = SimpleUploadedFile("plate.jpg", data, "image/jpeg")
        answer = mechanic.post(address, {"words": "the plate", "photo": photo} | key())
        assert answer.status_code == 422
        assert not Photo.objects.exists()
        assert not StoredFile.objects.exists()

    def test_a_photo_is_encoded_anew_and_only_ever_downloaded(self, mechanic, shop):
        visit = shop.receive()
        photo = SimpleUploadedFile("plate.png", picture(), "image/png")
        mechanic.post(reverse("benches:photograph", args=[visit.pk]), {"words": "the plate", "photo": photo} | key())
        answer = mechanic.get(reverse("benches:photo", args=[visit.pk, Photo.objects.get().pk]))
        kept = b"".join(answer.streaming_content)
        assert b"secret camera" not in kept
        assert answer["Content-Disposition"].startswith("attachment")
        assert answer["X-Content-Type-Options"] == "nosniff"
        assert answer["Content-Type"] == "image/jpeg"


class TestTagging:
    def tag(self, client, shop, visit, **fields):
        given = {"spot": "piston|cylinder 1", "serial": "", "mark": "1-P", "tray": "A-1", "as_found": "worn"} | fields
        return client.post(reverse("benches:enter", args=[shop.operation(visit, "tag-cylinders").pk]), given | key())

    def ready(self, shop):
        visit = shop.receive()
        shop.sign(visit, "receive-case")
        shop.sign(visit, "receive-cylinders")
        shop.advance(visit, "cylinders")
        return visit

    def test_a_part_gets_its_identity_and_its_tray(self, mechanic, shop):
        visit = self.ready(shop)
        page = said(mechanic.get(self.tag(mechanic, shop, visit)["Location"]))
        assert "1-P" in page
        assert "Piston, cylinder 2 is not tagged." in page

    def test_trays_of_two_engines_never_share_a_tag(self, mechanic, shop):
        self.tag(mechanic, shop, self.ready(shop))
        answer = self.tag(mechanic, shop, self.ready(shop))
        assert answer.status_code == 409
        assert "Tray A-1 holds parts of visit 1" in said(answer)
        assert Tagged.objects.count() == 1

    @pytest.mark.parametrize(
        ("fields", "sentence"),
        [
            ({"mark": ""}, "Type the serial, or the mark"),
            ({"tray": ""}, "which tray the part lies in"),
            ({"as_found": ""}, "This field is required"),
            ({"spot": "crankshaft|engine"}, "Select a valid choice"),
        ],
    )
    def test_a_tag_that_says_too_little_is_refused(self, mechanic, shop, fields, sentence):
        answer = self.tag(mechanic, shop, self.ready(shop), **fields)
        assert answer.status_code == 422
        assert sentence in said(answer)
        assert not Tagged.objects.exists()

    def test_a_part_that_was_not_there_becomes_a_discrepancy(self, mechanic, shop):
        self.tag(mechanic, shop, self.ready(shop), absent="on", as_found="no piston in the barrel")
        assert "Piston, cylinder 1 was not there: no piston" in Discrepancy.objects.get().words

    def test_before_its_turn_nothing_is_entered(self, mechanic, shop):
        answer = self.tag(mechanic, shop, shop.receive())
        assert answer.status_code == 409
        assert "stands in receiving, this belongs to teardown" in said(answer)


class TestReading:
    @pytest.fixture
    def visit(self, shop):
        visit = shop.receive()
        to_inspection(shop, visit)
        shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
        shop.sign(visit, "look-crankshaft")
        shop.accept(visit, "look-crankshaft")
        return visit

    def take(self, client, shop, visit, values=("2.1245", "2.1245", "2.1246", "2.1246"), query="", place="main 1", **fields):
        address = reverse("benches:take", args=[shop.operation(visit, "read-mains").pk])
        points = {f"point_{index}": value for index, value in enumerate(values)}
        return client.post(f"{address}?row=crank-main&place={place}{query}", points | fields | key())

    def gauge(self, **fields):
        keeper = make_person(Role.STOREKEEPER)
        due = fields.pop("due_on", None)
        gauge = make_gauge(keeper, **fields)
        calibrate(gauge, keeper, **({"due_on": due} if due else {}))
        return gauge

    def test_the_verdict_and_the_strip_come_at_once(self, mechanic, shop, visit):
        page = said(
            mechanic.get(
                self.take(mechanic, shop, visit, gauge=self.gauge(due_on=AT.date() + timedelta(days=4000)).pk)["Location"]
            )
        )
        assert "within new limits" in page
        assert '<svg class="strip' in page
        assert "main journal out-of-round" in page
        assert Reading.objects.count() == 2

    def test_millimetres_are_taken_as_they_are(self, mechanic, shop, visit):
        self.take(mechanic, shop, visit, ("53.962 mm",) * 4)
        reading = Reading.objects.get(row__row="crank-main")
        assert (reading.unit, reading.points[0][2]) == ("mm", "53.962")
        assert reading.verdict == "within new limits"

    @pytest.mark.parametrize(
        ("values", "sentence"),
        [
            (("2-1/8", "2.1245", "2.1245", "2.1245"), "not a number"),
            (("2.1245 in", "53.96 mm", "2.1245", "2.1245"), "in one unit"),
            (("2.1245 lbf", "2.1245 lbf", "2.1245 lbf", "2.1245 lbf"), "measures"),
            (("2.1245", "", "2.1245", "2.1245"), "This field is required"),
            (("2,1245", "2.1245", "2.1245", "2.1245"), "not a number"),
            (("NaN", "2.1245", "2.1245", "2.1245"), "not a number"),
        ],
    )
    def test_what_is_no_reading_is_refused_with_what_to_do(self, mechanic, shop, visit, values, sentence):
        answer = self.take(mechanic, shop, visit, values)
        assert answer.status_code == 422
        assert sentence in said(answer)
        assert not Taken.objects.exists()

    def test_an_overdue_gauge_and_one_out_of_range_judge_nothing(self, mechanic, shop, visit):
        self.take(mechanic, shop, visit, gauge=self.gauge(due_on=AT.date()).pk)
        self.take(mechanic, shop, visit, gauge=self.gauge(number="G-9", range_min="3", range_max="4").pk)
        for reading in Reading.objects.filter(row__row="crank-main"):
            assert reading.verdict == "not judged"
            assert "gauge" in reading.reason
        assert Reading.objects.filter(row__row="crank-main").count() == 2

    def test_a_correction_stays_beside_what_it_corrects(self, mechanic, shop, visit):
        self.take(mechanic, shop, visit)
        wrong = Reading.objects.get(row__row="crank-main")
        answer = self.take(
            mechanic, shop, visit, ("2.1244",) * 4, query=f"&corrects={wrong.pk}", correction_reason="read a line too high"
        )
        page = said(mechanic.get(answer["Location"]))
        assert '<li class="struck">2.1245 to 2.1246 in' in page
        assert "read a line too high" in page

    def test_the_same_numbers_as_at_the_place_before_are_looked_at_twice(self, mechanic, shop, visit):
        """Where the hand writes what the eye remembers, nothing is kept before somebody says that the gauge was read again."""
        self.take(mechanic, shop, visit)
        same = ("2.1245", "2.12450", "2.1246", "2.1246")
        answer = self.take(mechanic, shop, visit, same, place="main 2")
        assert answer.status_code == 422
        assert "main 1 has the same. Read the gauge again" in said(answer)
        assert Reading.objects.filter(row__row="crank-main").count() == 1
        assert self.take(mechanic, shop, visit, same, place="main 2", read_again="on").status_code == 302
        assert Reading.objects.filter(row__row="crank-main").count() == 2

    def test_other_numbers_are_kept_at_once(self, mechanic, shop, visit):
        self.take(mechanic, shop, visit)
        assert self.take(mechanic, shop, visit, ("2.1245", "2.1245", "2.1246", "2.1247"), place="main 2").status_code == 302

    def test_a_correction_says_why(self, mechanic, shop, visit):
        self.take(mechanic, shop, visit)
        wrong = Reading.objects.get(row__row="crank-main")
        assert self.take(mechanic, shop, visit, query=f"&corrects={wrong.pk}").status_code == 422
        assert Reading.objects.filter(row__row="crank-main").count() == 1

    def test_the_same_post_twice_is_one_reading(self, mechanic, shop, visit):
        address = f"{reverse('benches:take', args=[shop.operation(visit, 'read-mains').pk])}?row=crank-main&place=main 1"
        form = {f"point_{index}": "2.1245" for index in range(4)} | key()
        answers = [mechanic.post(address, form) for _ in range(2)]
        assert answers[0]["Location"] == answers[1]["Location"]
        assert Reading.objects.filter(row__row="crank-main").count() == 1

    def test_signing_brings_what_is_not_decided_before_the_inspector(self, mechanic, shop, visit):
        coarse = self.gauge(number="G-8", due_on=AT.date() + timedelta(days=4000))
        for place in ("main 1", "main 2"):
            shop.read(visit, "crank-main", place, "2.1231", gauge=coarse)
            shop.read(visit, "bearing-bore", place, "2.1270")
        assert not Discrepancy.objects.exists()
        shop.sign(visit, "read-mains")
        assert {each.reading.verdict for each in Discrepancy.objects.all()} == {"too close to call"}

    def test_at_a_signed_operation_only_what_is_to_be_read_again_is_taken(self, mechanic, shop, visit):
        """Another shaft has come: it is read although the operation was signed for the one before."""
        for place in ("main 1", "main 2"):
            shop.read(visit, "crank-main", place, "2.1245")
            shop.read(visit, "bearing-bore", place, "2.1270")
        shop.sign(visit, "read-mains")
        assert self.take(mechanic, shop, visit).status_code == 409
        given = {"line": "crankshaft", "place": "engine", "identity": Identity(serial="N-1"), "words": "the old one was bent"}
        tag_replacement(visit=visit, **given, by=shop.mechanic, at=shop.later())
        assert self.take(mechanic, shop, visit).status_code == 302

    def test_entering_costs_the_same_however_much_was_read(self, mechanic, shop, visit):
        address = f"{reverse('benches:take', args=[shop.operation(visit, 'read-mains').pk])}?row=crank-main&place=main 1"
        mechanic.get(address)
        costs = []
        for _ in range(2):
            with CaptureQueriesContext(connection) as queries:
                assert mechanic.get(address).status_code == 200
            costs.append(len(queries))
            for place in ("main 1", "main 2") * 3:
                shop.read(visit, "crank-main", place, "2.1245")
        assert costs[0] == costs[1]


class TestSigning:
    def sign(self, client, shop, visit, code="receive-case", password=PASSWORD, seen=None):
        seen = shop.seen(visit, code) if seen is None else seen
        address = reverse("benches:sign", args=[shop.operation(visit, code).pk])
        return client.post(address, {"password": password, "seen": seen} | key())

    def test_a_signature_keeps_what_was_shown(self, mechanic, shop):
        visit = shop.receive()
        page = said(mechanic.get(self.sign(mechanic, shop, visit)["Location"]))
        signature = Signature.objects.get()
        assert signature.shown_sha256[:16] in page
        assert "Compare the data plate with the order." in signature.shown
        assert visit.engine.item.serial in signature.shown

    def test_a_wrong_password_signs_nothing_and_is_counted(self, mechanic, shop):
        visit = shop.receive()
        tries = [self.sign(mechanic, shop, visit, password="guess").status_code for _ in range(6)]
        assert tries == [403, 403, 403, 403, 403, 429]
        assert self.sign(mechanic, shop, visit).status_code == 429
        assert not Signature.objects.exists()

    def test_what_changed_since_it_was_opened_is_looked_at_again(self, mechanic, shop):
        answer = self.sign(mechanic, shop, shop.receive(), seen="0" * 64)
        assert answer.status_code == 409
        assert "Something changed on this operation since you opened it" in said(answer)

    def test_what_is_missing_is_listed_in_place_of_a_signature(self, mechanic, shop):
        visit = shop.receive()
        to_inspection(shop, visit)
        answer = self.sign(mechanic, shop, visit, "look-crankshaft")
        assert answer.status_code == 409
        assert "Crankshaft, engine was not looked at." in said(answer)

    def test_a_hold_point_is_accepted_by_somebody_else(self, client, shop):
        visit = shop.receive()
        to_inspection(shop, visit)
        shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
        shop.sign(visit, "look-crankshaft", by=shop.inspector)
        address = reverse("benches:accept", args=[shop.operation(visit, "look-crankshaft").pk])
        form = {"password": PASSWORD, "seen": shop.seen(visit, "look-crankshaft")}
        client.force_login(shop.inspector)
        assert client.post(address, form | key()).status_code == 403
        client.force_login(shop.second)
        assert client.post(address, form | key()).status_code == 302
        assert shop.operation(visit, "look-crankshaft").accepted_by == shop.second

    def test_a_finding_not_accepted_becomes_a_discrepancy_and_needs_words(self, mechanic, shop):
        visit = shop.receive()
        to_inspection(shop, visit)
        address = reverse("benches:enter", args=[shop.operation(visit, "look-crankshaft").pk])
        form = {"spot": "crankshaft|engine", "verdict": "not accepted", "words": ""}
        assert mechanic.post(address, form | key()).status_code == 422
        assert not Entry.objects.exists()
        mechanic.post(address, form | {"words": "a score on main 2"} | key())
        assert "a score on main 2" in Discrepancy.objects.get().words
        assert [fault for fault in verify() if "people." not in fault.sentence] == []


def test_an_area_that_is_held_says_by_what_with_links(mechanic, shop):
    visit = shop.receive()
    area = shop.area(visit, "case")
    answer = mechanic.post(reverse("benches:move-on", args=[area.pk]), {"before": "receiving"} | key())
    assert answer.status_code == 409
    operation = shop.operation(visit, "receive-case")
    assert f'<a href="{reverse("benches:operation", args=[operation.pk])}">“Identity and papers” is not signed.</a>' in said(
        answer
    )


def test_an_area_sent_back_opens_again_what_depends_on_it(mechanic, shop):
    visit = shop.receive()
    to_inspection(shop, visit)
    form = {"before": "inspection", "after": "receiving", "reason": "the wrong plate was read"}
    mechanic.post(reverse("benches:move-back", args=[shop.area(visit, "case").pk]), form | key())
    assert shop.area(visit, "case").stage == "receiving"
    for code in ("receive-case", "tag-case", "clean-case"):
        assert shop.operation(visit, code).signed_at is None
        assert shop.operation(visit, code).round == 2
    assert Signature.objects.count() == 3
