"""One sound call of every public function of the computation. A mark says what else would be nonsense beside the usual kinds."""

from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from measurements.metrology.angles.link_rod import link_rod
from measurements.metrology.angles.slider_crank import slider_crank
from measurements.metrology.assignment.table import Mate
from measurements.metrology.charts.capability import capability
from measurements.metrology.charts.subgroups import averages_and_ranges
from measurements.metrology.crankset.balance import Mass, Unbalance
from measurements.metrology.fasteners.bolt import Section
from measurements.metrology.fasteners.castle import Stop, Window
from measurements.metrology.fasteners.stretch import RetryRule, Step
from measurements.metrology.fasteners.wrench import Wrench
from measurements.metrology.form.runout import Throw
from measurements.metrology.gauge_study.bias import bias
from measurements.metrology.gauge_study.linearity import linearity
from measurements.metrology.gauge_study.result import StudyResult
from measurements.metrology.gauge_study.study import Study
from measurements.metrology.gauge_study.variance import crossed
from measurements.metrology.iso286.bands import MAIN
from measurements.metrology.limits import LimitRow, criterion
from measurements.metrology.quantity import Quantity
from measurements.metrology.regression import line
from measurements.metrology.regrind.classes import Kind, SizeClass
from measurements.metrology.regrind.rules import Bounds, Rules
from measurements.metrology.regrind.surface import Surface
from measurements.metrology.running.atmosphere import LOW
from measurements.metrology.running.corrected_power import CORRECTIONS
from measurements.metrology.selection.oil_pressure import Setting
from measurements.metrology.selection.shims import ShimRange
from measurements.metrology.selection.valve_spring import Spring
from measurements.metrology.stack import Member, stack
from measurements.metrology.uncertainty.components import Component
from measurements.metrology.uncertainty.gauge_choice import Gauge
from measurements.metrology.uncertainty.guard import Acceptance
from measurements.metrology.verdicts import Verdict
from measurements.metrology.wear.forecast import Estimate
from measurements.metrology.wear.history import Point, Visit
from tests.measurements.metrology.spoiling import above, count, made, may_be_empty, maybe_endless, not_below, typed, unit

D, F = Decimal, Fraction
Calls = dict[str, dict[str, Any]]

ROW = LimitRow(row="r", part="p", characteristic="c", unit="in", new_min=D("1.5"), new_max=D("1.6"), service_max=D("1.7"))
DEGREES = LimitRow(row="r", part="p", characteristic="c", unit="deg", new_min=D(80), new_max=D(180))
BOTH_UNITS = LimitRow(row="r", part="p", characteristic="c", unit="in", new_max=D("1.000"), alt_unit="mm", alt_new_max=D("25.40"))
HELD = criterion(ROW, 1000)
PLANES = {"near": [above(D("2.500")), D("2.501")], "far": [D("2.502"), D("2.503")]}
OPENINGS = {"1": 0, "2": 120, "3": 240}
CRANK = slider_crank(4.375, 6.75)

ANGLES: Calls = {
    "angles.firing_order.single_row_order": {"cylinders": count(9)},
    "angles.firing_order.double_row_order": {"cylinders": count(14)},
    "angles.firing_order.faults_of_radial": {"order": [1, 3, 5, 2, 4], "rows": count(1)},
    "angles.firing_order.faults_of_opposed": {"order": [1, 4, 5, 2, 3, 6]},
    "angles.firing_order.fires_at": {"order": [1, 4, 5, 2, 3, 6]},
    "angles.link_rod.link_rod": {
        "master": slider_crank(4.375, 6.75),
        "pin_radius": not_below(2.25),
        "pin_deg": 40,
        "rod": above(4.5),
        "cylinder_deg": 40,
    },
    "angles.link_rod.LinkRod.height": {"self": link_rod(CRANK, 2.25, 0, 4.5, 0), "crank_deg": 30},
    "angles.link_rod.LinkRod.velocity": {"self": link_rod(CRANK, 2.25, 0, 4.5, 0), "crank_deg": 30},
    "angles.link_rod.LinkRod.drop": {"self": link_rod(CRANK, 2.25, 0, 4.5, 0), "crank_deg": 30},
    "angles.openings.separation": {"first_deg": 10, "second_deg": F(350)},
    "angles.openings.round_the_circle": {"openings": OPENINGS},
    "angles.openings.down_the_piston": {"openings": OPENINGS},
    "angles.openings.closest": {"openings": OPENINGS},
    "angles.openings.judge_openings": {"openings": OPENINGS, "row": DEGREES},
    "angles.slider_crank.SliderCrank.drop": {"self": CRANK, "crank_deg": 30},
    "angles.slider_crank.SliderCrank.velocity": {"self": CRANK, "crank_deg": 30},
    "angles.slider_crank.SliderCrank.acceleration": {"self": CRANK, "crank_deg": 30},
    "angles.slider_crank.slider_crank": {"stroke": above(4.375), "rod": above(6.75)},
    "angles.slider_crank.mean_piston_speed": {"stroke": above(D("4.375")), "rpm": not_below(2700)},
    "angles.top_centre.top_centre": {"stopped_one_way": 10, "stopped_other_way": 320},
    "angles.top_centre.after_top_centre": {"reading": 20, "at_top_centre": 5, "rises_with_turning": True},
    "angles.top_centre.ignition_advance": {"reading": 340, "at_top_centre": 5, "rises_with_turning": True},
    "angles.top_centre.apart": {"advances": (D("24.5"), 25)},
    "angles.valve_timing.valve_timing": {
        "intake_opens_before_top": 28,
        "intake_closes_after_bottom": 71,
        "exhaust_opens_before_bottom": 60,
        "exhaust_closes_after_top": 45,
    },
}

