"""The pages on which a route is written: nothing typed is lost, and what is wrong stands at its operation."""

from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from engines.catalogue.models import Pack, RouteDraft
from engines.catalogue.queries import data_of, newest_text
from engines.packs.drafts import operations_of
from engines.packs.services import open_draft, put_operation, remove_operation
from engines.packs.writing import route_of
from shopfloor.people.models import Role
from tests.making_packs import make_pack, small_pack
from tests.making_people import AT, make_person

pytestmark = pytest.mark.django_db
FIELDS = {
    "code": "receive-case",
    "area": "case",
    "stage": "receiving",
    "kind": "sign-off",
    "title": "Identity: papers and plate",
    "words": "Compare.\r\n\r\nThen note.",
    "document": "T2-90 invented manual",
    "revision": "3",
    "page": "page 3-1",
}


@pytest.fixture
def author():
    return make_person(Role.MANAGER)


@pytest.fixture
def pack(author):
    return make_pack(author, make_person(Role.INSPECTOR))


@pytest.fixture
def draft(pack, author, client):
    client.force_login(author)
    return open_draft(pack=pack, revision="2", by=author, at=AT)


def text(answer):
    return " ".join(answer.content.decode().split())


def at(name, draft, *more):
    return reverse(f"packs:{name}", args=[draft.pk, *more])


def post(client, address, **fields):
    return client.post(address, fields | {"receipt_key": str(uuid4())}, follow=True)


def now(draft):
    return operations_of(newest_text(draft).text)


def test_from_the_data_to_a_revision_that_waits(client, pack, author):
    client.force_login(author)
    shown = text(post(client, reverse("packs:open-draft", args=[pack.pk]), revision="2"))
    draft = RouteDraft.objects.get()
    assert "T2-90, route for revision 2" in shown
    assert "Look the crankshaft over" in shown
    assert "Routes being written" in text(client.get(reverse("packs:packs")))
    shown = text(post(client, at("draft-operation", draft, 0), seen="1", **FIELDS))
    assert "Identity: papers and plate" in shown
    assert "Version 2, saved by" in shown
    assert now(draft)[0].words == "Compare.\n\nThen note."
    assert now(draft)[1:] == list(data_of(pack).operations[1:])
    beside = text(client.get(at("draft-beside", draft)))
    assert "<b>Identity: papers and plate</b>" in beside
    assert '<p class="tag">changed</p>' in beside
    shown = text(post(client, at("draft-send", draft), seen="2", revision="2"))
    assert "Sent in. A person who did not write in it now holds it against its pages." in shown
    assert "You loaded this data or wrote in its route" in shown
    made = Pack.objects.get(revision="2")
    compared = text(client.get(reverse("packs:compare", args=[made.pk, pack.pk])))
    assert '<p class="tag">changed</p>' in compared
    assert "<td>Identity and papers</td><td><b>Identity: papers and plate</b></td>" in compared
    assert "Both revisions say the same of everything else." in compared
    assert "Sent in by" in text(client.get(at("draft", draft)))


def test_the_form_shows_what_the_route_says(client, draft):
    shown = text(client.get(at("draft-operation", draft, 4)))
    for said in (
        'value="flange-runout"',
        'value="go-no-go" selected',
        "The flange plate seats all round.",
        "crankshaft</textarea>",
    ):
        assert said in shown
    assert 'value="propeller strike" id="id_reasons_1" checked' in shown
    assert client.get(at("draft-operation", draft, 16)).status_code == 404


def test_a_mistake_is_kept_and_stands_at_its_operation(client, draft):
    shown = text(
        post(client, at("draft-operation", draft, 3), seen="1", **FIELDS | {"code": "odd", "kind": "a look", "after": "nobody"})
    )
    line = next(line for line in shown.split("<li id=") if line.startswith('"operation-3"'))
    assert "kind “a look” is not known; use one of: strip-and-tag" in line
    assert "there is no operation “nobody”" in line
    assert "below: put them right first" in shown
    assert "disabled" in shown.split("Send it in</button>")[0].rsplit("<button", 1)[1]
    form = text(client.get(at("draft-operation", draft, 3)))
    assert '<option value="a look" selected>a look (not known)</option>' in form
    assert "kind “a look” is not known" in form
    assert post(client, at("draft-send", draft), seen="2", revision="2").status_code == 422
    assert Pack.objects.count() == 1


def test_details_that_are_no_yaml_are_not_kept_and_stay_in_the_form(client, draft):
    answer = post(client, at("draft-operation", draft, 0), seen="1", **FIELDS, details="passes: [1\n  - low")
    shown = text(answer)
    assert answer.status_code == 422
    assert "Nothing was kept yet. What you typed stands below" in shown
    assert "not YAML" in shown
    assert "passes: [1" in shown
    assert 'value="Identity: papers and plate"' in shown
    assert newest_text(draft).version == 1


