"""Parts are tested for cracks under a bath and a lamp in order, and every indication is judged by the data.

The sources of the figures stand in `tests/making_crack_tests.py`.
"""

from datetime import date, timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from engines.inspection.models import Discrepancy
from engines.packs.reading import PackMistakes
from engines.steps.registry import step_of
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from measurements.gauges.models import Gauge
from measurements.gauges.services import retire_gauge
from tests.making_crack_tests import (
    ALL,
    BATH,
    CLEANED,
    DETAILS,
    FIELD,
    KIND,
    LAMP,
    LEFT,
    NOTHING,
    PENETRANT,
    SEEN,
    SETUP,
    SHEET,
    WHITE,
    CrackErrand,
    indication,
)
from tests.making_gauges import calibrate, make_gauge
from tests.making_steps_s3 import load
from tests.permission_rows.benches import KEY, picture

TWO = {"fields": {"names": ("crankshaft", "case-half")}}
CRANK = "Crankshaft, engine"


def later(work, **span):
    work.shop.now += timedelta(**span)


@pytest.mark.django_db
class TestRight:
    def test_sheet_bath_lamp_and_field_then_examined_demagnetised_and_cleaned(self, client):
        work = CrackErrand()
        shown = work.page(client)
        assert "technique sheet MT-7, revision C. Done by a person of level 2." in shown
        assert "Ultraviolet at the part: at least 1000 uW/cm2; holds 8 hours." in shown
        assert "Field at the part: at least 30 and at most 60 G; checked at each part." in shown
        assert "Inclusion: at most 0.125 in." in shown
        assert [each["verdict"] for each in work.tell(*ALL)] == ["as asked"] * 8
        assert work.question() == ""
        assert work.sign().is_complete
        assert not Discrepancy.objects.exists()
        printed = work.paper()
        assert "check: ultraviolet at the part</td><td>1200 uW/cm2<small>UV-1, certificate C-2026-01</small>" in printed
        assert "B-12, 0.2 mL in 100 mL" in printed
        assert "demagnetised</td><td>1.5 G" in printed
        assert "its field stops a pacemaker" in printed

    def test_what_was_not_magnetised_is_not_demagnetised_and_a_penetrant_has_no_concentration(self):
        work = CrackErrand(details=PENETRANT)
        work.tell(SHEET, {"batch": "P-3"}, LAMP, NOTHING)
        assert work.question() == "cleaned: crankshaft: engine"
        work.tell(CLEANED)
        assert work.sign().is_complete

    def test_one_bath_and_lamp_hold_for_the_next_part_and_the_field_does_not(self):
        work = CrackErrand(**TWO)
        work.tell(*ALL)
        assert work.question() == "check: case-half: case: field at the part"
        work.tell({**FIELD, "shown": "46"}, NOTHING, {**LEFT, "shown": "2"}, CLEANED)
        assert work.sign().is_complete

    def test_the_level_of_the_data_is_that_of_the_step(self):
        asked = CrackErrand().data.operation_by_code["asked"]
        assert (step_of(KIND).level(asked), step_of("cleaning").level(asked)) == (2, 0)

    def test_an_indication_is_recorded_with_its_photo_and_another_may_follow(self, client):
        work = CrackErrand()
        assert work.tell(*SETUP, FIELD, SEEN)[-1]["verdict"] == "to be recorded"
        assert work.question() == "indication: crankshaft: engine"
        found = work.tell(indication())[0]
        assert (found["verdict"], found["asked_for"]) == ("within the criteria", "at most 0.125 in")
        assert f"photos/{found['photo']}/" in work.page(client)
        assert client.get(reverse("benches:evidence", args=[work.operation.pk, found["photo"]])).status_code == 200
        work.tell(SEEN, indication(length="0.06"), NOTHING, LEFT, CLEANED)
        assert work.sign().is_complete
        assert "inclusion, 0.05 in<small>relevant: sharp</small><small>photo, SHA-256" in work.paper()


