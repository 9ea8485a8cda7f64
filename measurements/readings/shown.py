from measurements.limits.exact import exact
from measurements.readings.strips import figure_text, strip_of


def words_of(reading):
    row = exact(reading.row)
    a, b = figure_text(reading.minimum, row), figure_text(reading.maximum, row)
    return f"{a if a == b else a + ' to ' + b} {row.unit}"


def strip_for(reading):
    return strip_of(exact(reading.row), reading.minimum, reading.maximum, reading.verdict)