def test_what_fields_would_lose_is_edited_as_text(client, draft, author):
    put_operation(draft=draft, seen=1, place=0, entry="- code: receive-case\n  colour: red", by=author, at=AT)
    shown = text(client.get(at("draft-operation", draft, 0)))
    assert "The operation as YAML" in shown
    assert "colour: red" in shown
    assert "the key “colour” is not known" in shown
    post(client, at("draft-operation", draft, 0), seen="2", entry="- code: receive-case\r\n  title: plain")
    assert now(draft)[0].title == "plain"


def test_added_moved_and_removed_through_the_pages(client, draft):
    was = [each.code for each in now(draft)]
    assert text(client.get(at("draft-more", draft, 16))).count("choose</option>") == 4
    post(client, at("draft-more", draft, 16), seen="1", **FIELDS | {"code": "last"})
    assert [each.code for each in now(draft)] == [*was, "last"]
    post(client, at("draft-move", draft, 16), seen="2", to="15")
    assert [each.code for each in now(draft)] == [*was[:15], "last", was[15]]
    post(client, at("draft-remove", draft, 15), seen="3")
    assert [each.code for each in now(draft)] == was


def test_down_as_a_file_and_up_again_is_the_same_text(client, draft):
    answer = client.get(at("draft-download", draft))
    assert answer["Content-Disposition"] == 'attachment; filename="route.yaml"'
    assert answer.content.decode() == newest_text(draft).text
    post(client, at("draft-text", draft), seen="1", text="", file=SimpleUploadedFile("route.yaml", answer.content))
    assert newest_text(draft).version == 1
    changed = answer.content.replace(b"Identity and papers", b"Identity")
    post(client, at("draft-text", draft), seen="1", text="", file=SimpleUploadedFile("route.yaml", changed))
    assert (newest_text(draft).version, newest_text(draft).text) == (2, changed.decode())


@pytest.mark.parametrize(
    ("content", "sentence"),
    [(b"code: x", "the route is no list"), (b"- code: 'x", "not YAML"), (b"\xff\xfe", "is not UTF-8 text"), (b"", "empty")],
)
def test_a_file_that_is_no_route_is_refused_and_shown(client, draft, content, sentence):
    answer = post(client, at("draft-text", draft), seen="1", text="", file=SimpleUploadedFile("route.yaml", content))
    assert answer.status_code == 422
    assert sentence in text(answer)
    assert newest_text(draft).version == 1


def test_a_text_that_is_no_route_stays_on_the_page(client, draft):
    answer = post(client, at("draft-text", draft), seen="1", text="- code: one\n- &a two")
    assert answer.status_code == 422
    assert "- &amp;a two</textarea>" in answer.content.decode()


class TestTwoPersonsAtOneDraft:
    def test_the_later_one_keeps_what_was_typed_and_learns_what_happened(self, client, draft):
        other = make_person(Role.INSPECTOR)
        remove_operation(draft=draft, seen=1, place=15, by=other, at=AT)
        answer = post(client, at("draft-operation", draft, 0), seen="1", **FIELDS)
        shown = text(answer)
        assert answer.status_code == 409
        assert f"{other.name} saved version 2 after you had opened version 1" in shown
        assert "Identity: papers and plate" in shown
        assert newest_text(draft).version == 2

    def test_the_whole_text_too(self, client, draft, author):
        remove_operation(draft=draft, seen=1, place=15, by=author, at=AT)
        mine = route_of(small_pack().operations[:3])
        answer = post(client, at("draft-text", draft), seen="1", text=mine)
        assert answer.status_code == 409
        assert "Strip and tag the case" in text(answer)
        assert len(now(draft)) == 15

    def test_a_move_says_so_on_the_newest_version(self, client, draft, author):
        remove_operation(draft=draft, seen=1, place=15, by=author, at=AT)
        answer = post(client, at("draft-move", draft, 0), seen="1", to="1")
        assert answer.status_code == 409
        assert "saved version 2 after you had opened version 1" in text(answer)


def test_a_longer_route_takes_no_more_queries(client, author, draft):
    def cost(shown):
        addresses = [at("draft", shown), at("draft-operation", shown, 0), at("draft-beside", shown), at("draft-text", shown)]
        found = []
        for address in addresses:
            client.get(address)
            with CaptureQueriesContext(connection) as queries:
                assert client.get(address).status_code == 200
            found.append(len(queries))
        return found

    before = cost(draft)
    for number in range(3):
        entry = f"- code: more-{number}\n  title: x"
        put_operation(draft=draft, seen=number + 1, place=0, entry=entry, new=True, by=author, at=AT)
    assert cost(draft) == before
