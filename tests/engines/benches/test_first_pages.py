"""The gallery shows every verdict, and the first page answers each role."""

import pytest
from django.utils import timezone

from engines.benches.gallery import SAMPLE_STRIPS, WORDS
from shopfloor.people.models import Person, Role, RoleGrant

pytestmark = pytest.mark.django_db
HEADINGS = {
    Role.MANAGER: "The benches",
    Role.MECHANIC: "What can be done now",
    Role.INSPECTOR: "What waits for you",
    Role.STOREKEEPER: "Parts that are wanted",
    Role.CUSTOMER: "Your engine in the shop",
    Role.AUDITOR: "Follow one part",
}


@pytest.fixture
def sign_in(client):
    def signed_in(*roles):
        person = Person.objects.create(username="someone", name="someone")
        for role in roles:
            RoleGrant.objects.create(person=person, role=role, granted_at=timezone.now())
        client.force_login(person)
        return client

    return signed_in


@pytest.mark.parametrize("role", Role)
def test_each_role_has_its_own_first_page(sign_in, role):
    page = sign_in(role).get("/").content.decode()
    assert [heading for heading in HEADINGS.values() if f">{heading}</h2>" in page] == [HEADINGS[role]]


def test_two_roles_see_both_sections(sign_in):
    page = sign_in(Role.MECHANIC, Role.AUDITOR).get("/").content.decode()
    assert "What can be done now" in page
    assert "Follow one part" in page


def test_without_a_role_the_page_says_whom_to_ask(sign_in):
    assert "Ask a shop manager" in sign_in().get("/").content.decode()


@pytest.mark.parametrize("path", ["/", "/gallery/"])
def test_a_stranger_is_sent_to_sign_in(client, path):
    answer = client.get(path)
    assert answer.status_code == 302
    assert answer.url.startswith("/people/sign-in/")


def test_the_gallery_shows_each_verdict_by_word_and_by_its_own_shape(sign_in):
    page = sign_in(Role.MECHANIC).get("/gallery/").content.decode()
    shapes = {
        word: page.partition(f'<span class="verdict {word.replace(" ", "-")}">')[2].partition("</svg>")[0] for word in WORDS
    }
    assert all(f"</svg>{word}</span>" in page for word in WORDS)
    assert len(set(shapes.values())) == len(WORDS)


def test_the_gallery_draws_a_strip_of_each_verdict():
    assert {sample.verdict for sample in SAMPLE_STRIPS} == set(WORDS)


def test_a_wrong_field_says_so_in_words_tied_to_it(sign_in):
    page = sign_in(Role.MECHANIC).get("/gallery/").content.decode()
    assert 'id="id_bench_error"' in page
    assert "This field is required." in page
    assert 'aria-invalid="true"' in page