ASSIGNMENT: Calls = {
    "assignment.best.best_assignment": {"margins": [[1, 2], [F(3), D(4)]]},
    "assignment.best.least_total": {"costs": [[1, 2], [F(3), D(4)]]},
    "assignment.matching.matching": {"allowed": [[True, False], [True, True]]},
    "assignment.matching.shortage": {"allowed": [[True, False], [True, True]]},
    "assignment.split.even_split": {"weights": [not_below(1), 2, 3]},
    "assignment.table.scaled": {"table": [[1, 2], [F(3), D(4)]], "what": "the margins"},
    "assignment.table.fit_margins": {
        "outer": [made(Mate, "bore", above(D("1.502")), D("1.503"))],
        "inner": [made(Mate, "pin", above(D("1.500")), D("1.501"))],
        "low": D("0.001"),
        "high": D("0.003"),
        "places_are_inner": False,
    },
    "assignment.weights.opposing_pairs": {"weights": [above(1205), 1200], "limit": not_below(5), "pairs": count(1)},
}

CHARTS: Calls = {
    "charts.capability.capability": {"mean": 5.0, "sigma": above(0.1), "degrees": above(9), "low": 4, "high": 6},
    "charts.capability.short_term": {"subgroups": [[5.0, 5.1], [5.2, 5.0]], "low": 4, "high": 6},
    "charts.capability.overall": {"readings": [5.0, 5.1, 5.2], "low": 4, "high": 6},
    "charts.capability.about_target": {"mean": 5.0, "sigma": above(0.1), "low": 4, "high": 6, "target": 5},
    "charts.capability.width_interval": {"found": capability(5, 0.1, 9, 4, 6), "coverage": above(0.95)},
    "charts.capability.nearest_interval": {"found": capability(5, 0.1, 9, 4, 6), "count": above(10), "coverage": above(0.95)},
    "charts.constants.control_constants": {"size": count(5)},
    "charts.constants.mean_range_divisor": {"size": count(5), "ranges": count(3)},
    "charts.subgroups.averages_and_ranges": {"subgroups": [[5.0, 5.1], [5.2, 5.0]]},
    "charts.subgroups.averages_and_deviations": {"subgroups": [[5.0, 5.1], [5.2, 5.0]]},
    "charts.subgroups.individuals": {"readings": [5.0, 5.1, 5.2]},
    "charts.subgroups.moving_ranges": {"readings": [5.0, 5.1, 5.2]},
    "charts.subgroups.beyond_limits": {
        "chart": averages_and_ranges([[5.0, 5.1], [5.2, 5.0]]),
        "location": may_be_empty([5.0]),
        "spread": may_be_empty([0.1]),
    },
}

CRANKSET: Calls = {
    "crankset.balance.static_unbalance": {"masses": [made(Mass, "a", not_below(10.0), not_below(2.0), 90.0, 1.0)]},
    "crankset.balance.couple_about": {"masses": [made(Mass, "a", not_below(10.0), not_below(2.0), 90.0, 1.0)], "station": 0},
    "crankset.balance.weight_to_add": {"found": made(Unbalance, not_below(20.0), 90.0), "radius": above(2.0)},
    "crankset.balance.permissible_unbalance": {"grade_mm_s": above(16), "rotor_kg": above(20), "rpm": above(2700)},
    "crankset.compression.reading": {"held": not_below(72), "supplied": above(80)},
    "crankset.compression.orifice_for": {"bore_in": above(D("5.125"))},
    "crankset.compression.judge_against_master": {
        "held": {"1": not_below(72)},
        "master": not_below(70),
        "supplied": above(80),
        "expanded_uncertainty": not_below(1),
    },
    "crankset.compression.least_share": {"pressures": {"1": above(72), "2": 70}},
    "crankset.displacement.displacement": {"bore": above(5.125), "stroke": above(4.375), "cylinders": count(6)},
    "crankset.displacement.clearance_volume": {"parts": [D("10.5"), -1]},
    "crankset.displacement.compression_ratio": {"swept": above(90), "clearance": above(12)},
    "crankset.displacement.clearance_for_ratio": {"swept": above(90), "ratio": above(D("8.5"))},
    "crankset.weights.rod_ends": {"whole": above(1000), "big_end": above(700)},
    "crankset.weights.bob_weight": {"turning": [not_below(700)], "reciprocating": [not_below(900)], "share": not_below(F(1, 2))},
    "crankset.weights.spread": {"weights": {"1": above(1000), "2": 1005}},
    "crankset.weights.opposing_differences": {"weights": {"1": above(1000), "2": 1005}, "pairs": [("1", "2")]},
    "crankset.weights.judge_opposing": {"weights": {"1": above(1000), "2": 1005}, "pairs": [("1", "2")], "row": ROW},
}

