"""Acts on what is read and found: each one transaction, with its events on the engine's chain."""

from engines.inspection.services.deciding import carry_out, decide, sign_second
from engines.inspection.services.raising import raise_discrepancy
from engines.inspection.services.reading import Readout, enter_reading, enter_readings

__all__ = [
    "Readout",
    "carry_out",
    "decide",
    "enter_reading",
    "enter_readings",
    "raise_discrepancy",
    "sign_second",
]
