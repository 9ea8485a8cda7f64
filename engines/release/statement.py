"""The text of a release: everything that is shown to the signer, printed, and kept with its hash. Plain texts and lists."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from engines.catalogue.data import PackData, Source, source_of
from engines.inspection.answers import refusal_of
from engines.inspection.ends import last_decision, still_stands
from engines.inspection.models import Disposition
from engines.inspection.queries import refused_requests
from engines.inspection.standing import Kind
from engines.release.blockers import Situation
from engines.release.models import Release, SeriousDefect
from engines.visits.models import Visit
from measurements.limits.models import LimitRow
from shopfloor.ledger.canonical import canonical
from shopfloor.people.models import Person

Statement = dict[str, Any]
GOVERNS = (
    "This is not a substitute: the manufacturer's current approved data, the regulations of the country and the judgement of an "
    "appropriately certificated person always govern."
)


@dataclass(frozen=True)
class Given:
    """What the signer fills in. `directives` says of each number how it stands now.

    `data` and `reason` belong to an amendment: the corrected list of data used (None: as the records have it), and why.
    """

    status: str
    description: str
    completed_on: date
    recommendations: str = ""
    directives: Mapping[str, str] = field(default_factory=dict)
    data: tuple[str, ...] | None = None
    reason: str = ""


def statement_of(
    situation: Situation, given: Given, serious: Iterable[SeriousDefect], signer: Person, amends: Release | None = None
) -> Statement:
    visit = situation.now.visit
    engine = visit.engine
    return {
        "engine": f"{engine.model.code} ({engine.model.name}, {engine.model.maker}), serial {engine.item.serial}",
        "label": visit.pack.label,
        "customer": visit.customer.name,
        "visit": str(visit.number),
        "scope": f"{visit.scope}, because of {', '.join(visit.reasons)}",
        "hours_since_new": visit.hours_since_new or "not known",
        "hours_since_overhaul": visit.hours_since_overhaul or "not known",
        "status": given.status,
        "description": given.description,
        "data": list(data_used(situation) if given.data is None else given.data),
        "directives": directives_of(situation.now.rows.data, given.directives),
        "completed_on": given.completed_on.isoformat(),
        "done_by": doers(situation, signer),
        "signer": signer.name,
        "certificate_kind": signer.certificate_kind,
        "certificate_number": signer.certificate_number,
        "concessions": concessions(situation),
        "refused": refused(visit),
        "recommendations": given.recommendations,
        "serious": [serious_words(each) for each in serious],
        "governs": GOVERNS,
        "amends": str(amends.number) if amends else "",
        "reason": given.reason,
    }


def text_of(statement: Statement) -> str:
    return canonical(statement).decode()


def data_used(situation: Situation) -> list[str]:
    """Every document, with its revision, that a signed operation, a reading or a decision of this visit rests on."""
    data, now = situation.now.rows.data, situation.now
    planned = (data.operation_by_code[each.code].source for each in situation.operations if each.signed_at)
    read = (_cited(each.reading.row) for each in now.taken.values())
    cited = {(each.document, each.revision) for each in (*planned, *read)}
    cited |= {(each.document, each.document_revision) for each in _complete(situation)}
    return [
        f"{data.model} engine data, revision {data.revision}",
        *(f"{document}, revision {revision}" for document, revision in sorted(cited)),
    ]


def directives_of(data: PackData, standings: Mapping[str, str]) -> list[str]:
    known = {each.number: each for each in data.directives}
    return [
        f"{number}, {known[number].title} (cited in {known[number].source}): {standings[number]}"
        for number in known
        if number in standings
    ]


def concessions(situation: Situation) -> list[str]:
    """Those in force: not undone by the customer, not followed by another decision, a newer reading or another part."""
    now = situation.now
    deciding = ((found, last_decision(found)) for found in now.discrepancies if still_stands(now, found))
    return [
        f"Discrepancy {found.number}: {made.words} "
        f"({made.document}, revision {made.document_revision}, {made.page}; {made.made_by.name} and {made.second_by.name})"
        for found, made in deciding
        if made and made.kind == Kind.CONCESSION and made.second_by
    ]


def refused(visit: Visit) -> list[str]:
    """Work that the customer refused, by whom and when."""
    return [
        f"Request {each.number}, {each.kind}: {each.words} (refused by {each.answer.answered_by.name} on"
        f" {each.answer.answered_at:%Y-%m-%d}{f': {each.answer.words}' if each.answer.words else ''})"
        for each in refused_requests(visit)
    ]


def doers(situation: Situation, signer: Person) -> list[str]:
    """Who did the work, other than the signer: everybody whose signature stands on an operation, each once."""
    names = {each.signed_by_id: each.signed_by.name for each in situation.operations if each.signed_by}
    return sorted(name for key, name in names.items() if key != signer.pk)


def _complete(situation: Situation) -> list[Disposition]:
    every = ((found, made) for found in situation.now.discrepancies for made in found.made)
    return [made for found, made in every if made.is_complete and refusal_of(found, made) is None]


def _cited(row: LimitRow) -> Source:
    return source_of({"document": row.document, "document_revision": row.document_revision, "page": row.page})


def serious_words(defect: SeriousDefect) -> str:
    found = defect.discrepancy
    words = f"Discrepancy {found.number}: {found.words}"
    due = f"to be reported by {defect.due_at:%Y-%m-%d %H:%M} UTC"
    if defect.reported_at is None:
        return f"{words} ({due}, not reported yet)"
    return f"{words} ({due}; reported to {defect.reported_to} on {defect.reported_at:%Y-%m-%d %H:%M} UTC)"