ROUNDING: Calls = {
    "e29.rounded": {"value": D("1.25"), "step": above(D("0.1"))},
    "e29.rounded_to_places": {"value": D("1.25"), "places": 1},
    "e29.rounded_to_digits": {"value": D("1.25"), "digits": count(2)},
    "e29.significant_digits": {"typed": typed("1.250")},
    "e29.absolute_method": {"value": D("1.25"), "low": 1, "high": 2},
    "e29.rounding_method": {"value": D("1.25"), "low": D("1.0"), "high": D("2.0"), "places": None},
    "rounding.divide_half_even": {"numerator": 5, "denominator": above(2)},
    "rounding.to_step": {"value": 25, "step": above(10)},
    "numbers.mantissa_and_places": {"text": typed("2.4990")},
    "numbers.read_number": {"text": typed("2.4990")},
    "numbers.places_of": {"number": D("2.4990")},
    "numbers.plain": {"mantissa": 24990, "places": count(4)},
    "numbers.plain_ratio": {"numerator": 1, "denominator": above(3)},
    "numbers.plain_float": {"number": 1.5},
    "quantity.Quantity.in_unit": {"self": Quantity(D("1.5"), "in"), "wanted": unit("mm")},
    "quantity.split_figure": {"text": typed("2.1235 in"), "unit": ""},
    "quantity.read_quantity": {"text": typed("2.1235 in"), "unit": ""},
}

FASTENERS: Calls = {
    **{
        f"fasteners.adapter.{name}": {
            torque: above(100),
            "wrench_length": above(10),
            "adapter_length": not_below(2),
            "angle_deg": 90,
        }
        for name, torque in (("setting_for", "wanted"), ("applied_by", "setting"))
    },
    "fasteners.bolt.circle_area": {"diameter": above(D("0.5"))},
    "fasteners.bolt.tensile_area_inch": {"diameter": above(D("0.5")), "threads_per_inch": above(20)},
    "fasteners.bolt.tensile_area_metric": {"diameter": above(10), "pitch": above(D("1.5"))},
    "fasteners.bolt.shank_and_thread": {"diameter": above(D("0.5")), "length": above(4), "grip": above(3)},
    "fasteners.bolt.stiffness": {"sections": [made(Section, above(2), above(D("0.2")), above(30_000_000))]},
    "fasteners.bolt.stretch_under": {
        "force": not_below(5000),
        "sections": [made(Section, above(2), above(D("0.2")), above(30_000_000))],
    },
    "fasteners.bolt.bolt_share": {"bolt_stiffness": above(1), "members_stiffness": above(4)},
    "fasteners.bolt.bolt_stress": {
        "preload": not_below(5000),
        "outside_load": 1000,
        "share": not_below(F(1, 5)),
        "area": above(D("0.2")),
    },
    "fasteners.castle.window": {"minimum": above(100), "maximum": above(150), "drag": not_below(10)},
    "fasteners.castle.next_step": {"stops": [made(Stop, not_below(120), True)], "allowed": made(Window, above(F(100)), F(150))},
    "fasteners.passes.passes": {
        "order": [1, 2],
        "final": above(100),
        "shares": [above(F(1, 2)), 1],
        "last_round": may_be_empty(()),
    },
    "fasteners.patterns.star": {"count": count(8)},
    "fasteners.patterns.opposing_pairs": {"count": count(8)},
    "fasteners.patterns.spiral": {"rows": count(3), "columns": count(4)},
    "fasteners.patterns.opposing_in_rectangle": {"rows": count(3), "columns": count(4)},
    "fasteners.preload.torque_for_preload": {
        "preload": above(5000),
        "diameter": above(D("0.5")),
        "nut_factor": above(D("0.2")),
    },
    "fasteners.preload.preload_from_torque": {
        "torque": above(500),
        "diameter": above(D("0.5")),
        "nut_factor": above(D("0.2")),
    },
    "fasteners.preload.nut_factor_from": {"torque": above(500), "preload": above(5000), "diameter": above(D("0.5"))},
    "fasteners.stretch.stretch_read": {"zero": D("0.001"), "tight": D("0.007")},
    "fasteners.stretch.find": {"stretch": not_below(D("0.006")), "low": D("0.005"), "high": D("0.007")},
    "fasteners.stretch.decide": {
        "stretches": [not_below(D("0.006"))],
        "low": D("0.005"),
        "high": D("0.007"),
        "rule": made(RetryRule, may_be_empty((Step("again"),)), may_be_empty(())),
    },
    "fasteners.stretch.permanent_set": {"free_before": above(D("4.000")), "free_now": above(D("4.001")), "most": D("0.002")},
    "fasteners.wrench.usable_range": {"full_scale": above(100), "from_share": not_below(F(1, 5)), "to_share": above(1)},
    "fasteners.wrench.faults": {
        "wrench": made(Wrench, not_below(20), 100, date(2026, 6, 1)),
        "setting": above(50),
        "on": date(2026, 1, 1),
    },
    "fasteners.wrench.deviations": {"points": [(above(50), above(51))], "most_share": not_below(F(4, 100))},
}