@pytest.mark.django_db
class TestJudged:
    @pytest.mark.parametrize(
        ("before", "given", "verdict"),
        [
            (SETUP[:2], {**LAMP, "shown": "1000"}, "as asked"),
            (SETUP[:2], {**LAMP, "shown": "999.999"}, "not as asked"),
            (SETUP[:2], {**LAMP, "shown": "1 mW/cm2"}, "as asked"),
            (SETUP[:1], {**BATH, "concentration": "0.4000"}, "as asked"),
            (SETUP[:1], {**BATH, "concentration": "0.4001"}, "not as asked"),
            (ALL[:6], {**LEFT, "shown": "3.0"}, "as asked"),
            (ALL[:6], {**LEFT, "shown": "-3.001"}, "not as asked"),
            (ALL[:6], {**LEFT, "shown": "0"}, "as asked"),
            (ALL[:6], {"instrument": "FI-1", "shown": "0.3"}, "as asked"),
            (ALL[:6], {"instrument": "FI-1", "shown": "0.301"}, "not as asked"),
        ],
    )
    def test_exactly_in_the_unit_of_the_data(self, before, given, verdict):
        work = CrackErrand()
        work.tell(*before)
        asked = work.question()
        assert work.tell(given)[0]["verdict"] == verdict
        assert (work.question() == asked) == (verdict == "not as asked")
        assert not Discrepancy.objects.exists()

    @pytest.mark.parametrize(
        ("changed", "verdict"),
        [
            ({"length": "0.125"}, "within the criteria"),
            ({"length": "3.175 mm"}, "within the criteria"),
            ({"length": "0.1250001"}, "beyond the criteria"),
            ({"length": "3.176 mm"}, "beyond the criteria"),
            ({"sort": "crack", "length": "0.001"}, "beyond the criteria"),
            ({"sort": "another sort, which the data do not name", "length": "0.001"}, "beyond the criteria"),
            ({"sort": "crack", "relevant": "not relevant", "reason": "writing of the shaft's number"}, "not relevant"),
        ],
    )
    def test_an_indication_by_its_sort_length_and_relevance(self, changed, verdict):
        work = CrackErrand()
        work.tell(*SETUP, FIELD, SEEN)
        assert work.tell(indication(**changed))[0]["verdict"] == verdict
        assert Discrepancy.objects.count() == (verdict == "beyond the criteria")

    def test_a_field_that_is_left_is_taken_away_and_read_anew(self):
        work = CrackErrand()
        work.tell(*ALL[:6], {**LEFT, "shown": "-5"})
        assert work.missing() == [f"{CRANK}: it is not demagnetised."]
        with pytest.raises(StepRefused, match="-5 was entered just before as well"):
            work.tell({**LEFT, "shown": "-5"})
        work.tell(LEFT, CLEANED)
        assert work.sign().is_complete


@pytest.mark.django_db
class TestWrong:
    @pytest.mark.parametrize(
        ("before", "given", "said"),
        [
            ((), {"answer": "B"}, "The data ask for technique sheet MT-7, revision C. Put revision “B” away"),
            (SETUP[:1], {**BATH, "batch": " "}, "Read the batch of the bath"),
            (SETUP[:1], {**BATH, "concentration": "some"}, "is not a number"),
            (SETUP[:2], {**LAMP, "instrument": "UV-9"}, "The register has no “UV-9”"),
            (SETUP[:2], {**LAMP, "shown": "6000"}, "reaches from 0 to 5000 uW/cm2"),
            (SETUP[:2], {**LAMP, "instrument": "WL-1"}, "measures illuminance"),
            (SETUP[:2], {**LAMP, "shown": "12 mm"}, "measures length"),
            (ALL[:5], {"answer": "perhaps"}, "Choose one of: an indication"),
            ((*ALL[:5], SEEN), {**indication(), "sort": "scratch"}, "Choose one of: crack, inclusion"),
            ((*ALL[:5], SEEN), {**indication(), "relevant": ""}, "Choose one of: relevant, not relevant"),
            ((*ALL[:5], SEEN), {**indication(), "reason": " "}, "Say where it is, and why"),
            ((*ALL[:5], SEEN), {**indication(), "length": "0"}, "An indication has a length"),
            ((*ALL[:5], SEEN), {**indication(), "photo": None}, "Photograph it before it is wiped off"),
        ],
    )
    def test_what_cannot_be_is_refused(self, before, given, said):
        work = CrackErrand()
        work.tell(*before)
        with pytest.raises(StepRefused, match=said):
            work.tell(given)

    @pytest.mark.parametrize("number", ["UV-1", "UV-2"])
    def test_an_instrument_retired_or_out_of_calibration_proves_nothing(self, number):
        work = CrackErrand()
        lapsed = make_gauge(work.shop.manager, number="UV-2", unit="uW/cm2", range_min="0", range_max="5000")
        calibrate(lapsed, work.shop.manager, done_on=date(2025, 1, 1), due_on=date(2025, 6, 1))
        retire_gauge(gauge=Gauge.objects.get(number="UV-1"), reason="dropped", by=work.shop.manager, at=work.shop.now)
        work.tell(*SETUP[:2])
        with pytest.raises(StepRefused, match=f"{number} cannot be used: .* Take another"):
            work.tell({**LAMP, "instrument": number})

    def test_beyond_the_criteria_it_goes_before_the_inspector_about_the_part(self):
        work = CrackErrand()
        work.tell(*SETUP, FIELD, SEEN, indication(sort="crack", length="0.30", reason="it runs into the fillet"))
        found = Discrepancy.objects.get()
        assert (found.line, found.at, found.operation) == ("crankshaft", "engine", "asked")
        assert found.words == (
            f"{CRANK}: crack, 0.30 in, at journal 2, 90 degrees; at most 0 in is permitted. it runs into the fillet"
        )


