"""Published figures on form, fits and expansion, each with its source."""

# Gander, Golub and Strebel 1994, fitting circles by least squares (data and 4-digit results from memory; computed with SciPy).
CIRCLE_POINTS = [(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)]
GEOMETRIC = (4.73978, 2.98353, 4.71423, 1.2275991)
ALGEBRAIC = (5.37941, 7.25320, 3.03704)

# ISO 286, um: nominal mm, hole, shaft, deviations of each, least and greatest (public tables, and a reference library).
ISO_FITS = [
    ("25", "H7", "g6", (0, 21), (-20, -7)),
    ("40", "H7", "p6", (0, 25), (26, 42)),
    ("50", "H7", "k6", (0, 25), (2, 18)),
    ("50", "H7", "g6", (0, 25), (-25, -9)),
    ("25", "H7", "h6", (0, 21), (-13, 0)),
    ("50", "H7", "h6", (0, 25), (-16, 0)),
    ("100", "H7", "s6", (0, 35), (71, 93)),
    ("130", "H7", "n6", (0, 40), (27, 52)),
    ("30", "H8", "f7", (0, 33), (-41, -20)),
    ("20", "H9", "d9", (0, 52), (-117, -65)),
    ("32", "H11", "c11", (0, 160), (-280, -120)),
]
# ISO 286 standard tolerances IT6, 7, 8, 9, 11 in um for one size of each range (public bar-stock table).
ISO_GRADES = {
    "25": (13, 21, 33, 52, 130),
    "40": (16, 25, 39, 62, 160),
    "100": (22, 35, 54, 87, 220),
    "150": (25, 40, 63, 100, 250),
}

# Vee block with the indicator on the bisector, |F| (own derivation, geometry): included angle, lobes, sensitivity.
VEE = [
    (60, 3, 3.0),
    (60, 9, 3.0),
    (60, 2, 0),
    (60, 5, 0),
    (90, 3, 2.0),
    (90, 5, 2.0),
    (90, 2, 1.0),
    (90, 4, 0.414214),
    (90, 7, 0),
    (120, 3, 1.0),
    (120, 5, 2.0),
    (120, 2, 1.577350),
]