GATE: Calls = {
    **{f"figures.{name}": {"value": 1, "what": "the value"} for name in ("exact", "real")},
    **{f"figures.{name}_positive": {"value": above(1), "what": "the value"} for name in ("exact", "real")},
    **{f"figures.{name}_not_negative": {"value": not_below(1), "what": "the value"} for name in ("exact", "real")},
    "figures.exact_all": {"values": [1, 2], "what": "the values"},
    "figures.real_all": {"values": [1, 2], "what": "the values", "at_least": count(1)},
    "figures.ordered": {"low": 1, "high": 2, "what": "the limits"},
    "figures.whole_number": {"value": count(2), "what": "the count", "least": 1, "most": 3},
    "figures.check_whole": {"values": may_be_empty((1, None))},
    "figures.same_length": {"first": [object(), object()], "second": [object(), object()], "what": "the series"},
    "fits.fit_of_limits": {
        "outer_least": above(D("1.502")),
        "outer_greatest": above(D("1.503")),
        "inner_least": above(D("1.500")),
        "inner_greatest": above(D("1.501")),
    },
    "fits.loose_or_tight": {"clearance": D("0.001")},
    "fits.read_loose_or_tight": {"text": typed("0.0010L")},
    "fits.fit_ends": {"outer_least": 1502, "outer_greatest": 1503, "inner_least": 1500, "inner_greatest": 1501},
    "fits.combined_u_squared": {"outer_u": not_below(3), "inner_u": not_below(4)},
    "conformity.least_conformity": {"least": 5, "greatest": 6, "low": 1, "high": 9, "u_squared": not_below(4)},
    "conformity.conformity": {"value": 5.0, "low": 1.0, "high": 9.0, "deviation": above(1.0)},
    "held.hold": {"values": [D("1.55")], "row": ROW, "expanded_uncertainty": not_below(D("0.01"))},
    "limits.criterion": {"row": ROW, "scale": above(1000)},
    "limits.check_criterion": {"held": HELD},
    "limits.check_order": {"row": ROW},
    "limits.disagreements": {"row": BOTH_UNITS},
    "many.judge_many": {
        "least": may_be_empty([1550, 1551]),
        "greatest": may_be_empty([1552, 1553]),
        "held": HELD,
        "u": not_below(5),
    },
    "many.at_scale": {"values": may_be_empty([1550]), "factor": above(10)},
    "many.whole": {"values": may_be_empty([1550]), "what": "the values"},
    "margin.margin": {"row": ROW, "values": [D("1.55")]},
    "size_class.in_size_class": {"row": ROW, "offset": D("-0.01"), "unit": unit("in")},
    "stack.stack": {"members": [made(Member, "a", D(1), D(2)), made(Member, "b", D(1), D(2), -1)]},
    "stack.worst_case_within": {"gap": stack([Member("a", 1, 2)]), "low": 0, "high": 3},
    "stack.statistically_within": {"gap": stack([Member("a", 1, 2)]), "low": 0, "high": 3},
    "temperature.temperature": {"reading": 20, "scale": unit("°C"), "wanted": unit("°F")},
    "temperature.temperature_difference": {"difference": 20, "scale": unit("°C"), "wanted": unit("°F")},
    "thermal.size_at": {"size_at_20": above(100), "coefficient": not_below(F(1, 100_000)), "temperature_c": 30},
    "thermal.referred_to_20": {
        "reading": above(100),
        "part_coefficient": not_below(F(1, 100_000)),
        "part_c": 30,
        "gauge_coefficient": not_below(0),
        "gauge_c": 20,
    },
    "thermal.clearance_at": {
        "bore_at_20": above(101),
        "shaft_at_20": above(100),
        "bore_coefficient": not_below(F(1, 100_000)),
        "shaft_coefficient": not_below(F(1, 100_000)),
        "temperature_c": 30,
    },
    "thermal.clearance_change": {
        "bore_at_20": above(101),
        "shaft_at_20": above(100),
        "bore_coefficient": not_below(F(1, 100_000)),
        "shaft_coefficient": not_below(F(1, 100_000)),
        "from_c": 30,
        "to_c": 40,
    },
    "thermal.warming_for_clearance": {
        "gap": not_below(D("0.01")),
        "diameter": above(100),
        "coefficient": above(F(1, 100_000)),
    },
    "units.dimension_of": {"unit": unit("mm")._replace(also={"no such unit": "furlong", "none": ""})},
    "units.ratio": {"unit": unit("mm"), "wanted": unit("in")},
    "units.converted": {"value": 1, "unit": unit("mm"), "wanted": unit("in")},
    "verdicts.judge": {"least": 1550, "greatest": 1551, "held": HELD, "u_squared": not_below(25)},
}

