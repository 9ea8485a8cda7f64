"""What the ledger holds of a sheet, and the sentence of its event."""

from django.urls import reverse

from measurements.readings.models import Sheet


def content(sheet: Sheet) -> dict[str, object]:
    return {
        "customer": sheet.customer_id,
        "limits_name": sheet.limits_name,
        "readings_name": sheet.readings_name,
        "limits_sha256": sheet.limits_file.sha256,
        "readings_sha256": sheet.readings_file.sha256,
        "verdicts_sha256": sheet.verdicts_file.sha256,
        "warnings": list(sheet.warnings),
        "verdicts": {verdict: str(number) for verdict, number in sheet.counts},
        "judged_by": sheet.judged_by_id,
        "judged_at": sheet.judged_at.isoformat(),
    }


def sentence(event) -> str:  # type: ignore[no-untyped-def]
    counts = event.body["content"]["verdicts"]
    return "A sheet was judged: " + ", ".join(f"{number} {verdict}" for verdict, number in counts.items() if number != "0")


def link(event) -> str:  # type: ignore[no-untyped-def]
    return reverse("readings:sheet", args=[event.body["about"][1]])
