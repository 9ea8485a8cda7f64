"""Acts on what is read and found: each one transaction, with its events on the engine's chain."""

from engines.inspection.services.asking import Asked, answer, ask_customer, withdraw
from engines.inspection.services.deciding import carry_out, decide, sign_second, take_its_place
from engines.inspection.services.raising import raise_discrepancy
from engines.inspection.services.reading import Readout, enter_reading, enter_readings

__all__ = [
    "Asked",
    "Readout",
    "answer",
    "ask_customer",
    "carry_out",
    "decide",
    "enter_reading",
    "enter_readings",
    "raise_discrepancy",
    "sign_second",
    "take_its_place",
    "withdraw",
]
