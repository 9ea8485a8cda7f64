"""A joint tightened in its order and passes, by one hand, with a wrench that may be used.

What a fastener gets through an adapter is checked against TM 9-254, figure 45 (wrench 12 in, extension 2 in, set 60: 70) and
TM 9-2350-261-20-1 (40 wanted, wrench 12 in, adapter 4 in: 30); drag and castle nuts are AC 43.13-1B, 7-40.
The other figures are invented.
"""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from engines.inspection.models import Discrepancy
from engines.packs.reading import PackMistakes, pack_of
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from measurements.gauges.services import retire_gauge
from tests.making_joints import CROSS, ONE_PASS, Joint, torqued, wrong_with
from tests.making_packs import small_pack, with_operations
from tests.pack_files import files_of


@pytest.mark.django_db
def test_every_pass_in_its_order_then_it_is_signed():
    joint = Joint(torqued())
    with pytest.raises(NotYet, match="Pass 1 of 2: its wrench is to be chosen"):
        joint.sign()
    joint.all_turned()
    assert joint.sign().is_complete
    kept = [entry.content for entry in joint.shop.operation(joint.visit, "bolts").entries.all()]
    assert [(each["pass"], each["fastener"]) for each in kept if each["fastener"]] == [(p, f) for p in "12" for f in CROSS]
    assert {each["verdict"] for each in kept if each["fastener"]} == {"within"}


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("adapter", "wrench_length", "shown", "gets", "verdict"),
    [
        ({"length": "2", "unit": "in", "angle": "0"}, "12", "60", "70 lbf·in", "within"),
        ({"length": "4", "unit": "in", "angle": "0"}, "12", "60", "80 lbf·in", "within"),
        ({"length": "4", "unit": "in", "angle": "90"}, "12", "60", "60 lbf·in", "not there yet"),
        ({"length": "3", "unit": "in", "angle": "180"}, "12", "100", "75 lbf·in", "within"),
    ],
)
def test_what_the_fastener_gets_is_judged_not_what_the_wrench_shows(adapter, wrench_length, shown, gets, verdict):
    joint = Joint(torqued(adapter=adapter))
    joint.ready(wrench_length=wrench_length)
    kept = joint.turn("1", shown)
    assert (kept["gets"], kept["verdict"]) == (gets, verdict)


@pytest.mark.django_db
def test_the_wrench_is_checked_at_what_it_must_show_through_the_adapter():
    """Forty wanted through 4 in on 12 in: the wrench shows 30, below a range that begins at 35 although 40 lies in it."""
    passes = [{"low": "40", "high": "45", "order": CROSS}]
    joint = Joint(torqued(passes=passes, adapter={"length": "4", "unit": "in", "angle": "0"}))
    joint.gauge("W-2", "torque wrench", "lbf·in", "35", "200")
    with pytest.raises(StepRefused, match="W-2: value below the usable range"):
        joint.ready(wrench="W-2", wrench_length="12")
    joint.gauge("W-3", "torque wrench", "lbf·in", "30", "200")
    assert joint.ready(wrench="W-3", wrench_length="12")["wrench"] == "W-3"


@pytest.mark.django_db
@pytest.mark.parametrize(("shown", "verdict"), [("84", "not there yet"), ("85", "within"), ("95", "within"), ("95.001", "void")])
def test_the_drag_of_running_down_is_added_at_both_ends(shown, verdict):
    joint = Joint(torqued(run_down="added"))
    joint.ready()
    with pytest.raises(StepRefused, match="Read the torque that runs the nut down"):
        joint.turn("1", shown)
    assert joint.turn("1", shown, run_down="15")["verdict"] == verdict


@pytest.mark.django_db
def test_drag_read_in_the_first_pass_counts_in_the_second():
    joint = Joint(torqued(run_down="added"))
    joint.ready()
    for fastener in CROSS:
        joint.turn(fastener, "90", run_down="15")
    joint.ready()
    assert joint.turn("1", "150")["verdict"] == "not there yet"
    assert joint.turn("1", "155")["verdict"] == "within"


