"""The judged sheet as a paper."""

from measurements.metrology.conformity import LABEL
from measurements.readings import queries
from measurements.readings.models import Sheet
from shopfloor.documents.kinds import DocumentKind, Subject
from shopfloor.people.queries import of_customers_seen_by

JUDGED_SHEET = "judged-sheet"


def context(subject: str) -> dict[str, object]:
    sheet = queries.with_files(Sheet.objects.select_related("customer", "judged_by")).get(pk=subject)
    return {"sheet": sheet, "lines": list(queries.lines(sheet)), "conformity_label": LABEL}


def describe(subject: str) -> Subject:
    sheet = Sheet.objects.get(pk=subject)
    return Subject(sheet.title, sheet.customer_id)


kind = DocumentKind(
    name=JUDGED_SHEET,
    title="Judged sheet",
    template="readings/judged_sheet_pdf.html",
    context=context,
    describe=describe,
    visible_to=of_customers_seen_by,  # whoever may see the sheet may see its paper
    filename=lambda subject: f"judged-sheet-{subject}.pdf",
)