@pytest.mark.django_db
class TestInterrupted:
    @pytest.mark.parametrize(
        ("done", "left"),
        [
            (SETUP, "field at the part is not checked."),
            (ALL[:5], "it is not examined to its end."),
            ((*ALL[:5], SEEN), "an indication was seen and is not recorded."),
            ((*ALL[:5], SEEN, indication()), "it is not examined to its end."),
            (ALL[:6], "it is not demagnetised."),
            (ALL[:7], "it is not cleaned after the test."),
        ],
    )
    def test_it_says_what_is_left_and_is_not_signed(self, done, left):
        work = CrackErrand()
        work.tell(*done)
        assert work.missing() == [f"{CRANK}: {left}"]
        with pytest.raises(NotYet):
            work.sign()

    def test_at_the_last_moment_of_its_hours_the_bath_still_holds(self):
        work = CrackErrand()
        work.tell(*SETUP, FIELD)
        later(work, hours=8, minutes=-5)
        assert work.tell(NOTHING)[0]["act"] == "examined"

    def test_after_its_hours_nobody_examines_under_it(self):
        work = CrackErrand()
        work.tell(*SETUP, FIELD)
        later(work, hours=8, minutes=-3)
        assert work.question() == "examined: crankshaft: engine"
        with pytest.raises(StepRefused, match="What is asked now is “bath”"):
            work.shop.enter(work.visit, "asked", asked="examined: crankshaft: engine", **NOTHING)
        work.tell(BATH, {**LAMP, "shown": "1250"}, {**WHITE, "shown": "1.25"})
        assert work.tell(NOTHING)[0]["verdict"] == "as asked"

    def test_a_lamp_found_weak_casts_doubt_on_all_since_it_was_last_right(self):
        work = CrackErrand(**TWO)
        work.tell(*ALL)
        later(work, hours=9)
        work.tell(BATH, {**LAMP, "shown": "800"})
        assert work.missing() == [
            f"{CRANK}: what was seen of it counts no more, it is tested anew: it is not examined to its end.",
            "Case, case: field at the part is not checked.",
        ]
        work.tell({**LAMP, "shown": "1300"}, {**WHITE, "shown": "1.2"})
        assert work.tell(NOTHING)[0]["position"] == CRANK

    def test_what_was_examined_before_it_was_last_right_stands(self):
        work = CrackErrand(**TWO)
        work.tell(*ALL)
        later(work, hours=9)
        work.tell(BATH, {**LAMP, "shown": "1300"}, {**WHITE, "shown": "1.2"}, {**FIELD, "shown": "46"}, NOTHING)
        later(work, hours=9)
        work.tell({**LEFT, "shown": "2"}, CLEANED)
        assert work.sign().is_complete

    def test_what_a_signer_sees_does_not_depend_on_the_clock(self):
        work = CrackErrand()
        work.tell(*ALL)
        seen = work.shop.seen(work.visit, "asked")
        later(work, hours=20)
        assert work.shop.seen(work.visit, "asked") == seen
        assert work.sign().is_complete


@pytest.mark.django_db
def test_disputed_and_opened_again_all_is_tested_anew_and_the_paper_keeps_both_rounds():
    work = CrackErrand()
    work.tell(*SETUP, FIELD, SEEN, indication(relevant="not relevant"), NOTHING, LEFT, CLEANED)
    work.sign()
    reopen(operation=work.operation, reason="the line at journal 2 is a crack", by=work.shop.inspector, at=work.shop.later())
    assert work.question() == "technique"
    work.tell(*SETUP, FIELD, SEEN, indication(sort="crack"), NOTHING, LEFT, CLEANED)
    assert "crack" in Discrepancy.objects.get().words
    assert work.paper().count('<tr class="struck"') == 10


