"""What lies within reach of the invented crew: gauges in calibration, the day, and pictures that say they are none."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from io import BytesIO
from typing import Any

from django.core.files.base import ContentFile, File
from PIL import Image, ImageDraw

from measurements.gauges.models import Gauge

Given = dict[str, Any]
BY_ANOTHER = "by_another"  # marks an answer that a second person gives


@dataclass(frozen=True)
class Bench:
    gauges: Sequence[Gauge]
    day: date

    def reaching(self, unit: str, *figures: Decimal | Fraction) -> str:
        """The number of the first gauge that reads these."""
        able = (each for each in self.gauges if each.unit == unit)
        return next(each.number for each in able if all(_reaches(each, figure) for figure in figures))


def picture_of(words: str) -> "File[bytes]":
    """Not a photo, and it says so: a sheet with the words of what a camera would have seen."""
    sheet, kept = Image.new("RGB", (320, 200), "#e8e4da"), BytesIO()
    ImageDraw.Draw(sheet).text((16, 80), f"invented picture:\n{words}", fill="#333")
    sheet.save(kept, "PNG")
    return ContentFile(kept.getvalue(), name="invented.png")


def _reaches(gauge: Gauge, figure: Decimal | Fraction) -> bool:
    return Fraction(gauge.range_min) <= figure <= Fraction(gauge.range_max)
