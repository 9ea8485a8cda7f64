"""Bolts tightened by their stretch, the retry rule of the data, and what becomes of a bolt that is out.

Limits and rule are those of TM 55-1905-223-24-1 for a connecting rod bolt (stretch = tight - zero, 0.0135 to 0.0185 in; over:
replace the bolt and repeat; under: tighten further and measure again, still under: replace). Lengths and
the permanent set are invented.
"""

from datetime import date

import pytest

from engines.inspection.models import Discrepancy
from engines.inspection.services import decide
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.parts.models import Certificate, Fitment
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from tests.making_joints import Joint, at_case, wrong_with

STRETCH = {
    "fasteners": [{"number": "1", "x": "0", "y": "0", "at": "upper"}, {"number": "2", "x": "0", "y": "3", "at": "lower"}],
    "order": ["2", "1"],
    "unit": "in",
    "low": "0.0135",
    "high": "0.0185",
    "set": {"free": "2.5000", "most": "0.0010"},
    "retry": {
        "under": [
            {"do": "loosen both, tighten the low one further", "then": "again"},
            {"do": "replace the bolt", "then": "anew"},
        ],
        "over": [{"do": "replace the bolt", "then": "anew"}],
    },
}


def stretched(**changes):
    details = {name: value for name, value in (STRETCH | changes).items() if value is not None}
    return at_case(code="rod", kind="stretch-group", title="Rod bolts", names=("rod-bolt",), details=details)


class Rod(Joint):
    def __init__(self, **changes):
        super().__init__(stretched(**changes))
        self.gauge("M-1", "bolt micrometer", "in", "2", "3")

    def begin(self, by=None, **given):
        return self.enter(by, **{"gauge": "M-1", "slackened": True} | given)

    def measure(self, bolt, length, by=None, **given):
        return self.enter(by, **{"fastener": bolt, "length": length} | given)

    def free(self, by=None):
        self.begin(by)
        self.measure("2", "2.5002", by)
        self.measure("1", "2.5004", by)

    def decided(self):
        found = Discrepancy.objects.latest("number")
        data = Data(document="T2-90", revision="3", page="7-2")
        decide(
            discrepancy=found, kind=Kind.ACCEPT, data=data, words="bolt scrapped", by=self.shop.inspector, at=self.shop.later()
        )


@pytest.mark.django_db
def test_both_bolts_are_measured_loose_then_tight_in_the_order_of_the_data():
    rod = Rod()
    rod.free()
    assert rod.measure("2", "2.5152")["stretch"] == "0.0150"
    with pytest.raises(NotYet, match="Number 1 is next, measured tightened"):
        rod.sign()
    rod.measure("1", "2.5150")
    assert rod.sign().is_complete


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("length", "verdict"),
    [("2.51369", "measure again"), ("2.5137", "within"), ("2.5187", "within"), ("2.51871", "discarded")],
)
def test_the_stretch_is_judged_at_its_very_limits(length, verdict):
    """2.5002 and 0.0135 are 2.5137, which floating point cannot hold."""
    rod = Rod()
    rod.free()
    assert rod.measure("2", length)["verdict"] == verdict


@pytest.mark.django_db
def test_too_little_is_tightened_further_as_the_data_say_and_ends_after_the_second_time():
    rod = Rod()
    rod.free()
    kept = rod.measure("2", "2.5100")
    assert (kept["verdict"], kept["then"]) == ("measure again", "loosen both, tighten the low one further")
    kept = rod.measure("2", "2.5120")
    assert (kept["verdict"], kept["then"]) == ("discarded", "replace the bolt")
    told = Discrepancy.objects.get().words
    assert told == "Bolt 2, Rod bolt, lower: its stretch of 0.0118 in is under; replace the bolt."


@pytest.mark.django_db
def test_calling_the_joint_void_gains_no_further_try_for_the_same_bolt():
    rod = Rod()
    rod.free()
    rod.measure("2", "2.5100")
    rod.enter(void_reason="the rod slipped")
    rod.free()
    assert rod.measure("2", "2.5101")["verdict"] == "discarded"


@pytest.mark.django_db
def test_a_finding_for_which_the_data_give_no_step_is_no_pass():
    rod = Rod(retry={"under": [], "over": []})
    rod.free()
    assert rod.measure("2", "2.5100")["then"] == "the data give no further step"
    assert Discrepancy.objects.count() == 1


@pytest.mark.django_db
def test_a_discarded_bolt_makes_way_for_a_new_one_with_its_evidence():
    rod = Rod()
    rod.free()
    rod.measure("2", "2.5200")
    with pytest.raises(NotYet, match="Bolt 2 is discarded: a new one with its evidence takes its place"):
        rod.sign()
    with pytest.raises(StepRefused, match="Bolt 2 is discarded: enter the new one"):
        rod.begin()
    with pytest.raises(StepRefused, match=r"An inspector decides before a new bolt comes\. Discrepancy 1"):
        rod.enter(identity="LOT-7", evidence="C-7")
    rod.decided()
    with pytest.raises(StepRefused, match="A new bolt needs its serial or mark, and the number of its evidence"):
        rod.enter(identity="LOT-7", evidence=" ")
    rod.enter(identity="LOT-7", evidence="C-7")
    fitted = Fitment.objects.get()
    assert (fitted.line, fitted.place, fitted.item.identity, fitted.item.part_number) == (
        *("rod-bolt", "lower"),
        *("LOT-7", "T2-301"),
    )
    assert Certificate.objects.get(item=fitted.item).number == "C-7"
    rod.free()
    rod.measure("2", "2.5152")
    rod.measure("1", "2.5150")
    assert rod.sign().is_complete


