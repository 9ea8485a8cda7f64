"""What is seen at assembly: marks that meet, openings that lie apart, parts renewed, views photographed.

Right, wrong, cut short and opened again. Ring gaps 120 degrees apart: TM 10-3930-673-34, 3-16. The rest is common practice, no
source; every figure of the small engine is invented.
"""

from dataclasses import replace
from functools import partial
from io import BytesIO

import pytest
from django.template.loader import render_to_string
from django.urls import reverse

from engines.catalogue.data import ENGINE, Operation
from engines.inspection.models import Discrepancy
from engines.packs.reading import PackMistakes, pack_of
from engines.parts.queries import fitted_now
from engines.steps.registry import step_of
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet, SameHand
from engines.traveler.services import reopen
from engines.traveler.work import work_on
from shopfloor.documents.kinds import document_kind
from tests.making_packs import page, running_pack
from tests.making_visits import Shop
from tests.pack_files import files_of
from tests.permission_rows.benches import picture

pytestmark = pytest.mark.django_db
whole = partial(Operation, area=ENGINE, stage="close-up", source=page("8-1"))
MARKS = {
    "before": "piston 1 at the end of its compression stroke",
    "pairs": [
        {"mark": "dot of the cam gear", "meets": "dot of the crank gear"},
        {"mark": "line of the idler", "meets": "its arrow"},
    ],
    "no_matter": ["the letter on the magneto gear"],
}
GAPS = {"openings": ["top ring", "second ring", "oil ring"], "least": "100", "from": "clockwise from the arrow on the crown"}
VIEWS = {"views": ["left side", "right side"]}
STEPS = (
    whole(code="marks", kind="index-marks", title="Gears timed", details=MARKS, hold_point=True, finds="metal found"),
    whole(code="gaps", kind="angular-separation", title="Ring gaps", names=("piston",), details=GAPS),
    whole(code="renew", kind="renew-always", title="Gasket renewed", names=("gasket",), hold_point=True),
    whole(code="views", kind="photo", title="Closed up", details=VIEWS),
)
ONE, TWO = ("piston", "cylinder 1"), ("piston", "cylinder 2")


def assembly_pack(**changed):
    """`changed` are fields of one operation, by its code."""
    pack = running_pack()
    steps = tuple(replace(step, **changed.get(step.code, {})) for step in STEPS)
    return replace(pack, operations=(*pack.operations, *steps))


@pytest.fixture
def shop():
    return Shop(assembly_pack())


@pytest.fixture
def visit(shop):
    return shop.receive()


def photo(colour="grey"):
    file = BytesIO(picture(colour))
    file.name = "marks.jpg"
    return file


def look(shop, visit, *said):
    shop.enter(visit, "marks", before=True, photo=photo(), **{f"pair_{index}": each for index, each in enumerate(said)})


def gaps(shop, visit, spot, *angles):
    shop.enter(visit, "gaps", spot=spot, **{f"opening_{index}": angle for index, angle in enumerate(angles)})


def renew(shop, visit, **given):
    filled = {"spot": ("gasket", "case joint"), "new_identity": "LOT-7", "evidence": "C-7", "destroyed": "cut in two"}
    shop.enter(visit, "renew", **filled | given)


def printed(visit):
    paper = document_kind("visit-traveler")
    return render_to_string(paper.template, {**paper.context(str(visit.pk)), "kind": paper, "document": None})


class TestIndexMarks:
    def test_marks_that_meet_are_signed_and_seen_by_another(self, shop, visit):
        look(shop, visit, "yes", "yes")
        shop.sign(visit, "marks")
        with pytest.raises(SameHand):
            shop.accept(visit, "marks", by=shop.mechanic)
        assert shop.accept(visit, "marks").is_complete
        assert "the marks meet</b>: dot of the cam gear on dot of the crank gear: yes" in printed(visit)

    def test_one_that_does_not_meet_cannot_be_signed_until_they_do(self, shop, visit):
        look(shop, visit, "yes", "no")
        with pytest.raises(NotYet, match="The marks did not meet"):
            shop.sign(visit, "marks")
        look(shop, visit, "yes", "yes")
        shop.sign(visit, "marks")

    def test_nobody_signs_what_nobody_looked_at(self, shop, visit):
        with pytest.raises(NotYet, match="not looked at yet"):
            shop.sign(visit, "marks")

    def test_opened_again_they_are_looked_at_again(self, shop, visit):
        look(shop, visit, "yes", "yes")
        shop.sign(visit, "marks")
        reopen(operation=shop.operation(visit, "marks"), reason="the shaft was turned", by=shop.inspector, at=shop.later())
        with pytest.raises(NotYet, match="not looked at yet"):
            shop.sign(visit, "marks")

    def test_a_file_that_is_no_photo_is_refused(self, shop, visit):
        wrong = BytesIO(b"no picture")
        wrong.name = "marks.jpg"
        with pytest.raises(StepRefused):
            shop.enter(visit, "marks", before=True, photo=wrong, pair_0="yes", pair_1="yes")


