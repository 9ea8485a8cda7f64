"""Published size classes and regrinds of industrial engines, each with its source. No limit here is for an aircraft engine."""

from decimal import Decimal

from measurements.metrology.regrind.classes import Kind, SizeClass, from_standard
from measurements.metrology.regrind.plan import plan
from measurements.metrology.regrind.rules import Policy, Rules
from measurements.metrology.regrind.surface import Surface
from tests.published.check import Check


def D(text):
    return None if text is None else Decimal(text)


def size(name, least, greatest, used_least=None, used_greatest=None, ground=True):
    used = {"used_least": D(used_least), "used_greatest": D(used_greatest)}
    return SizeClass(name=name, least=D(least), greatest=D(greatest), ground=ground, order=f"{name} part", **used)


# US Army technical manuals (public domain), inches. Standard is 0.010 above the 0.010 class, as it is not printed beside it.
RODS = "TM 5-3805-262-34, 4-1, rod journals"
ROD_CLASSES = [
    size("standard", "2.748", "2.749", ground=False),
    size("0.002", "2.746", "2.747", used_greatest="2.748", ground=False),
    size("0.010", "2.738", "2.739"),
    size("0.020", "2.728", "2.729"),
    size("0.030", "2.718", "2.719"),
]
ROD_RULES = Rules(policy=Policy.GROUND_ALIKE, most_out_of_round=D("0.0005"), most_taper=D("0.0005"))

MAINS = "TM 5-3805-262-34, 4-1, main journals"
MAIN_CLASSES = [
    size("standard", "2.998", "2.999", ground=False),
    size("0.002", "2.996", "2.997", used_greatest="2.998", ground=False),
    size("0.010", "2.988", "2.989"),
    size("0.020", "2.978", "2.979"),
    size("0.030", "2.968", "2.969"),
]
MAIN_RULES = Rules(policy=Policy.GROUND_ALIKE, most_out_of_round=D("0.005"))

OTHER_RODS = "TM 10-3930-638-24&P, 4-2, rod journals"
OTHER_CLASSES = [
    size("standard", "2.2480", "2.2490", ground=False),
    size("0.002", "2.2460", "2.2470", ground=False),
    size("0.010", "2.2380", "2.2390"),
    size("0.020", "2.2280", "2.2290"),
    size("0.030", "2.2180", "2.2190"),
]

CHART = "TM 5-4320-300-14, 6-11, bearing size chart"
CHART_INCH = [
    size("standard", "2.499", "2.500", ground=False),
    size("0.002", "2.497", "2.498", ground=False),
    size("0.010", "2.489", "2.490"),
]
CHART_MM = [
    size("standard", "63.475", "63.500", ground=False),
    size("0.0508", "63.424", "63.449", ground=False),
    size("0.254", "63.221", "63.246"),
    size("0.508", "62.967", "62.992"),
    size("0.762", "62.713", "62.738"),
]
MISPRINTED = (size("standard", "2.999", "3.000"), size("0.002", "2.996", "2.998"))  # 76.124 mm beside it is 2.997 in

BORES = "TM 55-1905-219-14-10, 5-20, block bores for oversize liners"
BORE_CLASSES = [
    size("standard", "4.6260", "4.6275", ground=False),
    size("0.001", "4.6270", "4.6285", ground=False),
    size("0.005", "4.631", "4.632", used_greatest="4.6325"),
    size("0.010", "4.636", "4.637", used_greatest="4.6375"),
    size("0.020", "4.646", "4.647", used_greatest="4.6475"),
    size("0.030", "4.656", "4.657", used_greatest="4.6575"),
]
BORE_RULES = Rules(kind=Kind.BORE, most_out_of_round=D("0.002"), most_taper=D("0.002"))


def journal(diameter, name="1", **form):
    return Surface(name=name, least=D(diameter), greatest=D(diameter), **{what: D(text) for what, text in form.items()})


def work(diameter, classes, rules=ROD_RULES, **form):
    return plan([journal(diameter, **form)], classes, rules).works[0]


def target(diameter, classes, rules=ROD_RULES):
    found = work(diameter, classes, rules)
    return found.least, found.greatest


def taken(diameter, classes, rules=ROD_RULES):
    found = work(diameter, classes, rules)
    return f"{found.size_class.name} {'ground' if found.ground else 'as it stands'}"


def outcome(diameter, classes, rules=ROD_RULES, **form):
    return plan([journal(diameter, **form)], classes, rules).outcome


def ground_of_four():
    four = [journal("2.7485", "1"), journal("2.7459", "2"), journal("2.7485", "3"), journal("2.7479", "4")]
    return [one.ground for one in plan(four, ROD_CLASSES, ROD_RULES).works].count(True)


def check(source, quantity, expected, computed, tolerance="exact"):
    return Check(6, source, quantity, expected, computed, tolerance, "read")


