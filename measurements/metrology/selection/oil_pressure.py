"""Setting the oil pressure: a spring, washers or turns of a screw, only as the given list permits them."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import MixedDimensions, NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive, ordered
from measurements.metrology.numbers import plain_ratio


@dataclass(frozen=True)
class Setting(Checked, not_negative=("pressure",)):
    """A permitted combination: its name, spring, washers, turns of the screw, and the pressure the list gives it."""

    name: str
    spring: str
    washers: int
    turns: Exact
    pressure: Exact


@dataclass(frozen=True)
class Choice(Checked):
    """A setting and the pressure to expect from it on this engine, in the unit of the reading."""

    setting: Setting
    expected: Fraction


def expected_pressures(reading: Exact, fitted: str, permitted: Sequence[Setting]) -> tuple[Choice, ...]:
    """What every permitted setting should give here: the reading, moved by the difference the list states.

    Units: one pressure. Shape: at least one setting, no name twice, the fitted one among them. Raises: NothingGiven,
    MixedDimensions for a name that stands twice, NoAnswer when the fitted one is not permitted, BadFigure.
    Source: common practice, no source; the list is data of the engine's manufacturer.
    """
    if not permitted:
        raise NothingGiven("No permitted setting is listed: take the list from the manufacturer's current data.")
    listed = {setting.name: exact(setting.pressure, setting.name) for setting in permitted}
    if len(listed) != len(permitted):
        raise MixedDimensions("A setting stands on the list twice: give each its own name.")
    if fitted not in listed:
        raise NoAnswer(f"{fitted} is not a permitted combination: fit one that is, and read the pressure again.")
    read = exact_not_negative(reading, "the oil pressure")
    return tuple(Choice(setting, read + listed[setting.name] - listed[fitted]) for setting in permitted)


def setting_for(reading: Exact, fitted: str, permitted: Sequence[Setting], low: Exact, high: Exact) -> Choice:
    """The setting to try next: the fitted one while it is within limits, else the one nearest their middle; then read again.

    Units: one pressure. Shape: as `expected_pressures`. Raises: as `expected_pressures`; BadLimits; NoAnswer when no permitted
    setting comes within limits. Source: as `expected_pressures`.
    """
    ordered(low, high, "the limits of the oil pressure")
    least, greatest = exact(low, "the least"), exact(high, "the greatest")
    choices = expected_pressures(reading, fitted, permitted)
    within = [choice for choice in choices if least <= choice.expected <= greatest]
    if not within:
        near = min(choices, key=lambda choice: _beyond(choice.expected, least, greatest))
        shown = plain_ratio(near.expected.numerator, near.expected.denominator)
        raise NoAnswer(
            f"No permitted setting brings the pressure within limits; {near.setting.name} comes nearest with {shown}."
            " Look for the cause: clearances, pump, relief valve seat, gauge."
        )
    kept = [choice for choice in within if choice.setting.name == fitted]
    return kept[0] if kept else min(within, key=lambda choice: abs(choice.expected - (least + greatest) / 2))


def turns_for(reading: Exact, wanted: Exact, pressure_per_turn: Exact, turned_in: Exact, most_turns: Exact) -> Fraction:
    """How far to turn the adjusting screw from where it stands: inward positive.

    Units: one pressure; turns from fully out. Raises: BadFigure; NoAnswer when the screw would leave its permitted range.
    Source: arithmetic; the range is data.
    """
    per_turn, now = exact_positive(pressure_per_turn, "the pressure of a turn"), exact_not_negative(turned_in, "the turns in")
    change = (exact_positive(wanted, "the wanted pressure") - exact_not_negative(reading, "the oil pressure")) / per_turn
    if not 0 <= now + change <= exact_positive(most_turns, "the most turns"):
        raise NoAnswer("The screw would leave its permitted range: fit another permitted spring or washer first.")
    return change


def _beyond(value: Fraction, least: Fraction, greatest: Fraction) -> Fraction:
    return max(least - value, value - greatest)
