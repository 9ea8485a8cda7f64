"""The build record: what the engine was found to be, what was decided, and what it is made of now."""

from engines.catalogue.queries import data_of
from engines.inspection.ends import ends_of, is_open
from engines.inspection.facts import Inspection, inspection_of
from engines.inspection.queries import requests_of
from engines.inspection.standing import Standing
from engines.papers.gathering import describe, heading, visit_of
from engines.visits.queries import additions_of, impact
from measurements.readings.shown import figures
from shopfloor.documents.kinds import DocumentKind
from shopfloor.people.queries import of_customers_seen_by


def context(subject: str) -> dict[str, object]:
    """A constant number of queries."""
    visit = visit_of(subject)
    now = inspection_of(visit)
    return {
        **heading(visit),
        "data": data_of(visit.pack),
        "areas": [(area, _read(now, area.code)) for area in visit.areas.all()],
        "discrepancies": [(each, is_open(now, each)) for each in now.discrepancies],
        "requests": requests_of(visit),
        "ends": [each for each in ends_of(now) if each.end in ("replaced", "exchanged", "reworked") and not each.line.renew],
        "added": [each for each in additions_of(visit) if each.approved],
        "impact": impact(visit),
    }


def _read(now: Inspection, area: str) -> list[dict[str, object]]:
    standings = [now.of(each) for each in now.rows.requirements if each.area == area]
    return [_line(now, each) for each in standings if each.read]


def _line(now: Inspection, standing: Standing) -> dict[str, object]:
    reading = now.reading_of(standing)
    assert reading is not None
    requirement = standing.requirement
    return {
        "part": now.rows.data.line_by_code[requirement.line].name,
        "place": requirement.place,
        "reading": reading,
        "shown": figures(reading),
        "state": standing.state,
    }


kind = DocumentKind(
    name="visit-build-record",
    title="Build record",
    template="papers/build_record.html",
    context=context,
    describe=describe,
    visible_to=of_customers_seen_by,
    filename=lambda subject: f"build-record-{subject}.pdf",
)
