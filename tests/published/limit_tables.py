"""Figures from printed limit tables of industrial engines, each with its source. No limit here is for an aircraft engine."""

# US Army TM 5-6115-545-34, table 1-2 (public domain), inches.
PISTON_BORE = ("1.5014", "1.5016")
PIN = ("1.5011", "1.5013")
PRINTED_PIN_IN_PISTON = ("0.0001", "0.0005")
BUSHING_BORE = ("1.5027", "1.5032")
PRINTED_PIN_IN_BUSHING = ("0.0014", "0.0021")
BUSHING_CLEARANCE_MAXIMUM = "0.0025"

# US Army TM 5-4320-300-14, 6-11 (public domain): journal for bearing size, least and greatest, inch and millimetre.
# 2.996 beside 76.124 is a misprint of the source.
REGRIND_JOURNALS = {
    "rod standard": ("2.499", "2.500", "63.475", "63.500"),
    "rod 0.002": ("2.497", "2.498", "63.424", "63.449"),
    "rod 0.010": ("2.489", "2.490", "63.221", "63.246"),
    "rod 0.020": ("2.479", "2.480", "62.967", "62.992"),
    "rod 0.030": ("2.469", "2.470", "62.713", "62.738"),
    "main standard": ("2.999", "3.000", "76.175", "76.200"),
    "main 0.002": ("2.996", "2.998", "76.124", "76.149"),
    "main 0.010": ("2.989", "2.990", "75.921", "75.946"),
    "main 0.020": ("2.979", "2.980", "75.667", "75.692"),
    "main 0.030": ("2.969", "2.970", "75.413", "75.438"),
}
MISPRINTED_JOURNAL = "main 0.002"

# US Army TM 9-2815-225-34P, appendix F (public domain), inches: new least, new greatest, wear limit.
WEAR_LIMITS = {
    "camshaft bushing inside": ("2.4983", "2.5013", "2.5023"),
    "bushing bore": ("2.6245", "2.6255", "2.6265"),
    "cylinder liner inside": ("5.4995", "5.5010", "5.5050"),
    "main bearing bore": ("4.7485", "4.7500", "4.7505"),
    "rod journal": ("3.1235", "3.1250", "3.1220"),
    "main journal": ("4.4985", "4.5000", "4.4975"),
    "thrust surface to counterweight": ("3.001", "3.003", "3.006"),
}

# ASTM E29, rounding method = half to even (computed with Python's decimal): typed, last decimals kept, expected.
E29_ROUNDING = [
    ("1.2345", 3, "1.234"),
    ("1.2355", 3, "1.236"),
    ("5.1265", 3, "5.126"),
    ("5.1275", 3, "5.128"),
    ("0.00025", 4, "0.0002"),
    ("0.00035", 4, "0.0004"),
    ("60.5", 0, "60"),
    ("61.5", 0, "62"),
    ("-2.5", 0, "-2"),
]

# The same, to a multiple: hundred-thousandths, step in hundred-thousandths, expected.
E29_MULTIPLES = [
    (122_500_000, 5_000_000, 120_000_000),
    (127_500_000, 5_000_000, 130_000_000),
    (602_500, 5_000, 600_000),
    (607_500, 5_000, 610_000),
    (125, 50, 100),
]

# Guard band of k standard uncertainties, one-sided: least probability of conformity (computed, normal distribution).
GUARD_BANDS = [("0", 0.5), ("1", 0.841345), ("1.645", 0.950015), ("2", 0.977250), ("3", 0.998650)]

# JCGM 106's formula (inputs from memory, arithmetic computed): value, standard uncertainty, least, greatest, probability.
CONFORMITIES = [
    ("-5.47", "0.05", None, "-5.40", 0.9192),
    ("509.7", "8.6", "490", None, 0.9890),
    ("13.6", "1.8", "12.5", "16.3", 0.6626),
]

# NIST SP 811, appendix B.8, exact definitions: one of the first in the second.
EXACT_UNITS = [
    ("in", "mm", "25.4"),
    ("lb", "kg", "0.45359237"),
    ("lbf", "N", "4.4482216152605"),
    ("lbf·in", "N·m", "0.1129848290276167"),
    ("lbf·ft", "N·m", "1.3558179483314004"),
    ("in3", "cm3", "16.387064"),
    ("inHg", "kPa", "3.386388640341"),
]