FORM: Calls = {
    "form.least_squares.algebraic_circle": {"points": [[0.0, 0.0], [2.0, 0.0], [0.0, 2.0], [2.0, 2.0]]},
    "form.least_squares.least_squares_circle": {"points": [[0.0, 0.0], [2.0, 0.0], [0.0, 2.0], [2.0, 2.0]]},
    "form.least_squares.least_squares_plane": {"points": [[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.1]]},
    "form.lobing.two_point_sensitivity": {"lobes": count(3)},
    "form.lobing.three_point_sensitivity": {"lobes": count(3)},
    "form.lobing.vee_sensitivity": {"lobes": count(3), "included_angle_deg": above(90.0)},
    "form.lobing.blind_lobes": {"included_angle_deg": above(90.0), "up_to": count(12)},
    "form.lobing.form_from_vee": {"indicated": not_below(0.002), "lobes": count(3), "included_angle_deg": above(90.0)},
    "form.runout.runout": {"indicator": [D("0.001"), D("-0.001")]},
    "form.runout.eccentricity": {"total_indicator_reading": not_below(D("0.002"))},
    "form.runout.throw": {"indicator": [0.001, 0.002, 0.0]},
    "form.runout.bow": {
        "near": made(Throw, not_below(0.001), 10.0),
        "middle": made(Throw, not_below(0.003), 20.0),
        "far": made(Throw, not_below(0.001), 30.0),
        "share": not_below(0.5),
    },
    "form.section.section": {"diameters": [above(D("2.500")), D("2.501")]},
    "form.section.sections": {"planes": PLANES},
    "form.section.worst_out_of_round": {"planes": PLANES},
    "form.taper.taper": {"planes": PLANES, "first": "near", "second": "far"},
    "form.taper.choke": {"planes": PLANES, "skirt": "near", "head": "far"},
    "form.taper.steepest": {"planes": PLANES, "order": ["near", "far"]},
}

SOUND_STUDY = Study((((F(5), F(6)), (F(8), F(7))), ((F(5), F(7)), (F(8), F(9)))))
RESULT = made(StudyResult, not_below(0.1), not_below(0.2), not_below(0.0), not_below(1.0))
LINEARITY = linearity({2: [F("2.1"), 2, F("2.2")], 4: [4, F("4.1")]})

GAUGE_STUDY: Calls = {
    "gauge_study.average_range.by_average_and_range": {"given": SOUND_STUDY},
    "gauge_study.bias.bias": {
        "readings": [D("6.0"), D("6.1")],
        "reference": 6,
        "repeatability": not_below(F(1, 10)),
        "degrees": above(9),
    },
    "gauge_study.bias.bias_interval": {"found": bias([D("6.0"), D("6.1")], 6), "coverage": above(0.95)},
    "gauge_study.linearity.linearity": {"readings": {2: [F("2.1"), 2, F("2.2")], 4: [4, F("4.1")]}},
    "gauge_study.linearity.bias_at": {"found": LINEARITY, "size": 3, "coverage": above(0.95)},
    "gauge_study.linearity.percent_linearity": {"found": LINEARITY},
    "gauge_study.result.percent_of_total": {"result": RESULT, "deviation": not_below(0.1)},
    "gauge_study.result.percent_of_tolerance": {"result": RESULT, "tolerance": above(2)},
    "gauge_study.result.categories": {"result": RESULT},
    "gauge_study.result.distinct_categories": {"result": RESULT},
    "gauge_study.study.study": {"readings": [[[5, 6], [8, 7]], [[5, 7], [8, 9]]]},
    "gauge_study.study.study_from_rows": {"rows": [(who, part, F(part)) for who in "ab" for part in (1, 2) for _ in (1, 2)]},
    "gauge_study.variance.one_way": {"groups": [[1, 2], [2, 4]]},
    "gauge_study.variance.crossed": {"given": SOUND_STUDY},
    "gauge_study.variance.interaction_probability": {"table": crossed(SOUND_STUDY)},
    "gauge_study.variance.by_variance": {"given": SOUND_STUDY, "pool_above": not_below(0.05)},
}

