"""The next revision of a route: written in versions, checked as the loader does, sent in, approved by somebody else."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from engines.catalogue.errors import (
    ChangedMeanwhile,
    DraftSent,
    NoSuchOperation,
    OwnData,
    RevisionMissing,
    RevisionTaken,
)
from engines.catalogue.models import Pack, RouteDraft, RouteText
from engines.catalogue.queries import data_of, newest_text
from engines.catalogue.services import approve_pack, check_pages
from engines.packs.drafts import beside_its_data, draft_page, gave_way_to, operations_of
from engines.packs.reading import PackMistakes
from engines.packs.services import move_operation, open_draft, put_operation, remove_operation, save_route, send_in
from engines.packs.writing import operation_text
from measurements.limits.models import State
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_authorisations import make_approver
from tests.making_packs import make_draft, make_pack, small_pack
from tests.making_people import AT, make_person

pytestmark = pytest.mark.django_db


@pytest.fixture
def author():
    return make_person(Role.MANAGER)


@pytest.fixture
def inspector():
    return make_person(Role.INSPECTOR)


@pytest.fixture
def pack(author, inspector):
    return make_pack(author, inspector)


@pytest.fixture
def draft(pack, author):
    return open_draft(pack=pack, revision="2", by=author, at=AT)


def codes(draft):
    return [each.code for each in operations_of(newest_text(draft).text)]


def retitled(draft, title, by, *, seen=None, place=0):
    newest = newest_text(draft)
    entry = operation_text(operations_of(newest.text)[place]).replace("title: ", f"title: {title} ", 1)
    return put_operation(draft=draft, seen=seen or newest.version, place=place, entry=entry, by=by, at=AT)


def test_a_draft_begins_with_the_route_as_it_is(draft, pack):
    assert operations_of(newest_text(draft).text) == list(data_of(pack).operations)
    assert draft_page(draft, newest_text(draft)).mistakes == 0
    assert beside_its_data(draft, newest_text(draft)) == []


def test_it_may_begin_from_data_that_are_not_approved(author):
    assert open_draft(pack=make_draft(author), revision="2", by=author, at=AT).pack.state == State.DRAFT


@pytest.mark.parametrize(("revision", "refusal"), [(" ", RevisionMissing), ("9" * 41, RevisionMissing), ("1", RevisionTaken)])
def test_a_revision_is_named_that_is_not_taken(pack, author, revision, refusal):
    with pytest.raises(refusal):
        open_draft(pack=pack, revision=revision, by=author, at=AT)
    assert not RouteDraft.objects.exists()


def test_every_save_is_one_version_and_one_event(draft, author):
    before = LedgerEvent.objects.count()
    retitled(draft, "Anew", author)
    assert [each.version for each in draft.texts.all()] == [1, 2]
    assert LedgerEvent.objects.count() == before + 1
    first = draft.texts.get(version=1)
    save_route(draft=draft, seen=2, text=newest_text(draft).text, by=author, at=AT)
    assert (RouteText.objects.count(), LedgerEvent.objects.count()) == (2, before + 1)
    save_route(draft=draft, seen=2, text=first.text.replace("\n", "\r\n"), by=author, at=AT)
    assert newest_text(draft).text == first.text
    assert [fault for fault in verify() if "catalogue." in fault.sentence] == []


def test_operations_are_added_moved_and_removed(draft, author):
    was = codes(draft)
    more = operation_text(data_of(draft.pack).operations[0]).replace("receive-case", "more")
    put_operation(draft=draft, seen=1, place=1, entry=more, new=True, by=author, at=AT)
    assert codes(draft) == [was[0], "more", *was[1:]]
    move_operation(draft=draft, seen=2, place=1, to=0, by=author, at=AT)
    assert codes(draft) == ["more", *was]
    remove_operation(draft=draft, seen=3, place=0, by=author, at=AT)
    assert codes(draft) == was


@pytest.mark.parametrize("place", [-1, 16, 99])
def test_there_is_nothing_at_a_place_that_is_none(draft, author, place):
    assert len(codes(draft)) == 16
    with pytest.raises(NoSuchOperation):
        remove_operation(draft=draft, seen=1, place=place, by=author, at=AT)
    with pytest.raises(NoSuchOperation):
        move_operation(draft=draft, seen=1, place=0, to=place, by=author, at=AT)
    with pytest.raises(NoSuchOperation):
        put_operation(draft=draft, seen=1, place=place, entry="- code: x", by=author, at=AT)
    if place != 16:
        with pytest.raises(NoSuchOperation):
            put_operation(draft=draft, seen=1, place=place, entry="- code: x", new=True, by=author, at=AT)


@pytest.mark.parametrize("entry", ["", "code: x", "- code: x\n- code: y", "- code: 'x"])
def test_one_operation_is_one_entry(draft, author, entry):
    with pytest.raises(PackMistakes):
        put_operation(draft=draft, seen=1, place=0, entry=entry, by=author, at=AT)
    assert newest_text(draft).version == 1


def test_a_mistake_is_saved_with_the_rest_but_not_sent_in(draft, author):
    put_operation(draft=draft, seen=1, place=0, entry="- code: receive-case\n  kind: a look\n  colour: red", by=author, at=AT)
    page = draft_page(draft, newest_text(draft))
    wrong = [each.wrong for each in page.lines[0].mistakes]
    assert "kind “a look” is not known" in wrong
    assert "the key “colour” is not known" in wrong
    assert "title is blank" in wrong
    with pytest.raises(PackMistakes):
        send_in(draft=draft, seen=2, revision="2", by=author, at=AT)
    assert (Pack.objects.count(), RouteDraft.objects.get().sent_at) == (1, None)


class TestTwoPersonsAtOneDraft:
    def test_the_later_save_of_an_older_version_is_refused(self, draft, author, inspector):
        retitled(draft, "First", author, seen=1)
        with pytest.raises(ChangedMeanwhile, match="saved version 2 after you had opened version 1"):
            retitled(draft, "Second", inspector, seen=1)
        assert "First" in newest_text(draft).text
        assert "Second" not in newest_text(draft).text

    @pytest.mark.parametrize(
        "act",
        [
            lambda draft, by: save_route(draft=draft, seen=1, text="- code: x\n", by=by, at=AT),
            lambda draft, by: move_operation(draft=draft, seen=1, place=0, to=1, by=by, at=AT),
            lambda draft, by: remove_operation(draft=draft, seen=1, place=0, by=by, at=AT),
            lambda draft, by: send_in(draft=draft, seen=1, revision="2", by=by, at=AT),
        ],
    )
    def test_and_so_is_every_other_act_on_it(self, draft, author, inspector, act):
        retitled(draft, "First", author)
        with pytest.raises(ChangedMeanwhile):
            act(draft, inspector)
        assert newest_text(draft).version == 2


class TestSentIn:
    def test_it_is_a_revision_that_waits_and_what_is_approved_stays(self, draft, pack, author):
        remove_operation(draft=draft, seen=1, place=15, by=author, at=AT)
        made = send_in(draft=draft, seen=2, revision="2", by=author, at=AT)
        assert (made.state, made.revision, made.model) == (State.DRAFT, "2", pack.model)
        assert data_of(made).operations == data_of(pack).operations[:-1]
        assert data_of(made).limits == data_of(pack).limits
        assert data_of(made).lines == data_of(pack).lines
        pack.refresh_from_db()
        assert pack.state == State.APPROVED
        assert len(data_of(pack).operations) == 16
        draft.refresh_from_db()
        assert (draft.sent_as, draft.sent_by) == (made, author)
        assert [fault for fault in verify() if "catalogue." in fault.sentence] == []

    def test_nobody_who_wrote_in_it_approves_it(self, draft, author, inspector):
        retitled(draft, "Anew", inspector)
        made = send_in(draft=draft, seen=2, revision="2", by=author, at=AT)
        for person in (author, inspector):
            with pytest.raises(OwnData):
                check_pages(pack=made, pages=data_of(made).sources, by=person, at=AT)
            with pytest.raises(OwnData):
                approve_pack(pack=made, by=person, at=AT)
        second = make_approver(by=author)
        check_pages(pack=made, pages=data_of(made).sources, by=second, at=AT)
        assert approve_pack(pack=made, by=second, at=AT).state == State.APPROVED

    def test_it_is_changed_no_more(self, draft, author):
        send_in(draft=draft, seen=1, revision="2", by=author, at=AT)
        for act in (
            lambda: retitled(draft, "Late", author),
            lambda: remove_operation(draft=draft, seen=1, place=0, by=author, at=AT),
            lambda: send_in(draft=draft, seen=1, revision="3", by=author, at=AT),
        ):
            with pytest.raises(DraftSent):
                act()

    def test_a_revision_taken_meanwhile_is_given_another_name(self, draft, author):
        make_draft(author, small_pack(revision="2"))
        with pytest.raises(RevisionTaken):
            send_in(draft=draft, seen=1, revision="2", by=author, at=AT)
        assert send_in(draft=draft, seen=1, revision="2a", by=author, at=AT).revision == "2a"


def test_data_that_gave_way_meanwhile_are_named(draft, author, inspector):
    assert gave_way_to(draft) == ""
    make_pack(author, inspector, small_pack(revision="7"))
    draft.refresh_from_db()
    assert gave_way_to(RouteDraft.objects.get(pk=draft.pk)) == "7"


def test_a_version_is_found_in_one_query_however_many_there_are(draft, author):
    for number in range(3):
        retitled(draft, f"Turn {number}", author)
    with CaptureQueriesContext(connection) as queries:
        assert newest_text(draft).version == 4
    assert len(queries) == 1
