"""Published figures on uncertainty, each with its source."""

# JCGM 100 (GUM), annex H.1, end gauge of 50 mm, nm: name, standard uncertainty, sensitivity, degrees of freedom.
# u of the difference is 5.8 (24), 3.9 (5) and 6.7 (8); expansion 50 mm x 1e-6/K rectangular (50), x 0.05 K rectangular (2).
END_GAUGE = [
    ("standard", 25.0, 1.0, 18),
    ("repeats", 5.8, 1.0, 24),
    ("random of the comparator", 3.9, 1.0, 5),
    ("systematic of the comparator", 6.7, 1.0, 8),
    ("expansion difference", 2.886751, 1.0, 50),
    ("temperature difference", 16.599, 1.0, 2),
]
END_GAUGE_COMBINED = 31.66  # published 32
END_GAUGE_DEGREES = 16.75  # published 16
END_GAUGE_FACTOR_99 = 2.9208  # published 2.92, from memory
END_GAUGE_EXPANDED_99 = 92.5  # published 93, from memory
END_GAUGE_SECOND_ORDER = 34  # H.1.7, as published: good to half a unit

# Two-sided risk of a gauge: process of standard deviation 4, u = 1, limits +-8 (published 0.008 and 0.015).
TWO_SIDED = (0.008006, 0.014851)
# Draft table of a calibration practice, u a quarter of the process, limits +-1: share within, false accept in percent.
IN_TOLERANCE = [
    (0.6, 4.83860),
    (0.7, 3.92234),
    (0.8, 2.85583),
    (0.9, 1.59995),
    (0.95, 0.87101),
    (0.99, 0.19992),
]