ISO286: Calls = {
    "iso286.bands.band": {"nominal_mm": above(25), "ends": MAIN},
    "iso286.bands.bounds": {"nominal_mm": above(25), "ends": MAIN},
    "iso286.deviations.shaft_deviations": {"nominal_mm": above(25), "letter": "g", "grade": count(6)},
    "iso286.deviations.hole_deviations": {"nominal_mm": above(25), "letter": "H", "grade": count(7)},
    "iso286.fit.standard_fit": {"nominal_mm": above(25), "hole": typed("H7"), "shaft": typed("g6")},
    "iso286.grades.tolerance": {"nominal_mm": above(25), "grade": count(7)},
    "iso286.grades.tolerance_by_formula": {"nominal_mm": above(25), "grade": count(7)},
}

LINE = line([1, 2, 3], [D("1.1"), 2, D("3.2")])
REGRESSION: Calls = {
    **{f"regression.Line.{name}": {"self": LINE, "x": 2} for name in ("at", "error_at", "new_error_at")},
    "regression.line": {"x": [1, 2, 3], "y": [D("1.1"), 2, D("3.2")]},
    "regression.slope_interval": {"found": LINE, "coverage": above(0.95)},
    "regression.height_interval": {"found": LINE, "x": 2, "coverage": above(0.95)},
    "regression.prediction_interval": {"found": LINE, "x": 2, "coverage": above(0.95)},
    "regression.checked_coverage": {"coverage": above(0.95)},
}

STANDARD = made(SizeClass, name="standard", least=above(D("2.498")), greatest=D("2.500"), follows=may_be_empty(()))
UNDER = made(SizeClass, name="under", least=above(D("2.488")), greatest=D("2.490"), follows=may_be_empty(()))
JOURNAL = made(
    Surface,
    name="one",
    least=above(D("2.497")),
    greatest=D("2.499"),
    runout=not_below(D("0.001")),
    out_of_round=not_below(D("0.001")),
    taper=not_below(D("0.001")),
)
RULES = made(
    Rules,
    allowance=not_below(D("0.001")),
    room=not_below(D("0.001")),
    most_runout=not_below(D("0.002")),
    most_out_of_round=not_below(D("0.0005")),
    most_taper=not_below(D("0.0005")),
    follows=may_be_empty(()),
)
BOUNDS = made(Bounds, *(not_below(F(1, 1000)) for _ in range(5)))
REGRIND: Calls = {
    "regrind.classes.from_standard": {"size_class": UNDER, "standard": STANDARD},
    "regrind.classes.band_of": {"size_class": UNDER, "kind": Kind.SHAFT},
    "regrind.classes.in_order": {"classes": [UNDER, STANDARD], "kind": Kind.SHAFT},
    "regrind.plan.plan": {"surfaces": [JOURNAL], "classes": [UNDER, STANDARD], "rules": RULES},
    "regrind.rules.bounds_of": {"rules": RULES},
    "regrind.surface.surface_from_planes": {"name": "one", "planes": PLANES, "order": ["near", "far"], "runout": not_below(0)},
    "regrind.surface.stock_of": {"surface": JOURNAL, "kind": Kind.SHAFT},
    "regrind.taking.clean_up_size": {"surface": JOURNAL, "kind": Kind.SHAFT, "allowance": not_below(F(1, 1000))},
    "regrind.taking.take": {"surface": JOURNAL, "size_class": UNDER, "kind": Kind.SHAFT, "bounds": BOUNDS},
}

