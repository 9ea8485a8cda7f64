"""What the pages of engine data show."""

from collections import defaultdict
from dataclasses import dataclass

from django.db.models import QuerySet

from engines.catalogue.changes import Entry, entries_of, in_words
from engines.catalogue.data import STAGES, Area, Operation, PackData, RunCheck, RunStep, Source
from engines.catalogue.models import Pack, PageCheck
from engines.catalogue.queries import data_of, packs, wrote_in
from measurements.limits.models import State
from shopfloor.people.models import Person
from shopfloor.people.permissions import Permission, may


@dataclass(frozen=True)
class CitedPage:
    """A page that the data cites, everything the data says of it, and who held the one against the other."""

    number: int
    source: Source
    sayings: list[tuple[str, Entry]]
    check: PageCheck | None


def cited_pages(pack: Pack) -> list[CitedPage]:
    data = data_of(pack)
    sayings: dict[Source, list[tuple[str, Entry]]] = defaultdict(list)
    for kind, entry, source in entries_of(data):
        sayings[source].append((kind, entry))
    checks = {
        Source(document=check.document, revision=check.document_revision, page=check.page): check
        for check in PageCheck.objects.filter(pack=pack).select_related("checked_by")
    }
    return [CitedPage(number, source, sayings[source], checks.get(source)) for number, source in enumerate(data.sources)]


def other_revisions(pack: Pack) -> QuerySet[Pack]:
    return packs().filter(model_id=pack.model_id).exclude(pk=pack.pk)


def route_of(data: PackData) -> list[tuple[Area, list[tuple[Operation, list[tuple[str, str]]]]]]:
    """Each area with its operations, stage by stage, and the details of each in words."""
    in_order = sorted(data.operations, key=lambda each: STAGES.index(each.stage))
    return [
        (
            area,
            [
                (each, [(name, in_words(value)) for name, value in each.details.items()])
                for each in in_order
                if each.area == area.code
            ],
        )
        for area in data.areas
    ]


def schedule_of(data: PackData) -> list[tuple[RunStep, list[RunCheck]]]:
    """Each step of the run with what is looked at while it goes on."""
    return [(step, [check for check in data.run_checks if check.step == step.code]) for step in data.run_steps]


def why_not_checked_by(pack: Pack, person: Person) -> str:
    """Why this person cannot check pages of the pack; blank where they can."""
    if pack.state != State.DRAFT:
        return f"This data is {pack.get_state_display().lower()}; only a draft is checked."
    if wrote_in(pack, person):
        return "You loaded this data or wrote in its route, so another person checks and approves it."
    return "" if may(person, Permission.APPROVE_DATA) else "An inspector checks and approves engine data."


def why_not_approved(pages: list[CitedPage]) -> str:
    """What has to happen before the pack can be approved; blank where nothing has."""
    left = sum(page.check is None for page in pages)
    if not left:
        return ""
    return f"{left} of {len(pages)} pages {'is' if left == 1 else 'are'} not checked yet."