@pytest.mark.django_db
def test_a_wrench_in_another_unit_is_turned_into_that_of_the_data():
    """One lbf·in is 0.112984829027… N·m by definition (NIST SP 811), so 8 N·m are 70.8 lbf·in and 7.9 are 69.9."""
    joint = Joint(torqued())
    joint.gauge("N-1", "torque wrench", "N·m", "5", "25")
    joint.ready(wrench="N-1")
    assert joint.turn("1", "7.9")["verdict"] == "not there yet"
    assert joint.turn("1", "8")["verdict"] == "within"


@pytest.mark.django_db
def test_a_castle_nut_goes_on_to_the_slot_and_never_back():
    joint = Joint(torqued(castle="yes", passes=ONE_PASS))
    joint.ready()
    with pytest.raises(StepRefused, match="Say whether the slot meets the hole"):
        joint.turn("1", "145")
    assert joint.turn("1", "145", slot="does not meet the hole yet")["verdict"] == "not there yet"
    assert joint.turn("1", "158", slot="meets the hole, tightening")["verdict"] == "within"
    back = joint.turn("3", "150", slot="meets the hole, after turning it back")
    assert back["void"] == "number 3: backed off: the joint is void, begin anew"
    assert Discrepancy.objects.count() == 0


@pytest.mark.django_db
def test_no_slot_up_to_the_greatest_torque_voids_the_joint():
    joint = Joint(torqued(castle="yes", passes=ONE_PASS))
    joint.ready()
    assert "no slot within the torque" in joint.turn("1", "160", slot="does not meet the hole yet")["void"]


@pytest.mark.django_db
def test_too_far_is_void_and_brought_before_the_inspector():
    joint = Joint(torqued(passes=ONE_PASS))
    joint.ready()
    assert joint.turn("1", "160.5")["verdict"] == "void"
    assert Discrepancy.objects.get().words == "Fastener 1 got 160.5 lbf·in: replace the stud and its nut"
    joint.all_turned(torques=("150",))
    with pytest.raises(NotYet, match="Discrepancy 1 is not decided"):
        joint.sign()


@pytest.mark.django_db
def test_out_of_order_is_void_only_when_it_was_really_done():
    joint = Joint(torqued(passes=ONE_PASS))
    joint.ready()
    joint.turn("1", "150")
    with pytest.raises(StepRefused, match="Number 3 is next, not 2"):
        joint.turn("2", "151")
    assert joint.turn("2", "151", out_of_order=True)["void"] == "out of order: number 2 in place of 3"
    with pytest.raises(NotYet, match=r"Try 1 is void: out of order.*Pass 1 of 1: its wrench"):
        joint.sign()
    with pytest.raises(StepRefused, match="Slacken every fastener, tick that you did"):
        joint.ready(slackened=False)
    assert joint.ready()["try"] == "2"
    for fastener in CROSS:
        joint.turn(fastener, "150")
    assert joint.sign().is_complete
    assert joint.shop.operation(joint.visit, "bolts").entries.count() == 8, "the void try stays in the record"


@pytest.mark.django_db
def test_in_other_hands_it_is_begun_again_and_signed_by_those():
    joint = Joint(torqued(passes=ONE_PASS))
    joint.ready()
    joint.turn("1", "150")
    with pytest.raises(StepRefused, match="The joint is void: another person began"):
        joint.turn("3", "151", by=joint.other)
    assert joint.turn("3", "151")["verdict"] == "within", "what was refused has changed nothing"
    joint.all_turned(by=joint.other, torques=("150",))
    with pytest.raises(NotYet, match="Each person signs only the own part"):
        joint.sign(by=joint.shop.mechanic)
    assert joint.sign(by=joint.other).is_complete


