"""Published figures on running an engine: the standard atmosphere, humid air, corrected power, oil, magnetos."""

from decimal import Decimal as D
from fractions import Fraction

from measurements.metrology.running.atmosphere import geopotential, pressure_altitude, standard_air, standard_air_at_geometric
from measurements.metrology.running.corrected_power import CORRECTIONS, correct, factor
from measurements.metrology.running.humid_air import density, saturation_pressure, vapour_in_hg, vapour_pressure
from measurements.metrology.running.oil import greatest_consumption
from measurements.metrology.running.torque import power_of, torque_of
from measurements.metrology.units import ratio
from tests.published.check import Check

STANDARD = "ISO 2533 / ICAO standard atmosphere"
LINE = "IAPWS-97 saturation line"
VERIFICATION = "IAPWS-IF97 release, table 35 (program verification)"
MOIST = "humid-air reference libraries, 30 °C, 60 %, 101325 Pa"
CLASSIC = "classic correction, worked days of a public web discussion"
POWER = "horsepower by definition"
J1349 = "SAE J1349 June 1990, formula quoted in public"
CLASSIC_520, CLASSIC_519 = CORRECTIONS["classic 460/520"], CORRECTIONS["classic 460/519"]
J1349_1990, ISO_1585 = CORRECTIONS["SAE J1349 June 1990"], CORRECTIONS["ISO 1585 spark ignition"]
AMBIANCE = "computed with ambiance 1.3.1"


def on_the_day(correction, air_f, humidity, barometer):
    return factor(D(barometer), vapour_in_hg(D(humidity), D(air_f)), D(air_f), correction)


def inches(feet):
    return standard_air(ratio("ft", "m") * feet).pressure_pa / ratio("inHg", "Pa")


def at_geometric(height):
    air = standard_air_at_geometric(height)
    return air.temperature_k, air.pressure_pa


CHECKS = [
    Check(12, STANDARD, "T and p at 1000 m geometric", "281.651, 89876.28", lambda: at_geometric(1000), "0.005", AMBIANCE),
    Check(12, STANDARD, "T and p at 1524 m geometric", "278.246, 84311.05", lambda: at_geometric(1524), "0.005", AMBIANCE),
    Check(12, STANDARD, "T and p at 3048 m geometric", "268.347, 69694.60", lambda: at_geometric(3048), "0.005", AMBIANCE),
    Check(12, STANDARD, "T and p at 11000 m geometric", "216.774, 22699.94", lambda: at_geometric(11000), "0.005", AMBIANCE),
    Check(12, STANDARD, "inHg at 5000 ft geopotential", "24.895921", lambda: inches(5000), "5e-7", "computed by formula"),
    Check(12, STANDARD, "inHg at 10000 ft geopotential", "20.576977", lambda: inches(10000), "5e-7", "computed by formula"),
    Check(12, STANDARD, "height of 69681.6416 Pa, m", "3048.0000", lambda: pressure_altitude(69681.6416), "5e-4", AMBIANCE),
    Check(12, STANDARD, "density at sea level, kg/m3", "1.225", lambda: standard_air(0).density, "5e-6", "from memory"),
    Check(12, STANDARD, "geopotential of 10000 m, m", "9984", lambda: geopotential(10000), "0.5", "from memory"),
    *(
        Check(
            12, LINE, f"Pa at {celsius} °C", printed, lambda celsius=celsius: saturation_pressure(celsius), allowed, "iapws 1.5.5"
        )
        for celsius, printed, allowed in [
            (10, "1228.184", "0.0005"),
            (25, "3169.747", "0.0005"),
            (40, "7384.427", "0.0005"),
            (100, "101417.98", "0.005"),
        ]
    ),
    *(
        Check(
            12,
            VERIFICATION,
            f"MPa at {kelvin} K",
            printed,
            lambda kelvin=kelvin: saturation_pressure(kelvin - 273.15) / 1e6,
            allowed,
            "from memory",
        )
        for kelvin, printed, allowed in [
            (300, "0.00353658941", "5e-12"),
            (500, "2.63889776", "5e-9"),
            (600, "12.3443146", "5e-8"),
        ]
    ),
    Check(12, MOIST, "vapour pressure, Pa (psychrolib)", "2547.618", lambda: vapour_pressure(60, 30), "0.5", "psychrolib 2.5.0"),
    Check(12, MOIST, "density, kg/m3 (psychrolib)", "1.153362", lambda: density(101325, 30, 60), "0.0005", "psychrolib 2.5.0"),
    Check(12, MOIST, "density, kg/m3 (CoolProp)", "1.153722", lambda: density(101325, 30, 60), "0.0058", "tolerance 0.5 percent"),
    Check(12, MOIST, "vapour at 68 °F, inHg (psychrolib)", "0.690648", lambda: vapour_in_hg(100, 68), "2e-4", "psychrolib 2.5.0"),
    Check(
        12, CLASSIC, "85 °F, 85 %, 28.85 inHg", "1.10112", lambda: on_the_day(CLASSIC_520, 85, 85, "28.85"), "1e-5", "computed"
    ),
    Check(
        12, CLASSIC, "55 °F, 35 %, 30.10 inHg", "0.99427", lambda: on_the_day(CLASSIC_520, 55, 35, "30.10"), "1e-5", "computed"
    ),
    Check(12, CLASSIC, "the same as printed", "0.994", lambda: on_the_day(CLASSIC_520, 55, 35, "30.10"), "5e-4", "read"),
    *(
        Check(
            12,
            CLASSIC,
            f"{power} hp, B {barometer}, e {vapour}, {air} °F, over 519",
            printed,
            lambda given=(power, barometer, vapour, air): correct(*map(D, given), CLASSIC_519).power,
            "5e-6",
            "computed",
        )
        for power, barometer, vapour, air, printed in [
            ("160", "29.10", ".50", "85", "171.52606"),
            ("180", "28.50", ".7", "90", "199.42838"),
            ("200", "29.92", "0", "59", "200.00000"),
        ]
    ),
    Check(12, J1349, "85 °F, 85 %, 28.85 inHg", "1.06932", lambda: on_the_day(J1349_1990, 85, 85, "28.85"), "1e-3", "computed"),
    Check(12, J1349, "55 °F, 35 %, 30.10 inHg", "0.94809", lambda: on_the_day(J1349_1990, 55, 35, "30.10"), "1e-3", "computed"),
    Check(
        12,
        "ISO 1585 reference conditions",
        "dry 99 kPa and 25 °C",
        "1",
        lambda: factor(99 * ratio("kPa", "inHg"), 0, D(77), ISO_1585),
        note="from memory",
    ),
    Check(
        12,
        "oil allowance by power, common practice",
        "qt/h of 180 hp at 0.006 lb/(hp h), 7.4 lb/gal",
        "0.58",
        lambda: greatest_consumption(180, D("0.006"), Fraction("7.4")),
        "0.005",
        "common practice, no source",
    ),
    Check(12, POWER, "180 hp at 2700 rpm, lbf ft", "350.140875", lambda: torque_of(180, 2700), "5e-7", "computed"),
    Check(12, POWER, "rpm for 1 hp at 1 lbf ft", "5252.113122", lambda: 1 / power_of(1, 1), "5e-7", "computed"),
]
