"""A part is cleaned with what its material bears, blasted behind its masks, and every passage is proved clear.

That caustic media attack aluminium, and that blasting media hide in oil passages: common practice, no source. All media, parts
and materials of the small engine are invented.
"""

import pytest
from django.urls import reverse

from engines.inspection.models import Discrepancy
from engines.packs.reading import PackMistakes
from engines.steps.registry import step_of
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import enter, reopen
from engines.traveler.work import work_on
from tests.making_steps_s3 import CODE, Errand, load
from tests.permission_rows.benches import KEY

KIND = "cleaning"
GALLERY, FEED = {"passage": "main gallery", "plug": "P-1"}, {"passage": "feed to main 2"}
TANK, SOLVENT, BEADS = "hot caustic tank", "cold solvent", "glass beads"
DETAILS = {
    "materials": {"crankshaft": "steel", "case-half": "aluminium"},
    "media": {"steel": [TANK, SOLVENT], "aluminium": [SOLVENT, BEADS]},
    "passages": {"crankshaft": "none", "case-half": [GALLERY, FEED]},
    "proofs": ["light seen through", "wire passed"],
    "blasting": [BEADS],
    "masked": {"case-half": ["bearing bores", "joint face"]},
}
NAMES, CRITERION = ("crankshaft", "case-half"), "No carbon, no scale, bare metal."
CASE = "Case, case"
OUT, MASKED = ["P-1"], ["bearing bores", "joint face"]
CLEAN, AGAIN = "clean", "not yet, it is cleaned again"
BLASTED = (OUT, BEADS, MASKED, "blown out, flushed twice")


def errand(**changed):
    return Errand(KIND, DETAILS, criterion=CRITERION, **{"names": NAMES, **changed})


def case_only():
    """Only the case, so that its questions come at once."""
    details = {**DETAILS, "materials": {"case-half": "aluminium"}, "passages": {"case-half": [GALLERY, FEED]}}
    return Errand(KIND, details, criterion=CRITERION, names=("case-half",))


def answers(work, *given, by=None):
    return [_answer(work, each, by or work.shop.mechanic) for each in given]


def _answer(work, answer, by):
    now = work_on(work.visit, work.operation, work.shop.now, by)
    asked = step_of(KIND).form(now).initial["asked"]
    given = {"asked": asked, "answer": answer}
    return enter(operation=work.operation, given=given, by=by, at=work.shop.later()).content


@pytest.mark.django_db
class TestRight:
    def test_each_part_with_its_own_medium_and_every_passage_proved(self, client):
        work = errand()
        assert "Crankshaft is steel: hot caustic tank, cold solvent." in work.page(client)
        answers(work, TANK, CLEAN, OUT, SOLVENT, CLEAN, "wire passed")
        assert work.question() == "passage: case-half: case: feed to main 2"
        assert answers(work, "light seen through")[0]["verdict"] == "as asked"
        assert work.question() == ""
        assert work.sign().is_complete
        assert not Discrepancy.objects.exists()

    def test_blasted_behind_its_masks_and_another_person_sees_that_no_media_are_left(self):
        work = case_only()
        answers(work, *BLASTED)
        assert answers(work, "none is left", by=work.shop.inspector)[0]["act"] == "removal witnessed"
        answers(work, CLEAN, "wire passed", "wire passed")
        assert work.sign().is_complete
        printed = work.paper()
        assert "bearing bores, joint face" in printed
        assert "passage: main gallery</td><td>wire passed" in printed
        assert "Blasting media hide in oil passages" in printed

    def test_degreased_first_and_blasted_after(self):
        work = case_only()
        answers(work, OUT, SOLVENT, AGAIN, BEADS)
        assert work.question() == "masked: case-half: case"

    def test_whoever_waits_for_a_witness_goes_on_with_the_next_part(self):
        both = {
            **DETAILS,
            "media": {**DETAILS["media"], "steel": [BEADS]},
            "masked": {**DETAILS["masked"], "crankshaft": ["journals"]},
        }
        work = Errand(KIND, both, criterion=CRITERION, names=NAMES)
        answers(work, BEADS, ["journals"], "blown out")
        assert answers(work, OUT)[0]["position"] == CASE
        assert answers(work, "none is left", by=work.shop.second)[0]["position"] == "Crankshaft, engine"