@pytest.mark.django_db
def test_a_pause_longer_than_the_data_allow_is_an_interruption():
    joint = Joint(torqued(passes=ONE_PASS, minutes="20"))
    joint.ready()
    joint.turn("1", "150")
    joint.shop.now += timedelta(minutes=19)
    assert joint.turn("3", "151")["verdict"] == "within"
    joint.shop.now += timedelta(minutes=20)
    with pytest.raises(NotYet, match="more than 20 minutes passed between two fasteners"):
        joint.sign()
    with pytest.raises(StepRefused, match="Choose the wrench for pass 1 first"):
        joint.turn("2", "150")
    assert joint.ready()["begun_again"].endswith("more than 20 minutes passed between two fasteners")


@pytest.mark.django_db
def test_a_finished_joint_waits_for_its_signature_as_long_as_it_takes():
    joint = Joint(torqued(passes=ONE_PASS, minutes="20"))
    joint.all_turned(torques=("150",))
    joint.shop.now += timedelta(days=2)
    assert joint.sign().is_complete


@pytest.mark.django_db
def test_whoever_knows_that_it_was_disturbed_says_so():
    joint = Joint(torqued(passes=ONE_PASS))
    with pytest.raises(StepRefused, match="Nothing of this joint is tightened"):
        joint.enter(void_reason="bumped")
    joint.all_turned(torques=("150",))
    joint.enter(by=joint.other, void_reason="a nut was taken off again")
    with pytest.raises(NotYet, match="Try 1 is void: a nut was taken off again"):
        joint.sign()


@pytest.mark.django_db
def test_a_joint_that_an_inspector_opens_again_begins_from_nothing():
    joint = Joint(torqued(passes=ONE_PASS))
    joint.all_turned(torques=("150",))
    joint.sign()
    operation = joint.shop.operation(joint.visit, "bolts")
    reopen(operation=operation, reason="not believed", by=joint.shop.inspector, at=joint.shop.later())
    with pytest.raises(NotYet, match="its wrench is to be chosen"):
        joint.sign()
    joint.all_turned(torques=("150",))
    assert joint.sign().is_complete


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"wrench": "W-0"}, "The register has no “W-0”"),
        ({"wrench": "lapsed"}, "the calibration of the gauge expired on"),
        ({"wrench": "short"}, "short: value above the usable range"),
        ({"wrench": "gone"}, "the gauge was retired on"),
        ({"threads": "dry"}, "The data ask for the threads wet with engine oil"),
    ],
)
def test_a_wrench_or_thread_that_the_data_do_not_allow_is_refused(given, said):
    joint = Joint(torqued())
    joint.gauge("lapsed", "torque wrench", "lbf·in", "50", "250", done_on=date(2025, 1, 10), due_on=date(2025, 2, 10))
    joint.gauge("short", "torque wrench", "lbf·in", "20", "78")
    gone = joint.gauge("gone", "torque wrench", "lbf·in", "50", "250")
    retire_gauge(gauge=gone, reason="dropped", by=joint.shop.manager, at=joint.shop.now)
    with pytest.raises(StepRefused, match=said):
        joint.ready(**given)
    assert joint.shop.operation(joint.visit, "bolts").entries.count() == 0


@pytest.mark.django_db
@pytest.mark.parametrize(("torque", "said"), [("15o", "not a number"), ("0", "above zero"), ("300", "above the usable range")])
def test_a_torque_that_cannot_be_is_refused(torque, said):
    joint = Joint(torqued(passes=ONE_PASS))
    joint.ready()
    with pytest.raises(StepRefused, match=said):
        joint.turn("1", torque)


@pytest.mark.django_db
@pytest.mark.parametrize("set_wrench", [None, "yes"])
def test_the_same_torque_twice_is_read_again_unless_the_wrench_is_set_to_it(set_wrench):
    joint = Joint(torqued(passes=ONE_PASS, set_wrench=set_wrench))
    joint.ready()
    joint.turn("1", "150")
    if set_wrench is None:
        with pytest.raises(StepRefused, match="150 was entered just before as well"):
            joint.turn("3", "150", read_again=False)
    else:
        assert joint.turn("3", "150", read_again=False)["verdict"] == "within"