@pytest.mark.django_db
def test_the_tries_of_a_new_bolt_are_its_own():
    rod = Rod()
    rod.free()
    rod.measure("2", "2.5100")
    rod.measure("2", "2.5101")
    rod.decided()
    rod.enter(identity="LOT-7", evidence="C-7")
    rod.free()
    assert rod.measure("2", "2.5100")["verdict"] == "measure again"


@pytest.mark.django_db
@pytest.mark.parametrize(("length", "verdict"), [("2.5010", "within"), ("2.50101", "discarded"), ("2.4999", "within")])
def test_a_bolt_that_stayed_longer_is_not_used_again(length, verdict):
    rod = Rod()
    rod.begin()
    assert rod.measure("2", length)["verdict"] == verdict
    assert Discrepancy.objects.count() == (verdict == "discarded")


@pytest.mark.django_db
def test_without_a_limit_no_set_is_judged():
    rod = Rod(set=None)
    rod.begin()
    assert "set" not in rod.measure("2", "2.6000")


@pytest.mark.django_db
def test_other_hands_begin_again_and_sign_their_own():
    rod = Rod()
    rod.free()
    with pytest.raises(StepRefused, match="The joint is void: another person began"):
        rod.measure("2", "2.5152", by=rod.other)
    rod.free(by=rod.other)
    rod.measure("2", "2.5152", by=rod.other)
    rod.measure("1", "2.5150", by=rod.other)
    with pytest.raises(NotYet, match="Each person signs only the own part"):
        rod.sign(by=rod.shop.mechanic)
    assert rod.sign(by=rod.other).is_complete


@pytest.mark.django_db
def test_bolts_opened_again_are_measured_anew():
    rod = Rod()
    rod.free()
    rod.measure("2", "2.5152")
    rod.measure("1", "2.5150")
    rod.sign()
    operation = rod.shop.operation(rod.visit, "rod")
    reopen(operation=operation, reason="bearing changed", by=rod.shop.inspector, at=rod.shop.later())
    with pytest.raises(NotYet, match="The gauge is to be chosen"):
        rod.sign()


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("bolt", "length", "given", "said"),
    [
        ("2", "2.5000", {}, "The bolt reads shorter when tight than when loose"),
        ("2", "2,5", {}, "not a number"),
        ("2", "3.5", {}, "M-1: value above the usable range"),
        ("1", "2.5150", {}, "Number 2 is next, not 1"),
    ],
)
def test_a_length_that_cannot_be_is_refused(bolt, length, given, said):
    rod = Rod()
    rod.free()
    with pytest.raises(StepRefused, match=said):
        rod.measure(bolt, length, **given)


@pytest.mark.django_db
def test_the_same_length_of_two_bolts_is_read_again():
    rod = Rod()
    rod.begin()
    rod.measure("2", "2.5002")
    with pytest.raises(StepRefused, match=r"2\.50020 was entered just before"):
        rod.measure("1", "2.50020")
    assert rod.measure("1", "2.50020", read_again=True)["verdict"] == "within"


@pytest.mark.django_db
def test_a_gauge_that_proves_nothing_is_refused():
    rod = Rod()
    rod.gauge("M-2", "bolt micrometer", "mm", "50", "75")
    rod.gauge("M-3", "bolt micrometer", "in", "2", "3", done_on=date(2025, 1, 10), due_on=date(2025, 2, 10))
    with pytest.raises(StepRefused, match="M-2 reads mm, the data ask for in"):
        rod.begin(gauge="M-2")
    with pytest.raises(StepRefused, match="the calibration of the gauge expired"):
        rod.begin(gauge="M-3")


@pytest.mark.django_db
def test_page_and_paper_show_every_length(client):
    rod = Rod()
    assert "Gauge that reads in" in rod.page(client)
    rod.free()
    assert "Length tightened, in" in rod.page(client)
    rod.measure("2", "2.5200")
    assert "Serial or mark of the new bolt 2" in rod.page(client)
    rod.decided()
    rod.enter(identity="LOT-7", evidence="C-7")
    assert "LOT-7" in rod.page(client)
    printed = rod.paper()
    assert "<small>void: bolt 2 is discarded</small>" in printed
    assert "<b>new:</b> LOT-7, T2-301, evidence C-7" in printed


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"low": None, "high": None}, "the stretch has no limit"),
        ({"low": "0.02"}, "low 0.02 is above high 0.0185"),
        ({"low": "some"}, "low “some” is no number"),
        ({"unit": "psi"}, "psi measures pressure, not length"),
        ({"retry": None}, "retry is missing"),
        ({"retry": {"under": "tighten"}}, "retry says under and over"),
        ({"retry": {"sideways": []}}, "the kind retry knows no details “sideways”"),
        ({"retry": {"over": [{"do": "replace", "then": "hope"}]}}, "each step of retry has do and then"),
        ({"set": {"free": "2.5"}}, "most is missing"),
        ({"order": ["1"]}, "order names every fastener once: 1, 2"),
        ({"fasteners": [{"number": "1", "x": "0", "y": "0"}]}, "fastener 1: at is missing"),
        ({"fasteners": [STRETCH["fasteners"][0] | {"at": "middle"}], "order": ["1"]}, "“rod-bolt” has no place “middle”"),
        (
            {"fasteners": [STRETCH["fasteners"][0], STRETCH["fasteners"][1] | {"at": "upper"}]},
            "two of its fasteners lie at the same place",
        ),
        ({"minutes": "0"}, "minutes are a whole number"),
    ],
)
def test_bolts_whose_data_do_not_suffice_are_refused(changed, said):
    assert said in " / ".join(wrong_with(stretched(**changed)))


def test_bolts_whose_data_suffice_are_taken():
    assert wrong_with(stretched()) == []
