"""What was read: a sheet of many lines judged from files, and a single reading at the bench."""

from measurements.readings.models.reading import Reading
from measurements.readings.models.sheet import Sheet

__all__ = ["Reading", "Sheet"]
