"""The sheet for the engine's logbook: what 14 CFR 43.9(a) asks an entry to hold. A release is printed as it was signed."""

from engines.papers.gathering import describe, heading, visit_of
from engines.release.queries import releases_of, serious_of, whole_engine
from engines.release.statement import concessions, data_used, serious_words
from engines.visits.models import Visit
from shopfloor.documents.kinds import DocumentKind
from shopfloor.people.queries import of_customers_seen_by


def context(subject: str) -> dict[str, object]:
    """A constant number of queries."""
    visit = visit_of(subject)
    releases = [(each, each.content) for each in releases_of(visit)]
    return {**heading(visit), "releases": releases, "so_far": None if releases else _so_far(visit)}


def _so_far(visit: Visit) -> dict[str, object]:
    """Of an engine that is not released: what a release would hold of it now."""
    situation = whole_engine(visit)
    serious = [serious_words(each) for each in serious_of(visit)]
    return {"data": data_used(situation), "concessions": concessions(situation), "serious": serious}


kind = DocumentKind(
    name="visit-logbook-sheet",
    title="Logbook sheet",
    template="papers/logbook.html",
    context=context,
    describe=describe,
    visible_to=of_customers_seen_by,
    filename=lambda subject: f"logbook-{subject}.pdf",
)
