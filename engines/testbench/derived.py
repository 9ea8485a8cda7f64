"""What is worked out from the readings of a run: ignition drops, oil consumption, power referred to a standard day."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from engines.testbench.channels import (
    AIR_PRESSURE,
    AIR_TEMPERATURE,
    BOTH,
    CORRECTED_POWER,
    DROP_DIFFERENCE,
    DROP_LEFT,
    DROP_RIGHT,
    HUMIDITY,
    LEFT,
    OIL_CONSUMPTION,
    POWER,
    RIGHT,
)
from engines.testbench.quantities import rounded
from measurements.metrology.errors import BadFigure
from measurements.metrology.running.corrected_power import CORRECTIONS, Correction, correct
from measurements.metrology.running.humid_air import vapour_in_hg
from measurements.metrology.running.magnetos import magneto_check
from measurements.metrology.running.oil import consumption, oil_used

POWER_PLACES = 1  # corrected power is rounded to 0.1 hp, a tie to the even digit, before it is held against its limits


@dataclass(frozen=True)
class Figure:
    """A derived value in its unit; `facts` are what it rests on, as texts that stay with the record."""

    channel: str
    value: Fraction
    unit: str
    warning: str = ""
    facts: Mapping[str, str] = field(default_factory=dict)


def ignition_drops(rpm: Mapping[str, Fraction]) -> list[Figure]:
    """From the speed on both magnetos and on each alone. Raises BadFigure."""
    check = magneto_check(rpm[BOTH], rpm[LEFT], rpm[RIGHT])
    warning = (
        "On one magneto alone the speed does not fall: a switch lead may be open and that magneto live. "
        "Stop the engine and look before anybody touches the propeller."
        if check.live_lead_suspected
        else ""
    )
    return [
        Figure(DROP_LEFT, check.left_drop, "rpm", warning),
        Figure(DROP_RIGHT, check.right_drop, "rpm", warning),
        Figure(DROP_DIFFERENCE, check.difference, "rpm"),
    ]


def oil_rate(put_in_qt: Sequence[Fraction], left_qt: Fraction, hours: Fraction) -> Figure:
    """Over the time that the engine turned. Raises BadFigure."""
    used = oil_used(put_in_qt[0], put_in_qt[1:], left_qt)
    return Figure(OIL_CONSUMPTION, consumption(used, hours), "qt/h")


def correction_named(name: str) -> Correction:
    """Raises BadFigure."""
    if name not in CORRECTIONS:
        known = ", ".join(CORRECTIONS)
        raise BadFigure(f"the engine data name the correction “{name}”, and known here are {known}: have the data put right")
    return CORRECTIONS[name]


def power_corrected(read: Mapping[str, Fraction], correction: Correction) -> Figure:
    """From power in hp and the air in °F, inHg and percent. Raises BadFigure, NoAnswer."""
    vapour = vapour_in_hg(read[HUMIDITY], read[AIR_TEMPERATURE])
    result = correct(read[POWER], read[AIR_PRESSURE], vapour, read[AIR_TEMPERATURE], correction)
    facts = {
        "correction": result.name,
        "formula": result.formula,
        "source": correction.source,
        **{name: str(value) for name, value in result.constants.items()},
        "vapour pressure, inHg": str(vapour),
        "factor": str(result.factor),
        "rounded to, hp": f"0.{'1'.zfill(POWER_PLACES)}",
    }
    return Figure(CORRECTED_POWER, rounded(result.power, POWER_PLACES), "hp", facts=facts)