CHECKS = [
    check(RODS, "insert at 2.748, the least for standard", "standard as it stands", lambda: taken("2.748", ROD_CLASSES)),
    check(RODS, "insert below 2.748", "0.002 as it stands", lambda: taken("2.7479", ROD_CLASSES)),
    check(RODS, "worn more than 0.002, grind 0.010 to", "2.738 to 2.739", lambda: target("2.7459", ROD_CLASSES)),
    check(RODS, "no longer clean at 0.010, grind 0.020 to", "2.728 to 2.729", lambda: target("2.7375", ROD_CLASSES)),
    check(RODS, "no longer clean at 0.020, grind 0.030 to", "2.718 to 2.719", lambda: target("2.7275", ROD_CLASSES)),
    check(RODS, "journals ground of four when one must be", "4", ground_of_four),
    check(RODS, "taper of 0.0005", "use as it stands", lambda: outcome("2.7485", ROD_CLASSES, taper="0.0005")),
    check(RODS, "taper over 0.0005", "grind", lambda: outcome("2.7485", ROD_CLASSES, taper="0.0006")),
    check(RODS, "out-of-round over 0.0005", "grind", lambda: outcome("2.7485", ROD_CLASSES, out_of_round="0.0006")),
    check(MAINS, "insert below 2.998", "0.002 as it stands", lambda: taken("2.9979", MAIN_CLASSES, MAIN_RULES)),
    check(MAINS, "grind 0.010 to", "2.988 to 2.989", lambda: target("2.9959", MAIN_CLASSES, MAIN_RULES)),
    check(MAINS, "grind 0.020 to", "2.978 to 2.979", lambda: target("2.9870", MAIN_CLASSES, MAIN_RULES)),
    check(MAINS, "grind 0.030 to", "2.968 to 2.969", lambda: target("2.9770", MAIN_CLASSES, MAIN_RULES)),
    check(MAINS, "out-of-round over 0.005", "grind", lambda: outcome("2.9985", MAIN_CLASSES, MAIN_RULES, out_of_round="0.0051")),
    check(OTHER_RODS, "worn more than 0.002, grind 0.010 to", "2.2380 to 2.2390", lambda: target("2.2459", OTHER_CLASSES)),
    check(OTHER_RODS, "grind 0.020 to", "2.2280 to 2.2290", lambda: target("2.2370", OTHER_CLASSES)),
    check(OTHER_RODS, "grind 0.030 to", "2.2180 to 2.2190", lambda: target("2.2279", OTHER_CLASSES)),
    check(CHART, "slight wear, regrinding unnecessary", "0.002 as it stands", lambda: taken("2.4975", CHART_INCH)),
    check(CHART, "rod 0.010 from standard, in", "-0.010 -0.010", lambda: from_standard(CHART_INCH[2], CHART_INCH[0])),
    check(CHART, "rod 0.002 from standard, mm", "-0.0508 -0.0508", lambda: from_standard(CHART_MM[1], CHART_MM[0]), "0.0005"),
    check(CHART, "rod 0.010 from standard, mm", "-0.254 -0.254", lambda: from_standard(CHART_MM[2], CHART_MM[0]), "0.0005"),
    check(CHART, "rod 0.020 from standard, mm", "-0.508 -0.508", lambda: from_standard(CHART_MM[3], CHART_MM[0]), "0.0005"),
    check(CHART, "rod 0.030 from standard, mm", "-0.762 -0.762", lambda: from_standard(CHART_MM[4], CHART_MM[0]), "0.0005"),
    check(CHART, "misprint of main 0.002 seen", "-0.003 -0.002", lambda: from_standard(MISPRINTED[1], MISPRINTED[0])),
    check(BORES, "average bore 4.6280", "0.001 as it stands", lambda: taken("4.6280", BORE_CLASSES, BORE_RULES)),
    check(BORES, "average over 4.6285, bore for 0.005 to", "4.631 to 4.632", lambda: target("4.6286", BORE_CLASSES, BORE_RULES)),
    check(BORES, "used bore of 4.6325 keeps its liner", "0.005 as it stands", lambda: taken("4.6325", BORE_CLASSES, BORE_RULES)),
    check(BORES, "beyond 4.6325, bore for 0.010 to", "4.636 to 4.637", lambda: target("4.6326", BORE_CLASSES, BORE_RULES)),
    check(BORES, "beyond 4.6375, bore for 0.020 to", "4.646 to 4.647", lambda: target("4.6376", BORE_CLASSES, BORE_RULES)),
    check(BORES, "beyond 4.6475, bore for 0.030 to", "4.656 to 4.657", lambda: target("4.6476", BORE_CLASSES, BORE_RULES)),
    check(BORES, "beyond 4.6575", "reject", lambda: outcome("4.6576", BORE_CLASSES, BORE_RULES)),
    check(
        BORES,
        "out-of-round of 0.002",
        "use as it stands",
        lambda: outcome("4.6280", BORE_CLASSES, BORE_RULES, out_of_round="0.002"),
    ),
    check(BORES, "out-of-round over 0.002", "grind", lambda: outcome("4.6280", BORE_CLASSES, BORE_RULES, out_of_round="0.0021")),
]
