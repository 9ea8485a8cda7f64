"""What to fit is computed from the permitted combinations of the data, fitted, and the value after is judged exactly.

Every figure is invented; the arithmetic of the choice is checked in tests/measurements/metrology/selection. What is expected
here was worked out by hand, beside each case.
"""

import pytest

from engines.inspection.models import Discrepancy
from engines.packs.reading import PackMistakes
from engines.steps.selecting import select
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from tests.making_steps_s3 import Errand, load

KIND = "adjust-and-select"
SPRINGS = [
    {"name": "A", "spring": "soft", "washers": "0", "turns": "0", "pressure": "50"},
    {"name": "B", "spring": "soft", "washers": "1", "turns": "0", "pressure": "58"},
    {"name": "C", "spring": "hard", "washers": "0", "turns": "0", "pressure": "75"},
]
OIL = {"what": "oil pressure", "unit": "psi", "least": "60", "greatest": "70", "settings": SPRINGS}
BOX = [{"thickness": "0.005", "count": "2"}, {"thickness": "0.003", "count": "1"}]
PLAY = {"what": "end play", "unit": "in", "least": "0.004", "greatest": "0.008", "shims": BOX}
MESH = PLAY | {"what": "backlash", "closed_by_thickness": "0.5", "positions": ["0", "120", "240"]}
RODS = [{"name": "short", "length": "10.00"}, {"name": "long", "length": "10.02"}]
VALVES = {"what": "dry clearance", "unit": "in", "least": "0.030", "greatest": "0.060", "rods": RODS, "rocker_ratio": "1.5"}
GAP = {"what": "ring gap", "unit": "in", "least": "0.010", "greatest": "0.015", "places": ["top ring", "second ring"]}


@pytest.mark.parametrize(
    ("details", "fitted", "read", "fit", "words"),
    [
        (OIL, "A", ["56"], "B", "64 psi to be expected"),  # 56 + 58 - 50
        (OIL, "B", ["62"], "B", "62 psi to be expected"),
        (PLAY, "0", ["0.0140"], "0.005, 0.003", "together 0.008 in"),  # the middle 0.006 wants 0.008
        (PLAY, "0.005", ["0.0090"], "0.005, 0.003", "together 0.008 in"),
        (
            MESH,
            "0",
            ["0.010", "0.012", "0.011"],
            "0.005, 0.005",
            "together 0.01 in",
        ),  # middle: 0.007 at the widest, half by a shim
        (VALVES, "short", ["0.075"], "long", "0.045 in to be expected"),  # 0.075 - 0.02 x 1.5
        (VALVES | {"what": "push rod length"}, "long", ["0.045"], "long", "0.045 in to be expected"),
        (GAP, "filed", ["0.008"], "filed", "take off at least 0.002 and at most 0.007 in"),
    ],
)
def test_what_is_computed_from_the_permitted_combinations(details, fitted, read, fit, words):
    told = select(details, fitted, read)
    assert (told.fit, told.words) == (fit, words)


@pytest.mark.parametrize(
    ("details", "fitted", "read", "said"),
    [
        (OIL, "A", ["10"], "No permitted setting brings the pressure within limits"),
        (MESH, "0", ["0.010", "0.0141", "0.010"], "The positions differ by more than the limits allow"),
        (GAP, "filed", ["0.016"], "metal cannot be put back"),
        (PLAY, "0", ["0.050"], "No pack of up to"),
    ],
)
def test_where_nothing_permitted_helps_the_reason_is_told(details, fitted, read, said):
    told = select(details, fitted, read)
    assert told.fit == ""
    assert said in told.words


@pytest.mark.django_db
def test_the_oil_pressure_is_set_with_what_was_computed(client):
    work = Errand(KIND, OIL)
    work.answer(fitted="A")
    assert work.answer(read="56")["verdict"] == "outside"
    with pytest.raises(NotYet, match="the oil pressure is outside its limits"):
        work.sign()
    assert "computed from what the data permit: <b>B</b>, 64 psi to be expected" in work.page(client)
    kept = work.answer(fitted="B")
    assert (kept["fitted"], kept["computed"], kept["expected"]) == ("B", "B", "64 psi to be expected")
    assert work.missing() == ["As the data say: the oil pressure is not read."]
    assert work.answer(read="60.0") == {
        "act": "read",
        "place": "As the data say",
        "position": "",
        "read": "60.0",
        "unit": "psi",
        "verdict": "within limits",
        "after_fitting": "yes",
    }
    assert work.sign().is_complete
    assert not Discrepancy.objects.exists()
    assert "64 psi to be expected" in work.paper()


@pytest.mark.django_db
@pytest.mark.parametrize(("read", "verdict"), [("70", "within limits"), ("70.0000000000000001", "outside")])
def test_the_value_is_judged_exactly(read, verdict):
    work = Errand(KIND, OIL)
    work.answer(fitted="B")
    assert work.answer(read=read)["verdict"] == verdict


@pytest.mark.django_db
def test_a_backlash_is_read_at_every_position_and_the_same_number_is_looked_at_twice(client):
    work = Errand(KIND, MESH)
    work.answer(fitted="0")
    work.answer(read="0.006")
    with pytest.raises(StepRefused, match="was entered just before as well"):
        work.answer(read="0.0060")
    work.answer(read="0.0060", read_again=True)
    assert work.question() == "read: As the data say at 240"
    assert work.missing() == ["As the data say: the backlash is not read at 240."]
    assert "240" in work.page(client)
    work.answer(read="0.007")
    assert work.sign().is_complete


