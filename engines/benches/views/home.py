"""The first page of each role, and the gallery of everything that pages are made of."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from engines.benches.gallery import SAMPLE_STRIPS, WORDS, SampleForm
from engines.benches.queries import waiting
from engines.benches.queries.asking import progress_of, waiting_for_answer
from engines.benches.queries.board import benches_of, board_lines, open_visits
from engines.release.queries import to_report, visible_notices, visible_releases
from engines.traveler.queries import waiting_for_acceptance
from engines.vendors.queries import open_orders, overdue_orders
from measurements.readings import queries
from shopfloor.people.models import Person, Role
from shopfloor.people.permissions import Permission, PersonRequest, needs, signed_in
from shopfloor.people.queries import roles_of

SHOWN = 5
PAGE = 25  # the engines promised first


@signed_in
@require_safe
def home(request: PersonRequest) -> HttpResponse:
    roles = roles_of(request.user)
    shown: dict[str, object] = {"newest": queries.visible_sheets(request.user)[:SHOWN]}
    for role, gather in GATHERED.items():
        if role in roles:
            shown |= gather(request.user)
    return render(request, "benches/home.html", shown)


def _manager(person: Person) -> dict[str, object]:
    lines = board_lines(list(open_visits(person)[:PAGE]), timezone.now())
    unanswered = waiting_for_answer(person, timezone.now())
    return {
        "benches": benches_of(lines),
        "late": [line for line in lines if line.late],
        "unanswered": unanswered,
        "overdue": overdue_orders(timezone.localdate())[: waiting.MOST],
    }


def _mechanic(person: Person) -> dict[str, object]:
    return {"work": waiting.can_be_done_now(list(open_visits(person)[:PAGE]))}


def _inspector(person: Person) -> dict[str, object]:
    return {
        "to_accept": waiting_for_acceptance()[: waiting.MOST],
        "to_decide": waiting.to_decide(),
        "to_second": waiting.to_second(),
        "to_settle": waiting.to_settle(),
        "drafts": waiting.drafts(),
        "to_release": waiting.to_release(),
        "serious": [(each, each.hours_left(timezone.now())) for each in to_report()[: waiting.MOST]],
    }


def _storekeeper(person: Person) -> dict[str, object]:
    return {
        "new_parts": waiting.new_parts(),
        "to_renew": waiting.to_renew(list(open_visits(person)[:PAGE])),
        "outside": open_orders()[: waiting.MOST],
        "today": timezone.localdate(),
    }


def _customer(person: Person) -> dict[str, object]:
    """Of own engines only, also where the person has a role in the shop besides."""
    now = timezone.now()
    own = board_lines(list(open_visits(person).filter(customer=person.customer_id)[:PAGE]), now)
    asked = [each for each in waiting_for_answer(person, now) if each.asked.visit.customer_id == person.customer_id]
    return {
        "own": progress_of(person, own),
        "to_answer": asked,
        "notices": visible_notices(person)[:SHOWN],
        "releases": visible_releases(person)[:SHOWN],
    }


GATHERED: dict[Role, Callable[[Person], dict[str, object]]] = {
    Role.MANAGER: _manager,
    Role.MECHANIC: _mechanic,
    Role.INSPECTOR: _inspector,
    Role.STOREKEEPER: _storekeeper,
    Role.CUSTOMER: _customer,
}


@needs(Permission.SEE_GALLERY)
@require_safe
def gallery(request: HttpRequest) -> HttpResponse:
    wrong = SampleForm({"worn": "maybe"})
    shown = {"strips": SAMPLE_STRIPS, "words": WORDS, "form": SampleForm(), "wrong": wrong}
    return render(request, "benches/gallery.html", shown)