DAY = {"pressure_in_hg": above(D("29.5")), "vapour_in_hg": not_below(D("0.4")), "air_f": 70}
CORRECTION = CORRECTIONS["SAE J1349 June 1990"]
RUNNING: Calls = {
    "running.atmosphere.Layer.air": {"self": LOW, "height_m": 1000.0},
    "running.atmosphere.Layer.height": {"self": LOW, "pressure_pa": above(90_000.0)},
    "running.atmosphere.geopotential": {"geometric_m": 1000},
    "running.atmosphere.standard_air": {"geopotential_m": 1000},
    "running.atmosphere.standard_air_at_geometric": {"geometric_m": 1000},
    "running.atmosphere.pressure_altitude": {"pressure_pa": above(90_000)},
    "running.corrected_power.factor": {**DAY, "correction": CORRECTION},
    "running.corrected_power.correct": {"power_hp": not_below(240), **DAY, "correction": CORRECTION},
    "running.humid_air.saturation_pressure": {"air_c": 20},
    "running.humid_air.vapour_pressure": {"relative_humidity_percent": not_below(50), "air_c": 20},
    "running.humid_air.vapour_in_hg": {"relative_humidity_percent": not_below(50), "air_f": 70},
    "running.humid_air.density": {"pressure_pa": above(100_000), "air_c": 20, "relative_humidity_percent": not_below(50)},
    "running.magnetos.magneto_check": {"both_rpm": above(1700), "left_rpm": not_below(1600), "right_rpm": not_below(1620)},
    "running.oil.oil_used": {"at_start": not_below(8), "added": may_be_empty([not_below(1)]), "at_end": not_below(7)},
    "running.oil.consumption": {"used": not_below(2), "hours": above(10)},
    "running.oil.greatest_consumption": {
        "power_hp": above(240),
        "pounds_per_hp_hour": above(D("0.006")),
        "pounds_per_gallon": above(D("7.4")),
    },
    "running.rise.rises": {"times": [0, 1], "readings": [20, 25]},
    "running.rise.steepest": {"times": [0, 1], "readings": [20, 25]},
    "running.torque.torque_of": {"power_hp": not_below(240), "rpm": above(2600)},
    "running.torque.power_of": {"torque_lbf_ft": not_below(480), "rpm": not_below(2600)},
}

SETTINGS = [made(Setting, "soft", "a", 1, 2, 50), made(Setting, "stiff", "b", 1, 2, 60)]
SHIMS = made(ShimRange, F(1, 100), F(2, 100), F(3, 100))
SELECTION: Calls = {
    "selection.oil_pressure.expected_pressures": {"reading": not_below(55), "fitted": "soft", "permitted": SETTINGS},
    "selection.oil_pressure.setting_for": {
        "reading": not_below(55),
        "fitted": "soft",
        "permitted": SETTINGS,
        "low": 50,
        "high": 70,
    },
    "selection.oil_pressure.turns_for": {
        "reading": not_below(55),
        "wanted": above(60),
        "pressure_per_turn": above(5),
        "turned_in": not_below(1),
        "most_turns": above(4),
    },
    "selection.push_rods.clearances": {
        "clearance": not_below(D("0.05")),
        "fitted": "a",
        "lengths": {"a": above(D("11.5")), "b": D("11.53")},
        "rocker_ratio": above(1),
    },
    "selection.push_rods.push_rod_for": {
        "clearance": not_below(D("0.05")),
        "fitted": "a",
        "lengths": {"a": above(D("11.5")), "b": D("11.53")},
        "low": D("0.03"),
        "high": D("0.08"),
        "rocker_ratio": above(1),
    },
    "selection.ring_gap.filing": {"gap": not_below(D("0.02")), "low": not_below(D("0.03")), "high": not_below(D("0.04"))},
    "selection.ring_gap.gap_in_bore": {"gap": not_below(0.02), "read_in": above(5.125), "bore": above(5.130)},
    "selection.shims.for_end_play": {"play_without_shims": not_below(D("0.05")), "low": D("0.01"), "high": D("0.02")},
    "selection.shims.for_backlash": {
        "backlash": not_below(D("0.05")),
        "low": D("0.01"),
        "high": D("0.02"),
        "fitted": not_below(0),
        "closed_by_thickness": F(1, 2),
    },
    "selection.shims.shims_for": {"wanted": SHIMS, "box": {D("0.01"): not_below(3)}, "most": count(3)},
    "selection.valve_spring.Spring.load_at": {"self": made(Spring, above(F(2)), above(F(50))), "length": above(D("1.5"))},
    "selection.valve_spring.Spring.length_at": {"self": made(Spring, above(F(2)), above(F(50))), "load": not_below(40)},
    "selection.valve_spring.from_two_points": {"points": {D("1.5"): not_below(80), D("1.8"): 40}},
    "selection.valve_spring.from_free_length": {"free_length": above(2), "length": above(D("1.5")), "load": above(40)},
    "selection.valve_spring.rate_of_wire": {
        "wire": above(D("0.2")),
        "mean_diameter": above(1),
        "active_coils": above(5),
        "shear_modulus": above(11_500_000),
    },
    "selection.valve_spring.judge_load": {
        "load": not_below(80),
        "read_at": above(D("1.5")),
        "stated_length": above(D("1.5")),
        "rate": above(50),
        "row": ROW,
    },
}