@pytest.mark.django_db
def test_shims_come_from_the_box_and_all_positions_are_read_again():
    work = Errand(KIND, MESH)
    work.answer(fitted="0")
    for read in ("0.010", "0.012", "0.011"):
        work.answer(read=read)
    for wrong, said in {
        "0.005, 0.005, 0.005": "so many of 0.005",
        "0.004": "so many of 0.004",
        "thin": "is not a number",
    }.items():
        with pytest.raises(StepRefused, match=said):
            work.answer(fitted=wrong)
    assert work.answer(fitted="0.005,0.005")["computed"] == "0.005, 0.005"
    assert work.question() == "read: As the data say at 0"
    for read in ("0.005", "0.007", "0.006"):
        work.answer(read=read)
    assert work.sign().is_complete


@pytest.mark.django_db
def test_still_outside_after_the_fitting_it_is_brought_before_the_inspector_where_the_data_say_so():
    work = Errand(KIND, OIL | {"raises": "outside"})
    work.answer(fitted="A")
    work.answer(read="56")
    assert not Discrepancy.objects.exists()
    work.answer(fitted="B")
    work.answer(read="71")
    assert Discrepancy.objects.get().words == "As the data say: oil pressure 71 psi, 60 to 70 are asked."
    with pytest.raises(NotYet):
        work.sign()


@pytest.mark.django_db
def test_a_combination_that_is_not_permitted_is_refused_and_one_found_is_replaced():
    work = Errand(KIND, OIL)
    work.answer(fitted="none of these")
    assert work.missing()[0].startswith("As the data say: what is fitted is not permitted")
    for wrong in ("none of these", "D"):
        with pytest.raises(StepRefused, match="The data permit: A, B, C"):
            work.answer(fitted=wrong)
    work.answer(fitted="B")
    work.answer(read="65")
    assert work.sign().is_complete


@pytest.mark.django_db
def test_a_ring_too_wide_is_told_to_the_inspector_and_another_is_taken():
    work = Errand(KIND, GAP)
    work.answer(read="0.016")
    assert "metal cannot be put back" in Discrepancy.objects.get().words
    with pytest.raises(StepRefused, match="take another ring"):
        work.answer(fitted="filed")
    work.answer(fitted="another ring")
    work.answer(read="0.012")
    assert work.missing() == ["second ring: the ring gap is not read."]
    work.answer(read="0.009")
    work.answer(fitted="filed")
    work.answer(read="0.010")
    assert work.sign().is_complete


@pytest.mark.django_db
def test_what_was_let_pass_counts_for_that_reading_alone():
    work = Errand(KIND, GAP | {"places": ["top ring"]})
    work.answer(read="0.016")
    work.let_pass()
    work.sign()
    reopen(operation=work.operation, reason="another ring", by=work.shop.inspector, at=work.shop.later())
    work.answer(read="0.008")
    assert work.missing() == ["top ring: the ring gap is outside its limits."]


@pytest.mark.django_db
def test_opened_again_it_is_asked_and_read_anew():
    work = Errand(KIND, OIL)
    work.answer(fitted="B")
    work.answer(read="65")
    work.sign()
    reopen(operation=work.operation, reason="the valve was out", by=work.shop.inspector, at=work.shop.later())
    assert work.question() == "fitted now: As the data say"
    assert work.paper().count('<tr class="struck"') == 2


@pytest.mark.parametrize(
    ("details", "said"),
    [
        (OIL | {"what": "mood"}, "what is one of oil pressure"),
        (OIL | {"least": "80"}, "the least is above the greatest"),
        (OIL | {"least": "some"}, "least “some” is no number"),
        (OIL | {"settings": [SPRINGS[0], SPRINGS[0]]}, "settings have “A” twice"),
        (OIL | {"settings": [SPRINGS[0] | {"washers": "1.5"}]}, "washers “1.5” is no whole number"),
        (OIL | {"settings": "A"}, "settings are a list, each with name"),
        (OIL | {"rods": RODS}, "oil pressure knows no details “rods”"),
        (OIL | {"raises": "never"}, "raises is outside"),
        (MESH | {"positions": ["0"]}, "a backlash is read at two positions"),
        (MESH | {"closed_by_thickness": "0"}, "closed_by_thickness “0” is no number but nought"),
        (PLAY | {"most": "9"}, "most is a whole number from 1 to 5"),
        (PLAY | {"shims": [{"thickness": "0", "count": "1"}]}, "thickness is above zero"),
        (VALVES | {"rocker_ratio": "-1"}, "the rocker_ratio is above zero"),
        (GAP | {"places": "all"}, "places are a list of texts"),
    ],
)
def test_data_that_permit_nothing_are_refused(details, said):
    with pytest.raises(PackMistakes, match=said):
        load(KIND, details)


@pytest.mark.parametrize("name", ["unit", "least", "rods", "rocker_ratio"])
def test_data_without_what_is_needed_are_refused(name):
    with pytest.raises(PackMistakes, match=f"{name} is missing"):
        load(KIND, {key: value for key, value in VALVES.items() if key != name})
