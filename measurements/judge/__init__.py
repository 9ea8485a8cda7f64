"""A limit table and a sheet of readings, judged from text to text: no database, no environment, no Django."""

from measurements.judge.bad_input import BadInput
from measurements.judge.command import main
from measurements.judge.readings import read_readings
from measurements.judge.sheet import Counts, judge_files
from measurements.judge.table import read_limits

__all__ = ["BadInput", "Counts", "judge_files", "main", "read_limits", "read_readings"]
