"""The pages of a release: what is shown is what is signed, what holds it is explained, a customer sees own engines only."""

import re
from datetime import timedelta

import pytest
from django.conf import settings
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from django.utils.html import escape
from uuid_utils.compat import uuid7

from engines.benches.links import LINKS
from engines.benches.release_forms import ReleaseForm
from engines.inspection.services import decide, raise_discrepancy
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.release.models import Notice, Release, SeriousDefect, Status
from engines.release.services import mark_serious, report_serious, see_notice
from engines.traveler.models import Authorisation
from engines.traveler.services import end_authorisation
from engines.visits.models import Visit
from shopfloor.ledger.kinds import link_of, sentence_of
from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.models import Role
from tests.making_people import PASSWORD, make_customer, make_person
from tests.making_releases import ReleasingShop

FORMS = [*(settings.BASE_DIR / "engines").rglob("*forms*.py"), settings.BASE_DIR / "engines/release/models.py"]
PAGES = list((settings.BASE_DIR / "templates").rglob("*.html"))
NEVER = re.compile(r"re-?built|rebuild|zero[ -]?time", re.IGNORECASE)


@pytest.fixture
def shop(db):
    return ReleasingShop()


@pytest.fixture
def visit(shop):
    return shop.to_release()


def filled(**changes):
    today = timezone.localdate().isoformat()
    given = {"status": "overhauled", "description": "Overhauled & run.\r\nSee the build record.", "completed_on": today}
    return given | {"recommendations": "Plugs at 50 hours", "directive_0": "complied with at this visit"} | changes


def sent(page):
    """What the form of the preview sends when the password is typed."""
    fields = re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', page)
    return {name: value.replace("&amp;", "&") for name, value in fields} | {"receipt_key": str(uuid7())}


def test_no_page_and_no_form_offers_what_a_shop_may_not_say():
    assert len(FORMS) > 3
    assert len(PAGES) > 80
    assert [path.name for path in (*FORMS, *PAGES) if NEVER.search(path.read_text())] == []
    assert NEVER.search("<option>Rebuilt</option> <b>zero-time</b>")


def test_there_are_three_words_for_it_and_none_is_chosen_for_the_signer():
    assert set(Status.values) == {"overhauled", "repaired", "inspected"}
    page = str(ReleaseForm(directives=(), received={}))
    assert all(f'value="{word}"' in page for word in Status.values)
    assert "checked" not in page


def test_what_is_shown_is_what_is_signed(client, shop, visit):
    client.force_login(shop.inspector)
    assert reverse("benches:release", args=[visit.pk]) in client.get("/").content.decode()
    area = client.get(reverse("benches:area", args=[shop.area(visit, "engine").pk])).content.decode()
    assert reverse("benches:release", args=[visit.pk]) in area
    page = client.get(reverse("benches:release", args=[visit.pk])).content.decode()
    assert "Show what I would sign" in page
    assert "your own judgement as an appropriately certificated person" in page
    preview = client.post(reverse("benches:preview-release", args=[visit.pk]), filled())
    assert preview.status_code == 200
    assert not Release.objects.exists()
    wrong = client.post(reverse("benches:sign-release", args=[visit.pk]), sent(preview.content.decode()) | {"password": "no"})
    assert wrong.status_code == 403
    assert "What you sign" in wrong.content.decode()
    given = sent(preview.content.decode()) | {"password": PASSWORD}
    altered = client.post(reverse("benches:sign-release", args=[visit.pk]), given | {"recommendations": "none"})
    assert altered.status_code == 409
    assert "Something changed since this text was shown" in altered.content.decode()
    answer = client.post(reverse("benches:sign-release", args=[visit.pk]), given | {"receipt_key": str(uuid7())})
    release = Release.objects.get()
    assert answer.url == reverse("benches:released", args=[release.pk])
    for page in (preview.content.decode(), client.get(answer.url).content.decode()):
        for text in texts_of(release.content):
            assert escape(text).replace("\n", "<br>") in page, text
    assert client.get(reverse("benches:release", args=[visit.pk])).url == answer.url
    assert f"Release {release.number}" in client.get(reverse("benches:visit", args=[visit.pk])).content.decode()


