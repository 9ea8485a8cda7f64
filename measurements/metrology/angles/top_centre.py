"""Top dead centre by the positive stop: the piston is stopped on either side, and top centre lies half way between."""

from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact

TURN, HALF_TURN = 360, 180


@dataclass(frozen=True)
class TopCentre(Checked):
    """Reading of the wheel at top centre, 0 to under 360, and how far from it the stop held the piston; degrees."""

    reading: Fraction
    stopped_at: Fraction


def top_centre(stopped_one_way: Exact, stopped_other_way: Exact) -> TopCentre:
    """The wheel's reading at top centre from its readings at the stop, turned against it one way and then the other.

    The stop stands near the top of the cylinder, so top centre is in the middle of the shorter way between the readings; the
    middle of the longer way is bottom centre. Units: degrees, any turn. Raises: BadFigure; NoAnswer when the readings are the
    same or half a turn apart. Source: common practice, no source.
    """
    first = exact(stopped_one_way, "the first reading")
    way = (exact(stopped_other_way, "the second reading") - first) % TURN
    if way in (0, HALF_TURN):
        raise NoAnswer(
            "Both readings are the same or half a turn apart, so either dead centre could be meant: set the stop deeper or"
            " shallower and read again."
        )
    shorter = way if way < HALF_TURN else way - TURN
    return TopCentre((first + shorter / 2) % TURN, abs(shorter) / 2)


def after_top_centre(reading: Exact, at_top_centre: Exact, rises_with_turning: bool = True) -> Fraction:
    """How far the crank stands past top centre: above -180 to 180 degrees, negative before it.

    Units: degrees of crank; both readings of one wheel, whose figures rise or fall as the engine turns. Raises: BadFigure.
    Source: definition.
    """
    way = exact(reading, "the reading") - exact(at_top_centre, "the reading at top centre")
    past = (way if rises_with_turning else -way) % TURN
    return past if past <= HALF_TURN else past - TURN


def ignition_advance(reading: Exact, at_top_centre: Exact, rises_with_turning: bool = True) -> Fraction:
    """How far before top centre the spark comes; negative when it comes after.

    Units: degrees of crank. Raises: as `after_top_centre`. Source: definition.
    """
    return -after_top_centre(reading, at_top_centre, rises_with_turning)


def apart(advances: tuple[Exact, Exact]) -> Fraction:
    """How far the two magnetos are from firing together.

    Units: degrees of crank. Raises: BadFigure. Source: definition.
    """
    if len(advances) != 2:
        raise NothingGiven("Two magnetos are compared: read the advance of both.")
    left, right = advances
    return abs(exact(left, "the left magneto") - exact(right, "the right magneto"))
