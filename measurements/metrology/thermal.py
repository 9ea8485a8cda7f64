"""Size and temperature: every size is stated at 20 °C, and dissimilar metals change a fit."""

from fractions import Fraction

from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive

REFERENCE_C = 20


def size_at(size_at_20: Exact, coefficient: Exact, temperature_c: Exact) -> Fraction:
    """Size of a part at a temperature, from its size at 20 °C.

    Units: any length; coefficient per kelvin; °C. Raises: BadFigure for a size of zero or below.
    Source: ISO 1 (reference temperature); linear expansion, definition.
    """
    return exact_positive(size_at_20, "the size") * (1 + _growth(coefficient, temperature_c))


def referred_to_20(
    reading: Exact,
    part_coefficient: Exact,
    part_c: Exact,
    gauge_coefficient: Exact = 0,
    gauge_c: Exact = REFERENCE_C,
) -> Fraction:
    """A reading referred to 20 °C, to first order: the part's growth goes off, the gauge's own growth comes on.

    Units: any length; coefficients per kelvin; °C. Raises: BadFigure for a reading of zero or below.
    Source: ISO 1; JCGM 100 H.1 (first-order form of the comparison).
    """
    growth = _growth(part_coefficient, part_c) - _growth(gauge_coefficient, gauge_c)
    return exact_positive(reading, "the reading") * (1 - growth)


def clearance_at(
    bore_at_20: Exact, shaft_at_20: Exact, bore_coefficient: Exact, shaft_coefficient: Exact, temperature_c: Exact
) -> Fraction:
    """Clearance of a fit of two metals at a temperature; negative is tight.

    Units: any length; coefficients per kelvin; °C. Raises: BadFigure. Source: ISO 1; linear expansion of both mates.
    """
    return size_at(bore_at_20, bore_coefficient, temperature_c) - size_at(shaft_at_20, shaft_coefficient, temperature_c)


def clearance_change(
    bore_at_20: Exact,
    shaft_at_20: Exact,
    bore_coefficient: Exact,
    shaft_coefficient: Exact,
    from_c: Exact,
    to_c: Exact,
) -> Fraction:
    """How much looser (positive) or tighter (negative) a fit becomes between two temperatures.

    Units: any length; coefficients per kelvin; °C. Raises: BadFigure. Source: as `clearance_at`.
    """
    after = clearance_at(bore_at_20, shaft_at_20, bore_coefficient, shaft_coefficient, to_c)
    return after - clearance_at(bore_at_20, shaft_at_20, bore_coefficient, shaft_coefficient, from_c)


def warming_for_clearance(gap: Exact, diameter: Exact, coefficient: Exact) -> Fraction:
    """Rise of temperature that opens a bore (or, taken away, shrinks a shaft) by a gap.

    Units: gap and diameter in one length; coefficient per degree, answer in the same degrees.
    Raises: BadFigure for a negative gap, or a diameter or coefficient of zero and below. Source: linear expansion, definition.
    """
    growth_per_degree = exact_positive(coefficient, "the coefficient") * exact_positive(diameter, "the diameter")
    return exact_not_negative(gap, "the gap") / growth_per_degree


def _growth(coefficient: Exact, temperature_c: Exact) -> Fraction:
    rise = exact(temperature_c, "the temperature") - REFERENCE_C
    return exact_not_negative(coefficient, "the coefficient") * rise
