"""The pages on which the next revision of a route is written."""

from collections.abc import Callable
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.forms import Form
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from engines.catalogue.errors import ChangedMeanwhile, DataRefused
from engines.catalogue.models import RouteDraft
from engines.catalogue.queries import data_of, newest_text, packs, route_drafts
from engines.packs import services
from engines.packs.drafts import beside_its_data, draft_page, gave_way_to
from engines.packs.reading import PackMistakes
from engines.packs.route_forms import EntryForm, MoveForm, RevisionForm, RouteOperationForm, SeenForm, SendForm, TextForm
from engines.packs.route_text import cut, fields_of
from engines.packs.views.packs import page as pack_page
from engines.packs.writing import typed_entry
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

Act = Callable[[], object]
Again = Callable[[list[str], int], HttpResponse]


@needs(Permission.LOAD_DATA)
@require_POST
@receipted
def open_it(request: PersonRequest, pk: UUID) -> HttpResponse:
    pack, form = get_object_or_404(packs(), pk=pk), RevisionForm(request.POST)
    if not form.is_valid():
        return pack_page(request, pack, status=422, revision_form=form)
    try:
        opened = services.open_draft(pack=pack, **form.cleaned_data, by=request.user, at=timezone.now())
    except DataRefused as refused:
        form.add_error("revision", str(refused))
        return pack_page(request, pack, status=refused.status, revision_form=form)
    return redirect("packs:draft", opened.pk)


@needs(Permission.SEE_DATA)
@require_safe
def draft(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, _found(pk))


@needs(Permission.SEE_DATA)
@require_safe
def download(request: PersonRequest, pk: UUID) -> HttpResponse:
    answer = HttpResponse(newest_text(_found(pk)).text, content_type="application/yaml; charset=utf-8")
    answer["Content-Disposition"] = 'attachment; filename="route.yaml"'
    return answer


