"""The first page of each role, and the gallery of everything that pages are made of."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from engines.benches.gallery import SAMPLE_STRIPS, WORDS, SampleForm
from shopfloor.people.permissions import Permission, needs, signed_in


@signed_in
@require_safe
def home(request: HttpRequest) -> HttpResponse:
    return render(request, "benches/home.html")


@needs(Permission.SEE_GALLERY)
@require_safe
def gallery(request: HttpRequest) -> HttpResponse:
    wrong = SampleForm({"worn": "maybe"})
    shown = {"strips": SAMPLE_STRIPS, "words": WORDS, "form": SampleForm(), "wrong": wrong}
    return render(request, "benches/gallery.html", shown)
