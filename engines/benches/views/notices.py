"""A customer says that a notice was seen."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from engines.benches.refusals import REFUSED, status_of
from engines.release.queries import visible_notices
from engines.release.services import see_notice
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.ANSWER_NOTICES)
@require_POST
@receipted
def seen(request: PersonRequest, pk: UUID) -> HttpResponse:
    notice = get_object_or_404(visible_notices(request.user), pk=pk)
    try:
        see_notice(notice=notice, by=request.user, at=timezone.now())
    except REFUSED as refused:
        return render(request, "receipts/refused.html", {"sentence": str(refused)}, status=status_of(refused))
    messages.success(request, "Thank you: the shop knows that you saw it.")
    return redirect("benches:home")