@needs(Permission.SEE_DATA)
@require_safe
def beside(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _found(pk)
    newest = newest_text(shown)
    context = {"draft": shown, "newest": newest, "route": beside_its_data(shown, newest)}
    return render(request, "packs/draft_beside.html", context)


@needs(Permission.LOAD_DATA)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def text(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _found(pk)
    if request.method != "POST":
        newest = newest_text(shown)
        return _text_page(request, shown, TextForm(initial={"text": newest.text, "seen": newest.version}))
    form = TextForm(request.POST, request.FILES)
    if not form.is_valid():
        return _text_page(request, shown, form, 422)
    file, seen = form.cleaned_data["file"], form.cleaned_data["seen"]
    typed = form.cleaned_data["text"] if file is None else file
    return _saved(
        request,
        shown,
        typed,
        lambda: services.save_route(draft=shown, seen=seen, text=typed, by=request.user, at=timezone.now()),
        lambda wrong, status: _text_page(request, shown, TextForm(initial={"text": typed, "seen": seen}), status, wrong),
    )


@needs(Permission.LOAD_DATA)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def operation(request: PersonRequest, pk: UUID, place: int) -> HttpResponse:
    """One operation by fields, or as text where fields would lose some of it."""
    shown = _found(pk)
    newest = newest_text(shown)
    blocks = cut(newest.text).blocks
    if place >= len(blocks):
        raise Http404("The route has no operation at that place.")
    if request.method == "POST":
        return _put(request, shown, place, new=False)
    fields, seen = fields_of(blocks[place]), {"seen": newest.version}
    if fields is None:
        return _operation_page(request, shown, EntryForm(initial={"entry": blocks[place]} | seen), place)
    form = RouteOperationForm(data=data_of(shown.pack), initial=RouteOperationForm.initial_of(fields) | seen)
    return _operation_page(request, shown, form, place)


@needs(Permission.LOAD_DATA)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def more(request: PersonRequest, pk: UUID, place: int) -> HttpResponse:
    """A new operation before the one at that place."""
    shown = _found(pk)
    if request.method == "POST":
        return _put(request, shown, place, new=True)
    form = RouteOperationForm(data=data_of(shown.pack), initial={"seen": newest_text(shown).version})
    return _operation_page(request, shown, form, place, new=True)


@needs(Permission.LOAD_DATA)
@require_POST
@receipted
def move(request: PersonRequest, pk: UUID, place: int) -> HttpResponse:
    return _at_place(request, _found(pk), place, MoveForm(request.POST), services.move_operation)


@needs(Permission.LOAD_DATA)
@require_POST
@receipted
def remove(request: PersonRequest, pk: UUID, place: int) -> HttpResponse:
    return _at_place(request, _found(pk), place, SeenForm(request.POST), services.remove_operation)


@needs(Permission.LOAD_DATA)
@require_POST
@receipted
def send(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown, form = _found(pk), SendForm(request.POST)
    if not form.is_valid():
        return _page(request, shown, 422, send_form=form)
    try:
        pack = services.send_in(draft=shown, **form.cleaned_data, by=request.user, at=timezone.now())
    except PackMistakes as found:
        wrong = f"Mistakes: {len(found.mistakes)}. It was not sent in. Put right what stands at each operation."
        return _page(request, shown, 422, wrong, send_form=form)
    except DataRefused as refused:
        return _page(request, shown, refused.status, str(refused), send_form=form)
    messages.success(request, "Sent in. A person who did not write in it now holds it against its pages.")
    return redirect("packs:pack", pack.pk)


def _at_place(request: PersonRequest, shown: RouteDraft, place: int, form: Form, act: Callable[..., object]) -> HttpResponse:
    if not form.is_valid():
        return _page(request, shown, 422, "Reload the page and choose again.")
    at = timezone.now()
    return _done(request, shown, lambda: act(draft=shown, place=place, **form.cleaned_data, by=request.user, at=at))


def _put(request: PersonRequest, shown: RouteDraft, place: int, *, new: bool) -> HttpResponse:
    by_text = "entry" in request.POST
    form: Any = EntryForm(request.POST) if by_text else RouteOperationForm(request.POST, data=data_of(shown.pack))
    if not form.is_valid():
        return _operation_page(request, shown, form, place, 422, new=new)
    entry = form.cleaned_data["entry"] if by_text else typed_entry(form.given())
    given = {"seen": form.cleaned_data["seen"], "place": place, "entry": entry, "new": new}
    return _saved(
        request,
        shown,
        entry,
        lambda: services.put_operation(draft=shown, **given, by=request.user, at=timezone.now()),
        lambda wrong, status: _operation_page(request, shown, form, place, status, wrong, new=new),
        place,
    )


def _saved(
    request: PersonRequest, shown: RouteDraft, typed: str, act: Act, again: Again, place: int | None = None
) -> HttpResponse:
    """What was typed is kept, or stands in its form again with what is wrong, or beside the news that another was quicker."""
    try:
        act()
    except PackMistakes as found:
        return again([str(each) for each in found.mistakes], 422)
    except ChangedMeanwhile as refused:
        context = {"draft": shown, "typed": typed, "refused": str(refused)}
        return render(request, "packs/stale.html", context, status=refused.status)
    except DataRefused as refused:
        return again([str(refused)], refused.status)
    messages.success(request, "Saved.")
    return redirect(reverse("packs:draft", args=[shown.pk]) + ("" if place is None else f"#operation-{place}"))


def _done(request: PersonRequest, shown: RouteDraft, act: Act) -> HttpResponse:
    try:
        act()
    except DataRefused as refused:
        return _page(request, shown, refused.status, str(refused))
    return redirect("packs:draft", shown.pk)


def _found(pk: UUID) -> RouteDraft:
    return get_object_or_404(route_drafts(), pk=pk)


def _page(
    request: PersonRequest, shown: RouteDraft, status: int = 200, refused: str = "", send_form: SendForm | None = None
) -> HttpResponse:
    page = draft_page(shown, newest_text(shown))
    context = {
        "draft": shown,
        "page": page,
        "refused": refused,
        "gave_way_to": gave_way_to(shown),
        "send_form": send_form or SendForm(initial={"revision": shown.revision, "seen": page.newest.version}),
    }
    return render(request, "packs/draft.html", context, status=status)


def _text_page(
    request: PersonRequest, shown: RouteDraft, form: TextForm, status: int = 200, wrong: list[str] | None = None
) -> HttpResponse:
    return render(request, "packs/draft_text.html", {"draft": shown, "form": form, "wrong": wrong or []}, status=status)


def _operation_page(
    request: PersonRequest,
    shown: RouteDraft,
    form: Form,
    place: int,
    status: int = 200,
    wrong: list[str] | None = None,
    *,
    new: bool = False,
) -> HttpResponse:
    lines = [] if new else draft_page(shown, newest_text(shown)).lines
    mistakes = lines[place].mistakes if place < len(lines) else []
    context = {"draft": shown, "form": form, "wrong": wrong or [], "mistakes": mistakes, "new": new, "place": place}
    return render(request, "packs/draft_operation.html", context, status=status)
