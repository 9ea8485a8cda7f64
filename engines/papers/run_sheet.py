"""The run sheet: every run on the stand with its steps, readings, limits, answers, curves, and how it ended."""

from django.utils import timezone

from engines.papers.gathering import describe, heading, visit_of
from engines.testbench.queries import run_now, runs, schedule_of
from engines.testbench.shown import ALWAYS, cautions_of, shown
from shopfloor.documents.kinds import DocumentKind
from shopfloor.people.queries import of_customers_seen_by


def context(subject: str) -> dict[str, object]:
    """A constant number of queries for each run."""
    visit = visit_of(subject)
    now = timezone.now()
    every = [run_now(each, now) for each in runs().filter(visit=visit).order_by("number")]
    data = schedule_of(visit).data
    cautions = {"always": ALWAYS, "cautions": cautions_of(data)}
    return {**heading(visit), **cautions, "data": data, "runs": [(each.run, each.standing, shown(each)) for each in every]}


kind = DocumentKind(
    name="visit-run-sheet",
    title="Run sheet",
    template="papers/run_sheet.html",
    context=context,
    describe=describe,
    visible_to=of_customers_seen_by,
    filename=lambda subject: f"run-sheet-{subject}.pdf",
)
