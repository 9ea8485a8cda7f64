"""Units of the bench and the exact ratios between them.

The inch is 25.4 mm, the pound 0.45359237 kg and standard gravity 9.80665 m/s2 by definition (NIST SP 811, appendix B);
the rest follows by arithmetic. Temperatures stand in `temperature.py`: their scales differ by an offset, not by a ratio only.
"""

from fractions import Fraction

from measurements.metrology.errors import OtherDimension, UnknownUnit
from measurements.metrology.figures import Exact, exact

INCH = Fraction("0.0254")
POUND = Fraction("0.45359237")
POUND_FORCE = POUND * Fraction("9.80665")
NEWTON_METRE = Fraction(1)
POUND_INCH = POUND_FORCE * INCH
POUND_FOOT = POUND_INCH * 12
HORSEPOWER = POUND_FOOT * 550  # 550 ft·lbf a second
METRIC_HORSEPOWER = Fraction("9.80665") * 75  # 75 kgf·m a second
HOUR = 3600
GALLON = INCH**3 * 231

# dimension -> unit -> size in the SI unit of that dimension
DIMENSIONS: dict[str, dict[str, Fraction]] = {
    "length": {
        "in": INCH,
        "ft": INCH * 12,
        "mm": Fraction("0.001"),
        "cm": Fraction("0.01"),
        "m": Fraction(1),
        "um": Fraction("0.000001"),
        "µm": Fraction("0.000001"),
        "μm": Fraction("0.000001"),
    },
    "mass": {"g": Fraction("0.001"), "mg": Fraction("0.000001"), "kg": Fraction(1), "oz": POUND / 16, "lb": POUND},
    "force": {"N": Fraction(1), "kN": Fraction(1000), "lbf": POUND_FORCE, "ozf": POUND_FORCE / 16},
    "torque": {
        **dict.fromkeys(("N·m", "N-m", "N.m", "Nm"), NEWTON_METRE),
        **dict.fromkeys(("lbf·in", "lbf-in", "lbf.in", "in-lbf", "in·lbf"), POUND_INCH),
        **dict.fromkeys(("lbf·ft", "lbf-ft", "lbf.ft", "ft-lbf", "ft·lbf"), POUND_FOOT),
    },
    "pressure": {
        "Pa": Fraction(1),
        "hPa": Fraction(100),
        "kPa": Fraction(1000),
        "MPa": Fraction(1000000),
        "bar": Fraction(100000),
        "psi": POUND_FORCE / INCH**2,
        "inHg": Fraction("13595.1") * Fraction("9.80665") * INCH,
        "atm": Fraction(101325),
    },
    "volume": {
        "cm3": Fraction("0.000001"),
        "mL": Fraction("0.000001"),
        "L": Fraction("0.001"),
        "in3": INCH**3,
        "pt": GALLON / 8,
        "qt": GALLON / 4,
        "gal": GALLON,
    },
    "power": {"W": Fraction(1), "kW": Fraction(1000), "hp": HORSEPOWER, "hp(metric)": METRIC_HORSEPOWER},
    "specific consumption": {
        "g/(kW·h)": Fraction("0.001") / (1000 * HOUR),
        "lb/(hp·h)": POUND / (HORSEPOWER * HOUR),
    },
    "irradiance": {
        "W/m2": Fraction(1),
        "mW/cm2": Fraction(10),
        **dict.fromkeys(("uW/cm2", "µW/cm2", "μW/cm2"), Fraction("0.01")),
    },
    "illuminance": {"lx": Fraction(1), "fc": 1 / (INCH * 12) ** 2},  # a foot-candle is a lumen on a square foot
    "flux density": {"T": Fraction(1), "mT": Fraction("0.001"), "G": Fraction("0.0001")},
    "angle": {"deg": Fraction(1), "arcmin": Fraction(1, 60)},
}
DIMENSION_OF = {unit: dimension for dimension, units in DIMENSIONS.items() for unit in units}


def dimension_of(unit: str) -> str:
    """What the unit measures, such as `length` or `torque`: a name of DIMENSIONS.

    Units: any known. Raises: UnknownUnit for one that is missing or not known. Source: common practice, no source.
    """
    if not unit:
        raise UnknownUnit("the unit is missing: write it beside the figure, such as in or mm")
    if unit not in DIMENSION_OF:
        raise UnknownUnit(f"unit “{unit[:20]}” is not known: use one of {', '.join(DIMENSION_OF)}")
    return DIMENSION_OF[unit]


def ratio(unit: str, wanted: str) -> Fraction:
    """How many `wanted` one `unit` is, exactly: ratio("in", "mm") is 127/5.

    Units: two of one dimension. Raises: UnknownUnit, OtherDimension. Source: NIST SP 811, appendix B.8 (exact definitions).
    """
    dimension, other = dimension_of(unit), dimension_of(wanted)
    if dimension != other:
        raise OtherDimension(f"{unit} measures {dimension} and {wanted} measures {other}: check the unit")
    sizes = DIMENSIONS[dimension]
    return sizes[unit] / sizes[wanted]


def converted(value: Exact, unit: str, wanted: str) -> Fraction:
    """A value of one unit in another, exactly; round what is shown, never what is judged.

    Units: two of one dimension. Raises: UnknownUnit, OtherDimension, BadFigure as `figures.exact`.
    Source: NIST SP 811, appendix B.8 (exact definitions).
    """
    return exact(value) * ratio(unit, wanted)
