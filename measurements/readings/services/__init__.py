"""Acts of the room: judging a sheet of files, and keeping single readings with what follows from them."""

from measurements.readings.services.sheets import SheetRefused, Upload, judge_sheet
from measurements.readings.services.taking import take_reading, write

__all__ = ["SheetRefused", "Upload", "judge_sheet", "take_reading", "write"]
