"""Stiffness and stretch of a bolt of several diameters, and the share of an outside load that it carries."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive

PI = Fraction("3.14159265358979323846264338327950288420")  # good to its 38th decimal, far beyond any modulus


@dataclass(frozen=True)
class Section(Checked, positive=("length", "area", "modulus")):
    """One length of a bolt: length, area of its cross-section, and modulus of elasticity, in consistent units (in, in², psi)."""

    length: Exact
    area: Exact
    modulus: Exact


def circle_area(diameter: Exact) -> Fraction:
    """Area of a round section.

    Units: the square of the diameter's. Raises: BadFigure for zero and below. Source: geometry.
    """
    return PI / 4 * exact_positive(diameter, "the diameter") ** 2


def tensile_area_inch(diameter: Exact, threads_per_inch: Exact) -> Fraction:
    """Tensile stress area of a unified thread, in².

    Units: in, threads per inch. Raises: BadFigure, NoAnswer where the thread is deeper than the bolt. Source: ASME B1.1 (from
    memory), 0.7854 (d - 0.9743/n)².
    """
    return _threaded(diameter, Fraction("0.9743") / exact_positive(threads_per_inch, "the threads per inch"))


def tensile_area_metric(diameter: Exact, pitch: Exact) -> Fraction:
    """Tensile stress area of a metric thread, mm².

    Units: mm. Raises: as `tensile_area_inch`. Source: ISO 898-1 (from memory), 0.7854 (d - 0.9382 p)².
    """
    return _threaded(diameter, Fraction("0.9382") * exact_positive(pitch, "the pitch"))


def shank_and_thread(diameter: Exact, length: Exact, grip: Exact) -> tuple[Fraction, Fraction]:
    """Length of plain shank, and of thread inside the grip, of a standard inch bolt: threaded for 2d + 1/4, over 6 in 2d + 1/2.

    Units: in. Raises: NoAnswer where the bolt does not reach through the grip or has no thread within it, BadFigure.
    Source: Shigley, *Mechanical Engineering Design*, table 8-7.
    """
    size, whole = exact_positive(diameter, "the diameter"), exact_positive(length, "the length")
    held = exact_positive(grip, "the grip")
    threaded = 2 * size + (Fraction(1, 4) if whole <= 6 else Fraction(1, 2))
    shank = max(whole - threaded, Fraction())
    if held > whole:
        raise NoAnswer("The bolt is shorter than its grip: take a longer one.")
    if shank > held:
        raise NoAnswer("The shank is longer than the grip, so the nut would bottom on it: take a shorter bolt or more washers.")
    return shank, held - shank


def stiffness(sections: Sequence[Section]) -> Fraction:
    """Force for each unit of stretch: sections in series.

    Units: force per length of the sections. Shape: at least one section. Raises: NothingGiven, BadFigure. Source: Hooke's law.
    """
    return 1 / stretch_under(1, sections)


def stretch_under(force: Exact, sections: Sequence[Section]) -> Fraction:
    """How much a bolt lengthens under a force, while elastic.

    Units: the length of the sections. Shape: at least one section. Raises: NothingGiven, BadFigure. Source: Hooke's law.
    """
    if not sections:
        raise NothingGiven("The bolt has no section: give at least one length and diameter.")
    return exact_positive(force, "the force") * sum((_give(section) for section in sections), Fraction())


def bolt_share(bolt_stiffness: Exact, members_stiffness: Exact) -> Fraction:
    """The share of an outside load that the bolt carries while the joint holds together.

    Units: both in one unit; the share has none. Raises: BadFigure for zero and below.
    Source: Shigley, *Mechanical Engineering Design*, section 8-7 (joint constant C).
    """
    bolt = exact_positive(bolt_stiffness, "the stiffness of the bolt")
    return bolt / (bolt + exact_positive(members_stiffness, "the stiffness of the members"))


def bolt_stress(preload: Exact, outside_load: Exact, share: Exact, area: Exact) -> Fraction:
    """Tensile stress of a bolt under preload and its share of an outside load.

    Units: force over the unit of the area. Raises: BadFigure. Source: as `bolt_share`.
    """
    load = exact_positive(preload, "the preload") + exact_not_negative(share, "the share") * exact(
        outside_load, "the outside load"
    )
    return load / exact_positive(area, "the area")


def _threaded(diameter: Exact, depth: Fraction) -> Fraction:
    core = exact_positive(diameter, "the diameter") - depth
    if core <= 0:
        raise NoAnswer("The thread is deeper than the bolt is thick: check the pitch.")
    return PI / 4 * core**2


def _give(section: Section) -> Fraction:
    length, area = exact_positive(section.length, "the length of a section"), exact_positive(section.area, "its area")
    return length / (area * exact_positive(section.modulus, "its modulus"))