@pytest.mark.django_db
class TestWrong:
    @pytest.mark.parametrize("medium", [TANK, "brick acid", ""])
    def test_a_medium_that_the_material_does_not_bear_is_refused_by_name(self, medium):
        work = case_only()
        answers(work, OUT)
        with pytest.raises(StepRefused) as refused:
            answers(work, medium)
        assert str(refused.value) == (
            f"“{medium}” is not permitted on aluminium (Case, case). The data permit: cold solvent, glass beads."
        )
        assert work.question() == "medium: case-half: case"

    @pytest.mark.parametrize(
        ("before", "given", "said"),
        [
            ((), [], "Case, case: not out yet: P-1"),
            ((OUT, BEADS), ["bearing bores"], "Case, case: not masked yet: joint face"),
            ((OUT, BEADS, MASKED), " ", "Say how the media were removed"),
            ((OUT, SOLVENT), "perhaps", "Choose one of: clean, not yet"),
            ((OUT, SOLVENT, CLEAN), "it looks clear", "Choose one of: light seen through, wire passed, not clear"),
        ],
    )
    def test_what_is_not_done_or_not_said_is_refused(self, before, given, said):
        work = case_only()
        answers(work, *before)
        with pytest.raises(StepRefused, match=said):
            answers(work, given)

    @pytest.mark.parametrize("hand", ["mechanic", "inspector"])
    def test_nobody_witnesses_their_own_blasting_whatever_their_role(self, hand):
        work = case_only()
        by = getattr(work.shop, hand)
        answers(work, *BLASTED, by=by)
        with pytest.raises(StepRefused, match="another person looks"):
            answers(work, "none is left", by=by)
        assert work.missing() == ["Case, case: no second person has seen that the blasting media are gone."]

    def test_whoever_only_removed_the_media_is_no_witness_either(self):
        work = case_only()
        answers(work, OUT, BEADS, MASKED)
        answers(work, "blown out", by=work.shop.inspector)
        for each in (work.shop.mechanic, work.shop.inspector):
            with pytest.raises(StepRefused, match="another person looks"):
                answers(work, "none is left", by=each)
        answers(work, "none is left", by=work.shop.hire())

    def test_media_that_are_left_are_removed_and_looked_for_again(self):
        work = case_only()
        answers(work, *BLASTED)
        assert answers(work, "some is left", by=work.shop.inspector)[0]["verdict"] == "not as asked"
        assert work.question() == "blasting media removed: case-half: case"
        answers(work, "flushed again")
        assert work.question() == "removal witnessed: case-half: case"

    def test_a_passage_that_is_not_clear_sends_the_part_back_and_all_are_proved_anew(self):
        work = case_only()
        answers(work, OUT, SOLVENT, CLEAN, "wire passed", "not clear, the part is cleaned again")
        assert work.question() == "medium: case-half: case"
        answers(work, SOLVENT, CLEAN)
        assert work.question() == "passage: case-half: case: main gallery"

    def test_a_witness_alone_does_not_sign(self):
        work = case_only()
        answers(work, *BLASTED)
        answers(work, "none is left", by=work.shop.inspector)
        answers(work, CLEAN, "wire passed", "wire passed")
        with pytest.raises(NotYet, match="You witnessed this work; whoever did it signs it"):
            work.shop.sign(work.visit, CODE, by=work.shop.inspector)


@pytest.mark.django_db
class TestInterrupted:
    @pytest.mark.parametrize(
        ("done", "left"),
        [
            ((), "its plugs are not out yet."),
            ((OUT,), "it is to be cleaned."),
            ((OUT, BEADS), "it is to be blasted, and is not masked yet."),
            ((OUT, BEADS, MASKED), "the blasting media are not removed yet."),
            ((OUT, SOLVENT), "nobody has said that it is clean."),
            ((OUT, SOLVENT, CLEAN), "main gallery is not proved clear."),
            ((OUT, SOLVENT, CLEAN, "wire passed"), "feed to main 2 is not proved clear."),
        ],
    )
    def test_it_says_what_is_left_and_is_not_signed(self, done, left):
        work = case_only()
        answers(work, *done)
        assert work.missing() == [f"Case, case: {left}"]
        with pytest.raises(NotYet):
            work.sign()

    def test_an_answer_to_what_was_asked_before_is_refused(self):
        work = case_only()
        answers(work, OUT)
        with pytest.raises(StepRefused, match="What is asked now is “medium: case-half: case”"):
            work.answer("plugs out: case-half: case", answer=OUT)


