"""How a run stands, from plain values: what is missing, what is outside, and how long a step was held. No database."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction

import pytest

from engines.testbench.quantities import read_quantity
from engines.testbench.schedule import Schedule, Spot
from engines.testbench.standing import Answered, Facts, Read, Span, Standing
from tests.making_packs import small_pack, with_run
from tests.making_runs import GOOD, MINUTES, OIL

BEGAN = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
SCHEDULE = Schedule(with_run(small_pack()))


def standing(*, but="", yes=True, schedule=SCHEDULE, **other):
    """A whole run with good readings, some left out or other."""
    other = {channel.replace("_", " "): value for channel, value in other.items()}
    spans, reads, now = [], [], BEGAN
    for step, good in GOOD.items():
        spans.append(Span(step, now, now + timedelta(minutes=MINUTES[step])))
        now += timedelta(minutes=MINUTES[step])
        values = {**good, **{channel: value for channel, value in other.items() if channel in good}}
        reads += [
            made for channel, value in values.items() if channel != but for made in _reads(schedule, step, channel, value, now)
        ]
    reads += [made for channel, value in OIL.items() if channel != but for made in _reads(schedule, "", channel, value, now)]
    answers = [Answered(code, yes) for code in ("grounded", "no-leak") if code != but]
    return Standing(schedule, Facts(now=now, spans=spans, reads=reads, answers=answers))


def _reads(schedule, step, channel, text, at):
    for spot in schedule.spots_of(channel):
        value, unit = read_quantity(text, schedule.channels[channel])
        yield Read(step, spot, Fraction(value), value, unit, at)


def test_a_whole_good_run_lacks_nothing():
    good = standing()
    assert (good.missing, good.outside, good.beyond, good.warnings) == ([], [], [], [])
    assert good.hours_turning == Fraction(16, 60)


@pytest.mark.parametrize(
    ("left_out", "told"),
    [
        ("oil temperature", "Warm up: oil temperature was not read."),
        ("humidity", "Full power: humidity was not read."),
        ("speed on left magneto", "Magnetos: speed on left magneto was not read."),
        ("cylinder temperature", "Full power: cylinder temperature, cylinder 2 was not read."),
        ("grounded", "Magnetos: “The engine dies when both switches are off” is not answered."),
        ("no-leak", "Stopped, looked over: “No leak at any joint” is not answered."),
        ("oil left", "The whole run: oil left was not read."),
    ],
)
def test_what_is_missing_is_named(left_out, told):
    assert told in standing(but=left_out).missing


@pytest.mark.parametrize(
    ("read", "told"),
    [
        ({"oil_temperature": "37.7 °C"}, "Warm up: oil temperature was 37.7 °C, to be 100 to 200 °F."),
        ({"power": "87.94"}, "Full power: corrected power was 87.9 hp, to be at least 88.0 hp."),
        ({"speed_on_right_magneto": "1669.9"}, "Magnetos: ignition drop right was 130.1 rpm, to be 10 to 125 rpm."),
        ({"speed_on_right_magneto": "1669.9"}, "Magnetos: ignition drop difference was 50.1 rpm, to be at most 50 rpm."),
    ],
)
def test_what_is_outside_is_told_with_its_limit(read, told):
    assert told in standing(**read).outside


def test_a_value_on_its_limit_is_within_it_however_it_was_typed():
    """37.75 °C are 99.95 °F and 38 °C are 100.4 °F, exactly (NIST SP 811); 87.95 hp rounds to the even 88.0 (ASTM E29)."""
    assert standing(oil_temperature="38 °C", power="87.95").outside == []
    assert len(standing(oil_temperature="37.75 °C").outside) == 1


def test_oil_consumption_is_judged_over_the_time_that_the_engine_turned():
    """0.1 qt in 16 minutes are 0.375 qt/h; with a limit of 0.374 the run would fail."""
    (line,) = standing().lines_at("")[:1]
    assert (line.value, line.verdict) == ("0.375 qt/h", "within limits")


def test_a_magneto_that_does_not_drop_gives_a_warning_and_is_outside():
    live = standing(speed_on_left_magneto="1800")
    assert "a switch lead may be open" in live.warnings[0]
    assert any("ignition drop left was 0 rpm" in each for each in live.outside)


def test_an_answer_of_no_is_outside():
    assert "Magnetos: “The engine dies when both switches are off” was answered no." in standing(yes=False).outside


def test_any_reading_beyond_an_abort_figure_counts_not_only_the_last():
    at = BEGAN + timedelta(minutes=8)
    head = Spot("cylinder temperature", 1)
    reads = [
        Read("full", head, Fraction(value), value, "°F", at + timedelta(seconds=n)) for n, value in enumerate(("501", "400"))
    ]
    now = Standing(SCHEDULE, Facts(now=at, spans=[Span("full", BEGAN, None)], reads=reads))
    assert now.beyond == ["cylinder temperature, cylinder 1 was 501 °F: at most 450 °F; the run ends at once above 500 °F."]
    assert now.outside == []


def test_a_step_is_held_as_long_as_its_longest_unbroken_stretch():
    step = SCHEDULE.step_by_code["warm"]

    def held(*stretches):
        begun = (BEGAN + timedelta(hours=n) for n in range(len(stretches)))
        spans = [Span("warm", at, at + timedelta(seconds=each)) for at, each in zip(begun, stretches, strict=True)]
        now = Standing(SCHEDULE, Facts(now=BEGAN, spans=spans))
        return now.minutes_at(step), now.is_held(step)

    assert held(180, 240) == (Fraction(4), False)
    assert held(299) == (Fraction(299, 60), False)
    assert held(60, 300) == (Fraction(5), True)
    assert held() == (Fraction(0), False)


def test_oil_that_cannot_be_worked_out_says_why():
    assert any("oil consumption cannot be worked out: More oil is left" in each for each in _more_left().missing)


def _more_left():
    facts = standing(but="oil left").facts
    left = next(_reads(SCHEDULE, "", "oil left", "9", facts.now))
    return Standing(SCHEDULE, Facts(now=facts.now, spans=facts.spans, reads=[*facts.reads, left], answers=facts.answers))


def test_a_limit_in_a_unit_of_another_kind_judges_nothing_and_passes_nothing():
    limits = [replace(each, unit="psi") if each.channel == "oil temperature" else each for each in SCHEDULE.data.run_limits]
    wrong = Schedule(replace(SCHEDULE.data, run_limits=tuple(limits)))
    now = Standing(wrong, standing().facts)
    assert any(
        "oil temperature cannot be judged: °F is a unit of temperature and psi one of pressure" in each for each in now.missing
    )
    assert now.outside == []


def test_a_unit_that_only_the_data_know_is_held_as_it_stands():
    limits = (*SCHEDULE.data.run_limits, replace(SCHEDULE.data.run_limits[1], channel="shake", unit="ips", low="", high="0.07"))
    own = Schedule(replace(SCHEDULE.data, run_limits=limits))
    facts = standing().facts
    read = next(_reads(own, "pre-oil", "shake", "0.071", facts.now))
    assert (
        "Pre-oil: shake was 0.071 ips, to be at most 0.07 ips."
        in Standing(own, replace(facts, reads=[*facts.reads, read])).outside
    )


def test_limits_of_every_step_ask_from_pre_oil_until_the_engine_has_stopped():
    asked = {step.code: [str(spot) for spot in SCHEDULE.wanted_at(step.code)] for step in SCHEDULE.steps}
    assert asked["pre-oil"] == ["oil pressure"]
    assert "oil pressure" in asked["warm"], "only a limit of every step names it there"
    assert asked["stopped"] == [], "a stopped engine has no oil pressure"
