"""What is put on is in date and traceable, and a sealant is closed before its open time is over."""

from datetime import timedelta

import pytest

from engines.packs.reading import PackMistakes
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from tests.making_people import AT
from tests.making_steps_s3 import Errand, load

OIL = {"products": ["assembly oil A", "assembly oil B"], "places": ["cam lobes", "tappets"]}
SEALANT = {"products": ["sealant C"], "places": ["case joint"], "open_minutes": "20"}
FRESH = {"product": "sealant C", "lot": "L-7", "use_by": AT.date() + timedelta(days=30)}


def at_minutes(work, minutes):
    """The next act happens that long after the last one."""
    work.shop.now += timedelta(minutes=minutes) - timedelta(minutes=1)


@pytest.mark.django_db
def test_every_place_is_lubricated_before_it_is_signed(client):
    work = Errand("lubricate-or-seal", OIL)
    given = FRESH | {"product": "assembly oil B"}
    assert work.question() == "apply: cam lobes"
    work.answer(**given)
    with pytest.raises(NotYet, match="tappets: nothing is put on yet"):
        work.sign()
    work.answer(**given)
    assert 'lot <span class="stamp">L-7</span>' in work.page(client)
    assert work.sign().is_complete


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"use_by": AT.date() - timedelta(days=1)}, "Its shelf life is over"),
        ({"use_by": None}, "Its shelf life is over"),
        ({"product": "grease"}, "The data permit here: sealant C"),
        ({"lot": " "}, "Read the lot on the container"),
    ],
)
def test_what_may_not_be_put_on_is_refused(given, said):
    work = Errand("lubricate-or-seal", SEALANT)
    with pytest.raises(StepRefused, match=said):
        work.answer(**FRESH | given)


@pytest.mark.django_db
def test_the_last_day_of_the_shelf_life_still_counts():
    work = Errand("lubricate-or-seal", SEALANT)
    assert work.answer(**FRESH | {"use_by": AT.date()})["use_by"] == AT.date().isoformat()


@pytest.mark.django_db
def test_a_sealant_is_closed_at_the_last_moment_of_its_open_time():
    work = Errand("lubricate-or-seal", SEALANT)
    work.answer(**FRESH)
    assert work.missing() == ["case joint: put on, but not closed yet."]
    at_minutes(work, 20)
    assert work.answer(answer="closed")["act"] == "close"
    assert work.sign().is_complete


@pytest.mark.django_db
def test_interrupted_until_it_is_too_late_it_is_cleaned_off_and_begun_anew(client):
    work = Errand("lubricate-or-seal", SEALANT)
    work.answer(**FRESH)
    work.shop.now += timedelta(minutes=19, microseconds=1)
    with pytest.raises(StepRefused, match="clean it off, say so, and put it on anew"):
        work.answer(answer="closed")
    shown = work.page(client)
    assert "Its open time is over" in shown
    assert "js/open_time" in shown
    work.answer(answer="cleaned off, to be put on anew")
    assert work.missing() == ["case joint: cleaned off, not put on anew."]
    work.answer(**FRESH)
    work.answer(answer="closed")
    assert work.sign().is_complete


@pytest.mark.django_db
def test_what_a_signer_sees_does_not_depend_on_the_clock():
    work = Errand("lubricate-or-seal", SEALANT)
    work.answer(**FRESH)
    seen = work.shop.seen(work.visit, "asked")
    work.shop.now += timedelta(hours=2)
    assert work.shop.seen(work.visit, "asked") == seen


@pytest.mark.django_db
def test_opened_again_it_is_put_on_anew_and_the_paper_prints_lot_and_date():
    work = Errand("lubricate-or-seal", SEALANT)
    work.answer(**FRESH)
    work.answer(answer="closed")
    work.sign()
    reopen(operation=work.operation, reason="the joint was opened", by=work.shop.inspector, at=work.shop.later())
    assert work.question() == "apply: case joint"
    printed = work.paper()
    assert f"sealant C, lot L-7, use by {FRESH['use_by'].isoformat()}" in printed
    assert printed.count('<tr class="struck"') == 2


@pytest.mark.django_db
def test_an_answer_to_what_is_asked_no_more_is_refused():
    work = Errand("lubricate-or-seal", SEALANT)
    work.answer(**FRESH)
    with pytest.raises(StepRefused, match="What is asked now is “close: case joint”"):
        work.answer("apply: case joint", **FRESH)
    with pytest.raises(StepRefused, match="Choose one of: closed, cleaned off"):
        work.answer(answer="perhaps")


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"products": "sealant C"}, "products are a list of texts"),
        ({"products": ["sealant C", "sealant C"]}, "products stand there twice"),
        ({"places": []}, "places are a list of texts"),
        ({"open_minutes": "soon"}, "open_minutes “soon” are no number above zero"),
        ({"open_minutes": "0"}, "open_minutes “0” are no number above zero"),
        ({"open_minutes": "10081"}, "up to a week"),
        ({"colour": "red"}, "the kind lubricate-or-seal knows no details “colour”"),
    ],
)
def test_data_that_name_no_product_are_refused(changed, said):
    with pytest.raises(PackMistakes, match=said):
        load("lubricate-or-seal", SEALANT | changed)