@pytest.mark.django_db
class TestDisputed:
    def test_a_passage_that_stays_blocked_goes_before_the_inspector_and_is_asked_until_decided(self):
        work = case_only()
        answers(work, OUT, SOLVENT, CLEAN, "stays blocked")
        assert Discrepancy.objects.get().words == "Case, case, main gallery: stays blocked after cleaning."
        with pytest.raises(NotYet, match="main gallery is not proved clear"):
            work.sign()
        work.let_pass()
        assert work.question() == "passage: case-half: case: feed to main 2"
        answers(work, "wire passed")
        assert work.sign().is_complete

    def test_opened_again_everything_is_done_anew_and_the_paper_keeps_both_rounds(self):
        work = case_only()
        answers(work, OUT, SOLVENT, CLEAN, "wire passed", "wire passed")
        work.sign()
        reopen(operation=work.operation, reason="beads fell out", by=work.shop.inspector, at=work.shop.later())
        assert work.question() == "plugs out: case-half: case"
        assert work.paper().count('<tr class="struck"') == 5


@pytest.mark.django_db
def test_the_tablet_takes_what_is_ticked_and_refuses_by_name(client):
    work = case_only()
    assert "Hot tanks scald" in work.page(client)
    address = reverse("benches:enter", args=[work.operation.pk])
    form = {"asked": work.question()}
    assert client.post(address, form | KEY).status_code == 422
    assert client.post(address, {**form, **KEY, "answer": OUT}).status_code == 302
    key = {"receipt_key": "01a21364-3dc3-7376-891b-2b3866c9f428"}
    refused = client.post(address, {**key, "asked": work.question(), "answer": TANK})
    assert refused.status_code == 422
    assert "is not permitted on aluminium (Case, case). The data permit: cold solvent, glass beads." in refused.content.decode()


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"materials": {"crankshaft": "steel"}}, "materials do not say “case-half”"),
        ({"materials": {**DETAILS["materials"], "piston": "aluminium"}}, "materials say “piston”, which is not cleaned here"),
        ({"materials": {"crankshaft": ["steel"], "case-half": "aluminium"}}, "materials name one material for each part"),
        ({"materials": "steel"}, "materials are a mapping"),
        ({"media": {"steel": [TANK]}}, "media permit nothing on aluminium"),
        ({"media": {"steel": TANK, "aluminium": [SOLVENT]}}, "media are a list of texts for each material"),
        ({"passages": {"crankshaft": "none"}}, "passages do not say “case-half”"),
        ({"passages": {"crankshaft": "none", "case-half": "all"}}, "passages of a part are a list"),
        ({"passages": {"crankshaft": "none", "case-half": [GALLERY, GALLERY]}}, "passages of a part are a list"),
        ({"proofs": "light"}, "proofs is a list of texts, each once"),
        ({"blasting": ["walnut"]}, "blasting names “walnut”, which is no medium"),
        ({"masked": {}}, "masked is a list of texts for each part that is blasted"),
        ({"masked": {"crankshaft": ["journals"]}}, "“case-half” may be blasted, and masked does not say"),
        ({"masked": {**DETAILS["masked"], "piston": ["pin bore"]}}, "masked says “piston”, which is not cleaned here"),
        ({"colour": "red"}, "the kind cleaning knows no details “colour”"),
    ],
)
def test_data_that_cannot_be_worked_by_are_refused(changed, said):
    with pytest.raises(PackMistakes, match=said):
        load(KIND, DETAILS | changed, names=NAMES, criterion=CRITERION)


@pytest.mark.parametrize("name", ["materials", "media", "passages", "proofs"])
def test_data_that_leave_something_out_are_refused(name):
    with pytest.raises(PackMistakes, match=f"{name} (is missing|do not say)"):
        load(KIND, {key: value for key, value in DETAILS.items() if key != name}, names=NAMES, criterion=CRITERION)


def test_data_that_ask_for_all_of_it_are_loaded():
    load(KIND, DETAILS, names=NAMES, criterion=CRITERION)