def texts_of(statement):
    return [text for value in statement.values() for text in (value if isinstance(value, list) else [value])]


def test_what_holds_it_up_is_explained_with_links(client, shop):
    visit = shop.to_release(stop="test")
    client.force_login(shop.inspector)
    page = client.get(reverse("benches:release", args=[visit.pk])).content.decode()
    for words in ("Whole engine stands in test", reverse("benches:area", args=[shop.area(visit, "engine").pk])):
        assert words in page, words
    assert "Show what I would sign" not in page
    answer = client.post(reverse("benches:preview-release", args=[visit.pk]), filled())
    assert answer.status_code == 409
    assert "What you sign" not in answer.content.decode()


def test_whoever_may_not_sign_is_told_whom_to_ask(client, shop, visit):
    client.force_login(shop.second)
    page = client.get(reverse("benches:release", args=[visit.pk])).content.decode()
    assert "A shop manager grants it on the page Authorisations" in page
    assert client.post(reverse("benches:preview-release", args=[visit.pk]), filled()).status_code == 403
    assert "Release this engine" in client.get(reverse("benches:visit", args=[visit.pk])).content.decode()


def test_an_amendment_is_shown_signed_and_told(client, shop, visit):
    first = shop.release(visit)
    client.force_login(shop.inspector)
    page = client.get(reverse("benches:amend", args=[first.pk])).content.decode()
    assert "T2-90 invented route, revision 3" in page
    changes = {"documents": "T2-90 engine data, revision 2\r\nLetter 7, revision A", "reason": "Letter 7 was left out"}
    given = filled(**changes, completed_on=first.completed_on.isoformat())
    preview = client.post(reverse("benches:preview-amendment", args=[first.pk]), given).content.decode()
    assert "Letter 7, revision A" in preview
    post = {**given, **sent(preview), **changes, "password": PASSWORD}
    answer = client.post(reverse("benches:sign-amendment", args=[first.pk]), post)
    second = Release.objects.get(amends=first)
    assert answer.url == reverse("benches:released", args=[second.pk])
    shown = client.get(answer.url).content.decode()
    assert shown.count('class="plate struck"') == 1
    assert "Release 2 took its place:</b> Letter 7 was left out" in shown
    again = client.post(reverse("benches:sign-amendment", args=[first.pk]), post | {"receipt_key": str(uuid7())})
    assert again.status_code == 409
    customer = make_person(Role.CUSTOMER, customer=visit.customer)
    client.force_login(customer)
    assert "Letter 7 was left out" in client.get("/").content.decode()
    seen = reverse("benches:notice-seen", args=[Notice.objects.get().pk])
    client.post(seen, {"receipt_key": str(uuid7())})
    assert Notice.objects.get().seen_by == customer
    home = client.post(seen, {"receipt_key": str(uuid7())}, follow=True).content.decode()
    assert "This notice was seen already" in home
    assert "I have seen it" not in home
    client.force_login(make_person(Role.CUSTOMER, customer=make_customer()))
    assert client.get(answer.url).status_code == 404
    assert "Letter 7" not in client.get("/").content.decode()


def test_the_hours_left_stand_before_the_inspector_and_on_the_release(client, shop, visit):
    at = timezone.now() - timedelta(hours=90)
    found = raise_discrepancy(visit=visit, area="case", words="a cracked crank", by=shop.mechanic, at=at)
    mark_serious(discrepancy=found, by=shop.inspector, at=at)
    client.force_login(shop.inspector)
    for address in ("/", reverse("benches:release", args=[visit.pk]), reverse("benches:discrepancy", args=[found.pk])):
        assert "5 hours left" in client.get(address).content.decode()
    client.post(reverse("benches:report-serious", args=[found.pk]), {"reported_to": "the authority", "receipt_key": uuid7()})
    assert SeriousDefect.objects.get().reported_to == "the authority"
    assert "hours left" not in client.get("/").content.decode()


