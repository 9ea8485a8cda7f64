"""The readings of a balanced study: every appraiser reads every part equally often."""

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import MixedDimensions, NothingGiven
from measurements.metrology.figures import Exact, exact

Cell = tuple[Fraction, ...]


@dataclass(frozen=True)
class Study(Checked):
    """Readings in one unit, exact: `readings[appraiser][part][trial]`, at least two of each."""

    readings: tuple[tuple[Cell, ...], ...]

    def __post_init__(self) -> None:
        super().__post_init__()
        cells = self.readings
        if len(cells) < 2 or len(cells[0]) < 2 or len(cells[0][0]) < 2:
            raise NothingGiven("A study needs at least two appraisers, two parts and two trials: plan it anew.")
        if any(len(row) != self.parts or any(len(cell) != self.trials for cell in row) for row in cells):
            raise MixedDimensions("Every appraiser reads every part equally often: take the missing readings.")

    @property
    def appraisers(self) -> int:
        """How many appraisers."""
        return len(self.readings)

    @property
    def parts(self) -> int:
        """How many parts."""
        return len(self.readings[0])

    @property
    def trials(self) -> int:
        """How often each appraiser read each part."""
        return len(self.readings[0][0])

    @property
    def count(self) -> int:
        """How many readings in all."""
        return self.appraisers * self.parts * self.trials


def study(readings: Sequence[Sequence[Sequence[Exact]]]) -> Study:
    """A study from its readings.

    Units: one unit throughout. Shape: appraisers x parts x trials, at least two of each, every cell as long as the first.
    Raises: NothingGiven for fewer than two of anything, MixedDimensions when a reading is missing, BadFigure as `figures.exact`.
    Source: AIAG MSA, crossed study (from memory).
    """
    return Study(tuple(tuple(tuple(exact(value, "a reading") for value in cell) for cell in row) for row in readings))


def study_from_rows(rows: Iterable[tuple[Hashable, Hashable, Exact]]) -> Study:
    """A study from one row for each reading: appraiser, part, value; trials in the order given.

    Units: one unit throughout. Shape: rows in any order of appraisers and parts. Raises: as `study`.
    Source: AIAG MSA, crossed study (from memory).
    """
    cells: dict[Hashable, dict[Hashable, list[Exact]]] = {}
    given = list(rows)
    if any(len(row) != 3 for row in given):
        raise MixedDimensions("A row is an appraiser, a part and a reading: give all three.")
    for appraiser, part, value in given:
        cells.setdefault(appraiser, {}).setdefault(part, []).append(value)
    parts = list(dict.fromkeys(part for row in cells.values() for part in row))
    return study([[row.get(part, []) for part in parts] for row in cells.values()])
