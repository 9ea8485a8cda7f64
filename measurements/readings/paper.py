"""The judged sheet as a paper."""

from measurements.readings import queries
from measurements.readings.models import Sheet
from shopfloor.documents.kinds import DocumentKind

JUDGED_SHEET = "judged-sheet"


def context(subject: str) -> dict[str, object]:
    sheet = Sheet.objects.select_related("customer", "judged_by", "limits_file", "readings_file", "verdicts_file").get(pk=subject)
    return {"sheet": sheet, "lines": list(queries.lines(sheet))}


kind = DocumentKind(
    name=JUDGED_SHEET,
    title="Judged sheet",
    template="readings/judged_sheet_pdf.html",
    context=context,
    visible_to=queries.sheet_visible_to,
    filename=lambda subject: f"judged-sheet-{subject}.pdf",
)