@pytest.mark.django_db
def test_the_tablet_takes_figures_instruments_and_a_photo(client):
    work = CrackErrand()
    assert "never look into it" in work.page(client)
    work.tell(*SETUP, FIELD, SEEN)
    page = work.page(client)
    assert "Crankshaft, engine: where is it?" in page
    assert 'enctype="multipart/form-data"' in page
    given = {key: value for key, value in indication().items() if key != "photo"} | {"asked": work.question(), **KEY}
    address = reverse("benches:enter", args=[work.operation.pk])
    assert client.post(address, given).status_code == 422
    photo = SimpleUploadedFile("i.jpg", picture(), "image/jpeg")
    assert client.post(address, {**given, "photo": photo}).status_code == 302
    assert work.question() == "examined: crankshaft: engine"


@pytest.mark.django_db
def test_its_page_costs_the_same_however_much_was_entered(client):
    work = CrackErrand(**TWO)
    work.tell(*SETUP, FIELD)
    work.page(client)
    with CaptureQueriesContext(connection) as few:
        work.page(client)
    work.tell(SEEN, indication(), NOTHING, LEFT, CLEANED, {**FIELD, "shown": "46"})
    with CaptureQueriesContext(connection) as many:
        work.page(client)
    assert len(few) == len(many)


BATH_DATA, LAMP_DATA = DETAILS["bath"], DETAILS["checks"][0]


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"method": "by eye"}, "method is magnetic particle or penetrant"),
        ({"technique": {"sheet": "MT-7"}}, "technique says sheet and revision"),
        ({"level": "two"}, "level is a whole number, from 1 to 9"),
        ({"level": "0"}, "level is a whole number, from 1 to 9"),
        ({"bath": {"what": "bath"}}, "bath says what it is, the hours"),
        ({"bath": {**BATH_DATA, "hours": "0"}}, "hours 0 is not above zero"),
        ({"bath": {"what": "bath", "hours": "8", "least": "0.1"}}, "the concentration of the bath needs its unit"),
        ({"bath": {**BATH_DATA, "least": "0.5"}}, "the least of the bath is above its greatest"),
        ({"checks": []}, "checks are a list, each with check, unit"),
        ({"checks": [{"check": "lamp", "unit": "uW/cm2"}]}, "checks are a list, each with check, unit"),
        ({"checks": [LAMP_DATA, LAMP_DATA]}, "each of the checks has a name of its own"),
        ({"checks": [{**LAMP_DATA, "unit": "suns"}]}, "ultraviolet at the part: unit “suns” is not known"),
        ({"checks": [{**LAMP_DATA, "least": "bright"}]}, "least “bright” is no number"),
        ({"criteria": [{"sort": "crack", "greatest": "0"}]}, "criteria are a list, each sort once"),
        ({"criteria": [{"sort": "crack", "greatest": "0", "unit": "psi"}]}, "crack: psi measures pressure, not length"),
        ({"residual": {"greatest": "0", "unit": "G"}}, "greatest 0 is not above zero"),
        ({"residual": {"greatest": "3", "unit": "g"}}, "residual: g measures mass, not flux density"),
        ({"residual": {"greatest": "3"}}, "residual says greatest and unit"),
        ({"method": "penetrant"}, "residual belongs to the method magnetic particle"),
        ({"cleaned": ["rinsed"]}, "cleaned is one text"),
        ({"again_after_rework": "always"}, "again_after_rework is yes or no"),
        ({"colour": "red"}, "the kind crack-test knows no details “colour”"),
    ],
)
def test_data_that_cannot_be_worked_by_are_refused(changed, said):
    with pytest.raises(PackMistakes, match=said):
        load(KIND, DETAILS | changed, names=("crankshaft",))


@pytest.mark.parametrize("name", [*(each for each in DETAILS if each != "residual")])
def test_data_that_leave_something_out_are_refused(name):
    with pytest.raises(PackMistakes, match=f"{name} is missing"):
        load(KIND, {key: value for key, value in DETAILS.items() if key != name}, names=("crankshaft",))


def test_what_is_magnetised_needs_a_limit_for_the_field_that_is_left():
    with pytest.raises(PackMistakes, match="residual belongs to the method magnetic particle"):
        load(KIND, {key: value for key, value in DETAILS.items() if key != "residual"}, names=("crankshaft",))


@pytest.mark.parametrize("details", [DETAILS | {"again_after_rework": "yes"}, PENETRANT])
def test_data_that_ask_for_all_of_it_are_loaded(details):
    load(KIND, details, names=("crankshaft",))
