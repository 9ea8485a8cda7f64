"""The sheet for the engine's logbook: what 14 CFR 43.9(a) asks an entry to hold."""

from engines.inspection.facts import inspection_of
from engines.inspection.models import Disposition
from engines.inspection.standing import Kind
from engines.papers.gathering import describe, heading, visit_of
from engines.visits.models import Visit
from shopfloor.documents.kinds import DocumentKind
from shopfloor.people.queries import of_customers_seen_by


def context(subject: str) -> dict[str, object]:
    visit = visit_of(subject)
    now = inspection_of(visit)
    made = [decision for found in now.discrepancies for decision in found.made if decision.is_complete]
    return {
        **heading(visit),
        "concessions": [each for each in made if each.kind == Kind.CONCESSION],
        "documents": _documents(visit, made),
        "release": None,
    }


def _documents(visit: Visit, made: list[Disposition]) -> list[str]:
    """The data that the work rests on, with revisions."""
    cited = {f"{each.document}, revision {each.document_revision}" for each in made}
    return [f"{visit.pack.model.code} engine data, revision {visit.pack.revision}", *sorted(cited)]


kind = DocumentKind(
    name="visit-logbook-sheet",
    title="Logbook sheet",
    template="papers/logbook.html",
    context=context,
    describe=describe,
    visible_to=of_customers_seen_by,
    filename=lambda subject: f"logbook-{subject}.pdf",
)
