"""The first page of each role, and the gallery of everything that pages are made of."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from engines.benches.gallery import SAMPLE_STRIPS, WORDS, SampleForm
from measurements.readings import queries
from shopfloor.people.permissions import Permission, PersonRequest, needs, signed_in

SHOWN = 5


@signed_in
@require_safe
def home(request: PersonRequest) -> HttpResponse:
    person = request.user
    shown = {
        "newest": queries.visible_sheets(person)[:SHOWN],
        "to_look_at": queries.sheets_to_look_at(person)[:SHOWN],
    }
    return render(request, "benches/home.html", shown)


@needs(Permission.SEE_GALLERY)
@require_safe
def gallery(request: HttpRequest) -> HttpResponse:
    wrong = SampleForm({"worn": "maybe"})
    shown = {"strips": SAMPLE_STRIPS, "words": WORDS, "form": SampleForm(), "wrong": wrong}
    return render(request, "benches/gallery.html", shown)
