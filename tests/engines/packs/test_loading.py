"""Loading a pack keeps all of it or nothing; approving it takes two persons and tells who asked to know."""

from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from engines.catalogue.errors import NotADraft, OwnData, PagesUnchecked, RevisionTaken
from engines.catalogue.models import EngineModel, Pack
from engines.catalogue.queries import data_of
from engines.catalogue.services import check_pages
from engines.packs import hooks
from engines.packs.reading import PackMistakes
from engines.packs.services import approve, load_pack
from measurements.limits.models import LimitRow, LimitTable, State
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_authorisations import make_approver
from tests.making_packs import make_checked, make_draft, small_pack
from tests.making_people import AT, make_person
from tests.pack_files import files_of, zip_of

pytestmark = pytest.mark.django_db
FILES = files_of(small_pack())
KEPT = (EngineModel, Pack, LimitTable, LimitRow, LedgerEvent)


@pytest.fixture
def loader():
    return make_person(Role.MANAGER, username="loader")


@pytest.fixture
def inspector(loader):
    return make_approver(loader)


@pytest.fixture
def told(monkeypatch):
    """What was told after an approval."""
    heard = []
    monkeypatch.setattr(hooks, "after_approval", [lambda *facts: heard.append(facts)])
    return heard


def load(content, by):
    return load_pack(data=content, name="t2-90.zip", by=by, at=AT)


def test_a_zip_is_kept_as_a_draft_that_says_what_the_files_say(loader):
    pack = load(zip_of(FILES), loader)
    assert (pack.state, pack.revision, pack.loaded_by) == (State.DRAFT, "1", loader)
    assert data_of(Pack.objects.get()) == small_pack()


@pytest.mark.parametrize("file", FILES)
def test_of_a_pack_with_a_mistake_in_any_file_nothing_is_kept(loader, file):
    wrong = FILES | {file: FILES[file].replace("page ", "", 1).replace("T2-90 invented manual", "", 1)}
    with pytest.raises(PackMistakes, match=f"{file}:[0-9]+: document is blank"):
        load(zip_of(wrong), loader)
    assert [kept.objects.count() for kept in KEPT] == [0, 0, 0, 0, 0]


def test_a_revision_is_loaded_once(loader):
    load(zip_of(FILES), loader)
    before = [kept.objects.count() for kept in KEPT]
    with pytest.raises(RevisionTaken, match="Give the changed data a new revision"):
        load(zip_of(FILES), loader)
    assert [kept.objects.count() for kept in KEPT] == before


def test_the_ledger_agrees_with_what_was_loaded_and_approved(inspector):
    loader = make_person(Role.MANAGER)
    approve(pack=make_checked(loader, inspector), by=inspector, at=AT)
    approve(pack=make_checked(loader, inspector, small_pack(revision="2")), by=inspector, at=AT)
    assert [fault for fault in verify() if "people." not in fault.sentence] == []


def test_who_loaded_a_pack_neither_checks_nor_approves_it(inspector):
    pack = make_draft(inspector)
    with pytest.raises(OwnData):
        check_pages(pack=pack, pages=data_of(pack).sources, by=inspector, at=AT)
    with pytest.raises(OwnData):
        approve(pack=pack, by=inspector, at=AT)


def test_one_page_left_holds_the_approval_up(loader, inspector, told):
    pack = make_draft(loader)
    check_pages(pack=pack, pages=data_of(pack).sources[1:], by=inspector, at=AT)
    with pytest.raises(PagesUnchecked, match="1 page is not checked yet"):
        approve(pack=pack, by=inspector, at=AT)
    assert told == []


def test_the_newer_revision_takes_over_and_both_are_told(loader, inspector, told):
    first = approve(pack=make_checked(loader, inspector), by=inspector, at=AT)
    second = approve(pack=make_checked(loader, inspector, small_pack(revision="2")), by=inspector, at=AT)
    assert told == [(None, first, inspector, AT), (first, second, inspector, AT)]
    first.refresh_from_db()
    assert (first.state, second.state) == (State.SUPERSEDED, State.APPROVED)
    with pytest.raises(NotADraft):
        approve(pack=first, by=inspector, at=AT)


def test_when_those_told_refuse_nothing_is_approved(loader, inspector, monkeypatch):
    def refuse(*facts):
        raise RuntimeError("not now")

    pack = make_checked(loader, inspector)
    monkeypatch.setattr(hooks, "after_approval", [refuse])
    with pytest.raises(RuntimeError):
        approve(pack=pack, by=inspector, at=AT)
    assert Pack.objects.get().state == State.DRAFT
    assert not LedgerEvent.objects.filter(kind="pack.approved").exists()


def run(path, by="loader", **streams):
    said = StringIO()
    call_command("load_pack", str(path), "--by", by, stdout=said, **streams)
    return said.getvalue()


def test_the_command_loads_a_folder(loader, tmp_path):
    for name, text in FILES.items():
        (tmp_path / name).write_text(text)
    assert "T2-90, data revision 1 is a draft" in run(tmp_path)
    assert Pack.objects.get().loaded_by == loader


def test_the_command_tells_every_mistake_on_its_own_line(loader, tmp_path):
    packed = tmp_path / "t2-90.zip"
    packed.write_bytes(zip_of(FILES | {"pack.yaml": FILES["pack.yaml"].replace("opposed", "vee").replace('"2"', '"x"', 1)}))
    told = StringIO()
    with pytest.raises(CommandError, match="Nothing was kept; mistakes: 2") as refused:
        run(packed, stderr=told)
    assert refused.value.returncode == 2
    assert told.getvalue().splitlines() == [
        "pack.yaml:4: layout “vee” is not known; use one of: opposed, radial",
        "pack.yaml:5: cylinders “x” is no count; write a whole number from 1 to 36",
    ]


@pytest.mark.parametrize(
    ("by", "sentence"),
    [
        ("nobody", "Nobody signs in as nobody"),
        ("mechanic", "may not load engine data"),
        ("loader", "cannot be read"),
    ],
)
def test_the_command_says_who_and_what_it_cannot_use(loader, tmp_path, by, sentence):
    make_person(Role.MECHANIC, username="mechanic")
    with pytest.raises(CommandError, match=sentence) as refused:
        run(tmp_path / "missing.zip", by)
    assert refused.value.returncode == 2