def test_the_manager_keeps_the_roster(client, shop):
    client.force_login(shop.manager)
    page = client.get(reverse("benches:roster")).content.decode()
    assert f'<option value="{shop.manager.pk}">' not in page
    today = timezone.localdate()
    given = {"person": shop.second.pk, "what": "release", "covers": ["T2-90"], "valid_from": today, "training": "a course"}
    own = client.post(reverse("benches:authorise"), given | {"person": shop.manager.pk, "receipt_key": uuid7()})
    assert own.status_code == 422
    backwards = given | {"valid_until": today - timedelta(days=1), "receipt_key": uuid7()}
    assert "ends before it begins" in client.post(reverse("benches:authorise"), backwards).content.decode()
    assert client.post(reverse("benches:authorise"), given | {"receipt_key": uuid7()}).status_code == 302
    granted = Authorisation.objects.get(person=shop.second, what="release")
    assert (granted.covers, granted.granted_by) == (["T2-90"], shop.manager)
    client.force_login(make_person(Role.AUDITOR))
    assert "a course" in client.get(reverse("benches:roster")).content.decode()
    client.force_login(shop.manager)
    client.post(reverse("benches:end-authorisation", args=[granted.pk]), {"receipt_key": uuid7()})
    assert Authorisation.objects.get(pk=granted.pk).ended_by == shop.manager


def test_each_event_leads_to_its_page(client, shop, visit):
    found = raise_discrepancy(visit=visit, area="case", words="a crack", by=shop.mechanic, at=shop.later())
    data = Data("scheme", "C", "2")
    decide(discrepancy=found, kind=Kind.ACCEPT, data=data, words="allowed", by=shop.inspector, at=shop.later())
    marked = mark_serious(discrepancy=found, by=shop.inspector, at=shop.later())
    report_serious(defect=marked, reported_to="the authority", by=shop.inspector, at=shop.later())
    shop.amend(shop.release(visit))
    see_notice(notice=Notice.objects.get(), by=make_person(Role.CUSTOMER, customer=visit.customer), at=shop.later())
    end_authorisation(authorisation=shop.authorised, by=shop.manager, at=shop.later())
    told = {event.kind: event for event in LedgerEvent.objects.all()}
    mine = [kind for kind in LINKS if kind.startswith(("release.", "notice.", "serious-defect.", "authorisation."))]
    client.force_login(shop.manager)
    for kind in (*mine, "visit.closed", "tray.emptied"):
        assert client.get(link_of(told[kind])).status_code == 200, kind
        assert "{" not in sentence_of(told[kind])
    assert len(mine) == 8


def test_pages_cost_the_same_however_much_was_released(client, shop, visit):
    other = shop.to_release()
    first = shop.release(visit)
    raise_discrepancy(visit=other, area="case", words="a scratch", by=shop.mechanic, at=shop.later())
    addresses = [
        reverse("benches:releases"),
        reverse("benches:roster"),
        reverse("benches:release", args=[other.pk]),
        reverse("benches:amend", args=[first.pk]),
        "/",
    ]

    def costs():
        found = []
        for address in addresses:
            client.force_login(shop.manager if "authorisations" in address else shop.inspector)
            client.get(address)
            with CaptureQueriesContext(connection) as queries:
                assert client.get(address).status_code == 200
            found.append(len(queries))
        return found

    before = costs()
    fields = {field.attname: getattr(first, field.attname) for field in Release._meta.concrete_fields}
    keys = [uuid7() for _ in range(20)]
    stays = [each.pk for each in copies_of(visit, 20)]
    Release.objects.bulk_create(
        Release(**fields | {"id": key, "number": 10 + index, "visit_id": stays[index]}) for index, key in enumerate(keys)
    )
    for _ in range(5):
        shop.authorise(shop.second)
    for words in ("a crack", "a leak", "a nick"):
        found = raise_discrepancy(visit=other, area="case", words=words, by=shop.mechanic, at=shop.later())
        mark_serious(discrepancy=found, by=shop.inspector, at=shop.later())
    assert costs() == before
    assert max(before) < 40


def copies_of(visit, count):
    visit = Visit.objects.get(pk=visit.pk)
    fields = {field.attname: getattr(visit, field.attname) for field in Visit._meta.concrete_fields}
    return Visit.objects.bulk_create(Visit(**fields | {"id": uuid7(), "number": 100 + index}) for index in range(count))
