"""The pages of engine data, as the persons in the shop see them."""

from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from engines.catalogue.models import Pack, PageCheck
from engines.catalogue.queries import data_of
from measurements.limits.models import State
from shopfloor.people.models import Role
from tests.making_authorisations import make_approver
from tests.making_packs import make_checked, make_draft, make_pack, page, small_pack
from tests.making_people import make_person
from tests.pack_files import files_of, zip_of

pytestmark = pytest.mark.django_db
FILES = files_of(small_pack())


@pytest.fixture
def loader():
    return make_person(Role.MANAGER)


@pytest.fixture
def inspector(loader):
    return make_approver(loader)


def text(answer):
    return " ".join(answer.content.decode().split())


def key():
    return {"receipt_key": str(uuid4())}


def upload(client, content, name="t2-90.zip"):
    return client.post(reverse("packs:load"), key() | {"pack": SimpleUploadedFile(name, content, "application/zip")}, follow=True)


def at(name, pack, *more):
    return reverse(f"packs:{name}", args=[pack.pk, *more])


def test_from_a_zip_to_data_in_force(client, loader, inspector):
    client.force_login(loader)
    shown = text(upload(client, zip_of(FILES)))
    assert "Kept as a draft" in shown
    assert "You loaded this data, so another person checks and approves it." in shown
    pack = Pack.objects.get()
    client.force_login(inspector)
    numbers = range(len(data_of(pack).sources))
    shown = text(client.post(at("check", pack), key() | {"page": [str(number) for number in numbers]}, follow=True))
    assert "Every page is checked" in shown
    assert f"by {inspector.name}" in shown
    shown = text(client.post(at("approve", pack), key(), follow=True))
    assert "T2-90, data revision 1 is in force." in shown
    assert Pack.objects.get().state == State.APPROVED


def test_every_mistake_stands_in_a_table_and_nothing_is_kept(client, loader):
    client.force_login(loader)
    wrong = FILES | {"limits.csv": FILES["limits.csv"].replace("in,2.1240", "furlong,2.1240").replace("taper", "bend")}
    answer = upload(client, zip_of(wrong))
    shown = text(answer)
    assert answer.status_code == 422
    assert "2 mistakes: nothing was kept" in shown
    assert '<th scope="row">limits.csv:2</th><td>unit “furlong” is not known</td><td>use one of in, ft, mm' in shown
    assert '<th scope="row">limits.csv:10</th><td>quantity “bend” is not known</td>' in shown
    assert not Pack.objects.exists()


@pytest.mark.parametrize(
    ("content", "status", "sentence"),
    [
        (b"no zip", 422, "is not a sound zip file"),
        (b"x" * (5 * 1024 * 1024 + 1), 422, "larger than 5 MB"),
        (b"", 422, "The submitted file is empty"),
        (zip_of(FILES), 409, "T2-90 has data of revision 1 already"),
        (zip_of({"<b>.txt": "x"}), 422, "&lt;b&gt;.txt"),
    ],
)
def test_what_cannot_be_loaded_is_said_on_the_page(client, loader, content, status, sentence):
    make_draft(loader)
    client.force_login(loader)
    answer = upload(client, content)
    assert answer.status_code == status
    assert sentence in text(answer)
    assert Pack.objects.count() == 1


def test_beside_each_page_stands_what_the_data_says_of_it(client, loader, inspector):
    pack = make_draft(loader)
    client.force_login(inspector)
    shown = text(client.get(at("pack", pack)))
    row = next(row for row in shown.split("<tr>") if "page 4-4" in row and 'name="page"' in row)
    for said in ("barrel", "new max: 4.3760", "service max: 0.0170", "piston-in-barrel", "Read barrels and pistons"):
        assert said in row
    assert "main-clearance" not in row


def test_until_all_pages_are_checked_the_button_says_why_it_is_off(client, loader, inspector):
    pack = make_draft(loader)
    client.force_login(inspector)
    shown = text(client.post(at("check", pack), key() | {"page": ["0", "3"]}, follow=True))
    left = len(data_of(pack).sources) - 2
    assert f"{left} of {left + 2} pages are not checked yet." in shown
    assert 'disabled aria-describedby="why-not">Approve' in shown
    assert PageCheck.objects.count() == 2
    refused = client.post(at("approve", pack), key())
    assert (refused.status_code, Pack.objects.get().state) == (409, State.DRAFT)
    assert f"{left} pages are not checked yet" in text(refused)


@pytest.mark.parametrize("numbers", [[], ["99"], ["-1"], ["first"], ["0", "99"]])
def test_a_page_that_the_data_does_not_cite_is_not_checked(client, loader, inspector, numbers):
    pack = make_draft(loader)
    client.force_login(inspector)
    assert client.post(at("check", pack), key() | {"page": numbers}).status_code == 422
    assert not PageCheck.objects.exists()


def test_data_in_force_is_not_checked_again(client, loader, inspector):
    pack = make_pack(loader, inspector)
    client.force_login(inspector)
    assert client.post(at("check", pack), key() | {"page": ["0"]}).status_code == 409
    assert "Approve</button>" not in text(client.get(at("pack", pack)))


def test_two_revisions_stand_side_by_side(client, loader, inspector):
    older = make_pack(loader, inspector)
    limits = tuple(row | {"service_max": "4.3790"} if row["row"] == "barrel" else row for row in small_pack().limits)
    newer = make_draft(loader, small_pack(revision="2", limits=limits))
    client.force_login(inspector)
    assert at("compare", newer, older.pk) in text(client.get(at("pack", newer)))
    shown = text(client.get(at("compare", newer, older.pk)))
    assert "1 change<" in shown
    assert "<td>service max</td><td>4.3800</td><td>4.3790</td>" in shown


def test_data_of_another_model_is_not_compared(client, loader, inspector):
    one, other = make_draft(loader), make_draft(loader, small_pack(model="T4-180"))
    client.force_login(inspector)
    assert client.get(at("compare", one, other.pk)).status_code == 404


def larger(revision, pages):
    """The pack with a directive on each of many more pages."""
    pack = small_pack(revision=revision)
    (first,) = pack.directives
    more = [type(first)(number=f"T2-SB-{n}", title="Look again", source=page(f"9-{n}")) for n in range(2, pages)]
    return small_pack(revision=revision, directives=(first, *more))


def test_a_larger_pack_takes_no_more_queries(client, loader, inspector, django_assert_num_queries):
    small, large = make_checked(loader, inspector), make_checked(loader, inspector, larger("2", 60))
    client.force_login(inspector)
    for pack in (small, large):
        client.get(at("pack", pack))  # what a pack says never changes, so it is read once in a process
        with django_assert_num_queries(7):  # session, person, roles, pack, authorisations, checks, other revisions
            client.get(at("pack", pack))


def test_a_longer_list_takes_no_more_queries(client, loader, inspector, django_assert_num_queries):
    for number in range(8):
        make_draft(loader, small_pack(revision=str(number)))
    client.force_login(inspector)
    with django_assert_num_queries(5):  # session, person, roles, how many, packs
        shown = text(client.get(reverse("packs:packs")))
    assert shown.count("invented data: not for any real engine") == 8