@pytest.mark.django_db
def test_the_page_shows_the_next_fastener_and_takes_a_tap(client):
    joint = Joint(torqued(passes=ONE_PASS))
    assert "Wrench for pass 1" in joint.page(client)
    joint.ready()
    joint.turn("1", "150")
    shown = joint.page(client)
    assert 'aria-label="3, next"' in shown
    assert 'aria-label="1, done"' in shown
    assert " checked" not in shown
    enter_at = reverse("benches:enter", args=[joint.shop.operation(joint.visit, "bolts").pk])
    key = shown.split('name="receipt_key" value="')[1].split('"')[0]
    answer = client.post(enter_at, {"fastener": "2", "torque": "150", "receipt_key": key})
    assert answer.status_code == 422
    assert "It was done out of its order" in answer.content.decode()
    assert "Read again, it is the same" in answer.content.decode()
    assert "another person began" in joint.page(client, by=joint.other)


@pytest.mark.django_db
def test_the_paper_prints_every_try():
    joint = Joint(torqued(passes=ONE_PASS))
    joint.ready()
    joint.turn("1", "150")
    joint.enter(void_reason="the stand fell")
    joint.all_turned(torques=("151",))
    printed = joint.paper()
    assert "<b>Void:</b> the stand fell" in printed
    assert "begun again, every fastener slackened; the stand fell" in printed
    assert printed.count("151 lbf·in") == 8


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"passes": []}, "passes are a list"),
        ({"passes": [{"low": "160", "high": "140", "order": CROSS}]}, "pass 1: low 160 is above high 140"),
        ({"passes": [{"low": "140", "order": CROSS}]}, "pass 1: high is missing"),
        ({"passes": [{"low": "140", "high": "160", "order": CROSS[:3]}]}, "order names every fastener once: 1, 2, 3, 4"),
        ({"passes": [{"low": "0", "high": "160", "order": CROSS}]}, "low 0 is not above zero"),
        ({"circle": "none"}, "circle is how many fasteners lie on it"),
        ({"fasteners": [{"number": "1", "x": "0", "y": "0"}]}, "give one of them"),
        ({"circle": None, "fasteners": [{"number": "1", "x": "left", "y": "0"}]}, "fastener 1: x “left” is no number"),
        ({"unit": "in"}, "in measures length, not torque"),
        ({"lubricant": None}, "wet names its lubricant"),
        ({"condition": "dry"}, "dry names none"),
        ({"condition": "damp"}, "condition is wet or dry"),
        ({"over": None}, "over is missing"),
        ({"minutes": "soon"}, "minutes are a whole number"),
        ({"adapter": {"length": "2", "unit": "in", "angle": "45"}}, "angle is one of 0, 60, 90, 120, 180 degrees"),
        ({"adapter": {"length": "2", "unit": "psi", "angle": "0"}}, "adapter: psi measures pressure, not length"),
        ({"castle": "maybe"}, "castle is yes"),
        ({"seated_by": "case-seated"}, "seated_by “case-seated” is no hand-seated-joint"),
        ({"colour": "red"}, "the kind torque-group knows no details “colour”"),
    ],
)
def test_a_joint_whose_data_do_not_suffice_is_refused(changed, said):
    assert said in " / ".join(wrong_with(torqued(**changed)))


def test_the_reader_of_packs_asks_for_the_details():
    refused = files_of(with_operations(small_pack(), torqued(over=None)))
    with pytest.raises(PackMistakes, match="the operation “bolts”: over is missing"):
        pack_of({name: text.encode() for name, text in refused.items()})


def test_data_that_suffice_are_taken():
    lies = [{"number": str(each), "x": str(each), "y": "0"} for each in range(1, 5)]
    adapter = {"length": "2", "unit": "in", "angle": "90"}
    joint = torqued(circle=None, fasteners=lies, adapter=adapter, run_down="added", castle="yes", minutes="20")
    taken = pack_of({name: text.encode() for name, text in files_of(with_operations(small_pack(), joint)).items()})
    assert taken.operations[-1].details == joint.details