class TestAngularSeparation:
    def test_gaps_a_third_of_a_turn_apart(self, shop, visit):
        for spot in (ONE, TWO):
            gaps(shop, visit, spot, "0", "120", "240")
        assert shop.sign(visit, "gaps").is_complete
        assert "closest" in printed(visit)

    @pytest.mark.parametrize(("angle", "verdict"), [("100", "far enough apart"), ("99.9", "too close together")])
    def test_the_least_separation_is_decided_exactly(self, shop, visit, angle, verdict):
        gaps(shop, visit, ONE, "0", angle, "230")
        assert shop.operation(visit, "gaps").entries.get().content["verdict"] == verdict

    def test_too_close_across_the_top_of_the_circle_must_be_turned_and_read_again(self, shop, visit):
        gaps(shop, visit, ONE, "350", "30", "190")
        gaps(shop, visit, TWO, "0", "120", "240")
        with pytest.raises(NotYet, match=r"Piston, cylinder 1: .* 40° is too close together"):
            shop.sign(visit, "gaps")
        gaps(shop, visit, ONE, "300", "60", "180")
        shop.sign(visit, "gaps")

    @pytest.mark.parametrize("angle", ["360", "-1", "12O", ""])
    def test_what_is_no_angle_is_refused(self, shop, visit, angle):
        with pytest.raises(StepRefused):
            gaps(shop, visit, ONE, "0", angle, "240")


class TestRenewAlways:
    def test_a_new_one_with_evidence_the_old_one_unusable_seen_by_two(self, shop, visit):
        renew(shop, visit)
        shop.sign(visit, "renew")
        assert shop.accept(visit, "renew").is_complete
        assert fitted_now(visit.engine.item)["gasket", "case joint"].item.mark == "LOT-7"
        assert "old part: cut in two" in printed(visit)

    @pytest.mark.parametrize("blank", ["new_identity", "evidence"])
    def test_without_identity_or_evidence_nothing_is_fitted(self, shop, visit, blank):
        with pytest.raises(StepRefused):
            renew(shop, visit, **{blank: ""})
        assert not fitted_now(visit.engine.item)

    def test_the_old_one_is_not_forgotten(self, shop, visit):
        work = work_on(visit, shop.operation(visit, "renew"))
        given = {"spot": "gasket|case joint", "new_identity": "LOT-7", "evidence": "C-7"}
        form = step_of("renew-always").form(work, {**given, "destroyed": " "})
        assert list(form.errors) == ["destroyed"]
        assert step_of("renew-always").form(work, {**given, "destroyed": "cut in two"}).is_valid()


class TestPhoto:
    def test_every_view_is_there_before_the_signature(self, shop, visit):
        shop.enter(visit, "views", view="left side", photo=photo())
        with pytest.raises(NotYet, match="right side is not photographed yet"):
            shop.sign(visit, "views")
        shop.enter(visit, "views", view="right side", photo=photo("white"))
        assert shop.sign(visit, "views").is_complete
        assert "right side: photo, SHA-256" in printed(visit)


@pytest.mark.parametrize("code", ["marks", "gaps", "renew", "views"])
def test_the_page_asks_and_shows(shop, visit, client, code):
    look(shop, visit, "yes", "no")
    gaps(shop, visit, ONE, "0", "120", "240")
    shop.enter(visit, "views", view="left side", photo=photo())
    client.force_login(shop.mechanic)
    answer = client.get(reverse("benches:operation", args=[shop.operation(visit, code).pk]))
    assert answer.status_code == 200
    assert "Keep it" in answer.content.decode()


def test_nothing_of_it_becomes_a_discrepancy_by_itself(shop, visit):
    gaps(shop, visit, ONE, "0", "10", "240")
    assert not Discrepancy.objects.exists()


@pytest.mark.parametrize(
    ("code", "changed", "said"),
    [
        ("marks", {"details": {**MARKS, "pairs": []}}, "pairs are a list"),
        ("marks", {"details": {**MARKS, "before": " "}}, "before is one text"),
        ("marks", {"hold_point": False}, "nobody would see the marks a second time"),
        ("gaps", {"details": {**GAPS, "openings": ["one"]}}, "openings name at least two"),
        ("gaps", {"details": {**GAPS, "least": "far"}}, "least “far” is no figure above zero"),
        ("gaps", {"details": {**GAPS, "least": "121"}}, "cannot lie 121 degrees apart"),
        ("gaps", {"details": {**GAPS, "taper": "1"}}, "knows no details “taper”"),
        ("renew", {"names": ("piston",)}, "is not a part that is always renewed"),
        ("renew", {"hold_point": False}, "nobody would witness"),
        ("views", {"details": {}}, "views name what is photographed"),
    ],
)
def test_data_that_cannot_be_worked_by_are_refused(code, changed, said):
    files = files_of(assembly_pack(**{code: changed}))
    with pytest.raises(PackMistakes, match=said):
        pack_of({name: text.encode() for name, text in files.items()})
