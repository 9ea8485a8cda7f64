"""The judged sheet as a paper."""

from django.db.models import Q

from measurements.metrology.conformity import LABEL
from measurements.readings import queries
from measurements.readings.models import Sheet
from shopfloor.documents.kinds import DocumentKind, Subject
from shopfloor.people.models import Person
from shopfloor.people.queries import acts_for_customer, sees_every_customer

JUDGED_SHEET = "judged-sheet"


def context(subject: str) -> dict[str, object]:
    sheet = Sheet.objects.select_related("customer", "judged_by", "limits_file", "readings_file", "verdicts_file").get(pk=subject)
    return {"sheet": sheet, "lines": list(queries.lines(sheet)), "conformity_label": LABEL}


def describe(subject: str) -> Subject:
    sheet = Sheet.objects.get(pk=subject)
    return Subject(sheet.title, sheet.customer_id)


def visible_to(person: Person) -> Q:
    """Whoever may see the sheet may see its paper."""
    if sees_every_customer(person):
        return Q()
    return Q(customer__isnull=False, customer=person.customer_id) if acts_for_customer(person) else Q(pk__in=[])


kind = DocumentKind(
    name=JUDGED_SHEET,
    title="Judged sheet",
    template="readings/judged_sheet_pdf.html",
    context=context,
    describe=describe,
    visible_to=visible_to,
    filename=lambda subject: f"judged-sheet-{subject}.pdf",
)
