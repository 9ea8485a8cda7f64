"""Engine data: a draft until another person has held every page against its source, then in force, one at a time."""

from dataclasses import replace

import pytest

from engines.catalogue.data import Area, Line, Operation, PackData, Pairing, Source, from_plain, to_plain
from engines.catalogue.errors import NoSuchPage, NotADraft, OwnData, PagesUnchecked, RevisionTaken
from engines.catalogue.models import EngineModel, Pack
from engines.catalogue.queries import data_of, packs_in_force, rows_of, unchecked_pages
from engines.catalogue.services import add_pack, approve_pack, check_pages
from measurements.limits.models import State
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_authorisations import make_approver
from tests.making_limits import BUSHING_ROW, PIN_ROW
from tests.making_people import AT, make_person

pytestmark = pytest.mark.django_db
MANUAL = Source(document="overhaul data", revision="A", page="page 4")
FIGURES = Source(document="overhaul data", revision="A", page="figure 2")
DATA = PackData(
    model="T2",
    model_name="two-cylinder test engine",
    maker="nobody",
    layout="opposed",
    cylinders=2,
    revision="A",
    label="for a test only",
    areas=(Area(code="cylinders", name="Cylinders", source=MANUAL),),
    lines=(
        Line(line="rod", part_number="T-10", name="rod", area="cylinders", places=("rod 1", "rod 2"), source=FIGURES),
        Line(line="piston-pin", part_number="T-11", name="pin", area="cylinders", places=("rod 1", "rod 2"), source=FIGURES),
    ),
    operations=(
        Operation(
            code="read",
            area="cylinders",
            stage="inspection",
            kind="reading",
            title="Read",
            names=("pin", "bushing"),
            source=MANUAL,
        ),
    ),
    limits=(PIN_ROW, BUSHING_ROW),
    pairings=(Pairing(fit="pin-in-bushing", inner_class="0.002 over", source=MANUAL),),
)


@pytest.fixture
def loader():
    return make_person(Role.MANAGER)


@pytest.fixture
def checker(loader):
    return make_approver(loader)


@pytest.fixture
def draft(loader):
    return add_pack(data=DATA, by=loader, at=AT)


def in_force(draft, checker):
    check_pages(pack=draft, pages=data_of(draft).sources, by=checker, at=AT)
    return approve_pack(pack=draft, by=checker, at=AT)


def test_what_was_loaded_is_what_is_read_back(draft):
    kept = data_of(Pack.objects.get(pk=draft.pk))
    assert replace(kept, limits=()) == replace(DATA, limits=())
    assert [row["row"] for row in kept.limits] == ["pin", "bushing"]
    assert from_plain(to_plain(DATA)) == replace(DATA, limits=())


def test_what_was_read_once_costs_no_query(draft, django_assert_num_queries):
    pack = Pack.objects.get(pk=draft.pk)
    data_of(pack)
    with django_assert_num_queries(0):
        assert data_of(pack).line_by_code["rod"].places == ("rod 1", "rod 2")
        assert [row.row for row in rows_of(pack)] == ["pin", "bushing"]


def test_the_pages_cited_are_each_named_once(draft):
    assert unchecked_pages(draft) == [
        Source(document="TM 5-6115-545-34", revision="1979", page="table 1-2"),
        FIGURES,
        MANUAL,
    ]


def test_it_comes_into_force_when_another_person_has_checked_every_page(draft, checker):
    check_pages(pack=draft, pages=[MANUAL, FIGURES], by=checker, at=AT)
    with pytest.raises(PagesUnchecked, match="1 page is not checked"):
        approve_pack(pack=draft, by=checker, at=AT)
    assert not packs_in_force().exists()
    in_force(draft, checker)
    assert packs_in_force().get() == draft
    assert [fault for fault in verify() if "people." not in fault.sentence] == []


def test_nobody_checks_or_approves_what_they_loaded(draft, loader):
    for act in (
        lambda: check_pages(pack=draft, pages=[MANUAL], by=loader, at=AT),
        lambda: approve_pack(pack=draft, by=loader, at=AT),
    ):
        with pytest.raises(OwnData):
            act()


def test_a_page_that_is_not_cited_cannot_be_checked(draft, checker):
    with pytest.raises(NoSuchPage):
        check_pages(pack=draft, pages=[MANUAL, replace(MANUAL, page="page 99")], by=checker, at=AT)
    assert len(unchecked_pages(draft)) == 3


def test_a_page_checked_twice_counts_once(draft, checker):
    for _ in range(2):
        check_pages(pack=draft, pages=[MANUAL], by=checker, at=AT)
    assert draft.page_checks.count() == 1


def test_a_newer_revision_takes_the_place_of_the_older(draft, loader, checker):
    in_force(draft, checker)
    newer = add_pack(data=replace(DATA, revision="B"), by=loader, at=AT)
    in_force(newer, checker)
    draft.refresh_from_db()
    assert draft.state == State.SUPERSEDED
    assert packs_in_force().get() == newer
    assert EngineModel.objects.count() == 1
    with pytest.raises(NotADraft):
        approve_pack(pack=draft, by=checker, at=AT)


def test_a_revision_is_loaded_once(draft, loader):
    with pytest.raises(RevisionTaken, match="T2 has data of revision A already"):
        add_pack(data=DATA, by=loader, at=AT)
    assert Pack.objects.count() == 1
