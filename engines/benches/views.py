"""The first page of each role, and the gallery of everything that pages are made of."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from engines.benches.gallery import SAMPLE_STRIPS, WORDS, SampleForm
from shopfloor.people.permissions import Permission, needs, signed_in


@signed_in
def home(request: HttpRequest) -> HttpResponse:
    return render(request, "benches/home.html")


@needs(Permission.SEE_GALLERY)
def gallery(request: HttpRequest) -> HttpResponse:
    wrong = SampleForm({"worn": "maybe"})
    shown = {"strips": SAMPLE_STRIPS, "words": WORDS, "form": SampleForm(), "wrong": wrong}
    return render(request, "benches/gallery.html", shown)