PARTS = [made(Component, "a", not_below(0.1), 1.0, maybe_endless(9.0)), made(Component, "b", not_below(0.2))]
GAUGE = made(Gauge, "a", not_below(D("0.1")), 0, 10)
UNCERTAINTY: Calls = {
    "uncertainty.budget.combined": {"components": PARTS},
    "uncertainty.budget.effective_degrees": {"components": PARTS},
    "uncertainty.budget.expanded": {"components": PARTS, "coverage": above(0.95)},
    "uncertainty.budget.second_order": {"first": not_below(0.1), "terms": may_be_empty([not_below(0.01)])},
    "uncertainty.components.from_certificate": {
        "name": "a",
        "expanded": not_below(0.1),
        "coverage_factor": above(2),
        "degrees": maybe_endless(9.0),
    },
    "uncertainty.components.rectangular": {
        "name": "a",
        "half_width": not_below(0.1),
        "sensitivity": 1,
        "degrees": maybe_endless(9.0),
    },
    "uncertainty.components.arcsine": {"name": "a", "half_width": not_below(0.1), "sensitivity": 1},
    "uncertainty.components.triangular": {"name": "a", "half_width": not_below(0.1), "sensitivity": 1},
    "uncertainty.components.resolution": {"name": "a", "step": not_below(0.1)},
    "uncertainty.components.repeatability": {"name": "a", "readings": [1.0, 1.1], "averaged": count(2)},
    "uncertainty.components.temperature": {
        "name": "a",
        "length": above(100),
        "coefficient_difference": 1e-5,
        "half_width_k": not_below(1),
    },
    "uncertainty.gauge_choice.can_decide": {"gauge": GAUGE, "reading": 5, "low": 1, "high": 9},
    "uncertainty.gauge_choice.deciding_gauges": {"gauges": may_be_empty([GAUGE]), "reading": 5, "low": 1, "high": 9},
    "uncertainty.guard.Acceptance.holds": {"self": made(Acceptance, F(1), F(9)), "value": 5},
    "uncertainty.guard.simple_acceptance": {"low": 1, "high": 9},
    "uncertainty.guard.guarded_acceptance": {"low": 1, "high": 9, "guard": not_below(1)},
    "uncertainty.guard.guard_from_share": {"expanded": not_below(1), "share": not_below(F(1, 2))},
    "uncertainty.guard.guard_for_risk": {"standard": above(0.1), "most_false_accept": above(0.02)},
    "uncertainty.guard.two_sided_guard_for_risk": {"low": 1, "high": 9, "standard": above(0.1), "most_false_accept": above(0.02)},
    "uncertainty.probability.conformance_probability": {"estimate": 5, "standard": above(0.1), "low": 1, "high": 9},
    "uncertainty.risk.risks": {
        "process_mean": 5.0,
        "process_sd": above(1.0),
        "standard": above(0.1),
        "low": 1.0,
        "high": 9.0,
        "guard": not_below(0.1),
    },
    "uncertainty.risk.process_sd_for_share": {"half_width": above(2.0), "share_within": above(0.95)},
}

READ_TWICE = [made(Point, F(0), F(2), not_below(F(1, 1000))), made(Point, F(500), F("2.001"), not_below(F(1, 1000)))]
ESTIMATE = made(Estimate, F(2), not_below(0.001), maybe_endless(9.0))
WEAR: Calls = {
    "wear.advice.advise": {"verdict": Verdict.SERVICEABLE, "expected": ESTIMATE, "low": 1, "high": 3, "enough": above(0.95)},
    "wear.forecast.wear_rate": {"points": READ_TWICE},
    "wear.forecast.value_at": {"points": READ_TWICE, "hours": above(1000)},
    "wear.forecast.interval_of": {"estimate": ESTIMATE, "coverage": above(0.95)},
    "wear.forecast.probability_within": {"estimate": ESTIMATE, "low": 1, "high": 3},
    "wear.history.since_rework": {
        "visits": [
            made(Visit, not_below(0), D("2.000"), D("2.000"), not_below(F(1, 1000))),
            made(Visit, 500, D("2.001"), D("1.999")),
        ]
    },
    "wear.rule.rate_of_wear": {"worn": not_below(D("0.001")), "hours": above(500)},
    "wear.rule.clearance_then": {"clearance": D("0.003"), "rate": not_below(F(1, 500_000)), "hours": not_below(1000)},
    "wear.rule.hours_left": {"value": D("2.000"), "limit": D("2.005"), "rate": F(1, 500_000)},
    "wear.rule.may_go_back": {
        "clearance": D("0.003"),
        "greatest": D("0.006"),
        "worn": not_below(D("0.001")),
        "hours": above(500),
        "until_overhaul": not_below(1000),
    },
}

CALLS: Calls = {
    **(ANGLES | ASSIGNMENT | CHARTS | CRANKSET | ROUNDING | FASTENERS | GATE | FORM),
    **(GAUGE_STUDY | ISO286 | REGRESSION | REGRIND | RUNNING | SELECTION | UNCERTAINTY | WEAR),
}
