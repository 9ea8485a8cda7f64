"""How a required characteristic stands. The rules are the shop's own (common practice, no source); no database."""

from datetime import UTC, datetime, timedelta
from itertools import count
from uuid import UUID

import pytest

from engines.inspection.standing import Decision, Facts, Kind, Read, Requirement, State, standings

DAY = datetime(2026, 3, 2, 8, tzinfo=UTC)
PISTON, OTHER_PISTON, BARREL = (UUID(int=number) for number in (1, 2, 3))
SKIRT = Requirement(row="skirt", place="1", area="a", line="piston", at="1")
BORE = Requirement(row="bore", place="1", area="a", line="barrel", at="1")
CHOKE = Requirement(row="choke", place="1", area="a", line="barrel", at="1", base="bore")
FIT = Requirement(row="fit", place="1", area="a", line="piston", at="1", mates=("bore", "skirt"))
ALL = (SKIRT, BORE, CHOKE, FIT)
_ids = count(100)


def at(hour):
    return DAY + timedelta(hours=hour)


def read(row, verdict="within new limits", hour=1, item=None, **more):
    part = {"skirt": PISTON, "bore": BARREL, "choke": BARREL}.get(row)
    return Read(id=UUID(int=next(_ids)), row=row, place="1", item=item or part, verdict=verdict, at=at(hour), order=0, **more)


def decided(kind, about=None, hour=5, row="skirt", line="piston", **more):
    reading = about.id if about else None
    return Decision(reading=reading, kind=kind, made_at=at(hour), row=row, place="1", line=line, at="1", **more)


def state(requirement, reads, decisions=(), piston=PISTON):
    items = {("piston", "1"): piston, ("barrel", "1"): BARREL}
    (found,) = [each for each in standings(ALL, Facts(reads, decisions, items)) if each.requirement == requirement]
    return found.state


def test_what_nobody_read_is_missing():
    assert {state(each, []) for each in ALL} == {State.MISSING}


@pytest.mark.parametrize("verdict", ["within new limits", "serviceable"])
def test_a_good_reading_is_good(verdict):
    assert state(SKIRT, [read("skirt", verdict)]) == State.GOOD


@pytest.mark.parametrize("verdict", ["outside limits", "too close to call", "not judged"])
def test_any_other_verdict_waits_for_a_decision(verdict):
    assert state(SKIRT, [read("skirt", verdict)]) == State.UNDECIDED


@pytest.mark.parametrize(
    ("verdict", "kind", "wanted"),
    [
        ("outside limits", Kind.ACCEPT, State.UNDECIDED),
        ("too close to call", Kind.ACCEPT, State.SETTLED),
        ("not judged", Kind.ACCEPT, State.SETTLED),
        ("outside limits", Kind.CONCESSION, State.SETTLED),
        ("outside limits", Kind.REPLACE, State.PENDING),
        ("outside limits", Kind.SCRAP, State.PENDING),
        ("outside limits", Kind.EXCHANGE, State.PENDING),
        ("outside limits", Kind.REWORK, State.PENDING),
    ],
)
def test_what_a_decision_makes_of_it(verdict, kind, wanted):
    found = read("skirt", verdict)
    assert state(SKIRT, [found], [decided(kind, found)]) == wanted


def test_a_concession_with_one_signature_settles_nothing():
    found = read("skirt", "outside limits")
    assert state(SKIRT, [found], [decided(Kind.CONCESSION, found, complete=False)]) == State.UNDECIDED


def test_a_decision_holds_for_the_reading_it_was_made_about_only():
    older, newer = read("skirt", "outside limits", 1), read("skirt", "outside limits", 2)
    assert state(SKIRT, [older, newer], [decided(Kind.CONCESSION, older)]) == State.UNDECIDED


def test_the_newest_decision_counts():
    found = read("skirt", "too close to call")
    decisions = [decided(Kind.ACCEPT, found, 5), decided(Kind.REPLACE, found, 6)]
    assert state(SKIRT, [found], decisions) == State.PENDING
    assert state(SKIRT, [found], decisions[::-1]) == State.PENDING


@pytest.mark.parametrize(("hour", "wanted"), [(4, State.PENDING), (5, State.PENDING), (6, State.GOOD)])
def test_a_rework_makes_what_was_read_until_then_history(hour, wanted):
    assert state(SKIRT, [read("skirt", hour=hour)], [decided(Kind.REWORK, hour=5)]) == wanted


def test_a_reading_of_the_part_that_was_replaced_does_not_count():
    old, new = read("skirt"), read("skirt", "outside limits", 6, item=OTHER_PISTON)
    assert state(SKIRT, [old], piston=OTHER_PISTON) == State.MISSING
    assert state(SKIRT, [old, new], piston=OTHER_PISTON) == State.UNDECIDED


def test_a_part_that_is_not_there_has_no_reading():
    assert state(SKIRT, [read("skirt")], piston=None) == State.MISSING


def test_a_new_part_on_its_way_is_pending_only_at_its_own_place():
    elsewhere = Decision(reading=None, kind=Kind.REPLACE, made_at=at(5), row="", place="2", line="piston", at="2")
    assert state(SKIRT, [], [decided(Kind.REPLACE)]) == State.PENDING
    assert state(SKIRT, [], [elsewhere]) == State.MISSING
    assert state(BORE, [], [decided(Kind.REPLACE)]) == State.MISSING
    assert state(FIT, [], [decided(Kind.REPLACE)]) == State.PENDING


def test_a_corrected_reading_never_counts():
    assert state(SKIRT, [read("skirt", corrected=True)]) == State.MISSING


def test_a_fit_is_made_of_the_last_readings_of_both_mates():
    bore, skirt = read("bore"), read("skirt")
    fit = read("fit", mates=(bore.id, skirt.id))
    assert state(FIT, [bore, skirt, fit]) == State.GOOD
    assert state(FIT, [bore, skirt, fit, read("skirt", hour=3)]) == State.MISSING
    assert state(FIT, [bore, fit]) == State.MISSING


def test_a_derived_value_falls_with_the_reading_it_came_from():
    bore = read("bore")
    choke = read("choke", source=bore.id)
    assert state(CHOKE, [bore, choke]) == State.GOOD
    assert state(CHOKE, [bore, choke, read("bore", hour=3)]) == State.MISSING
    assert state(CHOKE, [bore, choke], [decided(Kind.REWORK, row="bore", line="barrel")]) == State.PENDING


@pytest.mark.parametrize(
    ("fit_verdict", "wanted"),
    [("serviceable", State.GOOD), ("outside limits", State.UNDECIDED), (None, State.MISSING)],
)
def test_a_worn_surface_whose_limit_is_on_the_fit_is_as_good_as_its_fit(fit_verdict, wanted):
    bore, skirt = read("bore"), read("skirt", "not judged", on_fit=True)
    fits = [read("fit", fit_verdict, mates=(bore.id, skirt.id))] if fit_verdict else []
    assert state(SKIRT, [bore, skirt, *fits]) == wanted


def test_a_worn_surface_without_any_fit_waits_for_a_decision():
    (found,) = standings([SKIRT], Facts([read("skirt", "not judged", on_fit=True)], [], {("piston", "1"): PISTON}))
    assert found.state == State.UNDECIDED


def test_of_two_readings_at_one_moment_the_later_on_the_tablet_counts():
    first = read("skirt", "outside limits")
    second = Read(UUID(int=next(_ids)), "skirt", "1", PISTON, "serviceable", first.at, order=1)
    assert state(SKIRT, [second, first]) == State.GOOD


@pytest.mark.parametrize("kind", [Kind.REPLACE, Kind.EXCHANGE, Kind.SCRAP, Kind.REWORK, Kind.CONCESSION, Kind.ACCEPT])
def test_once_the_part_was_read_again_an_old_decision_opens_nothing(kind):
    """Then another part comes for another reason: nobody has decided about what it reads, and the gate must not pass."""
    first, again = read("skirt", "outside limits"), read("skirt", "serviceable", 6)
    old = decided(kind, first, item=PISTON)
    assert state(SKIRT, [first, again], [old]) == State.GOOD
    assert state(SKIRT, [first, again], [old], piston=OTHER_PISTON) == State.MISSING


@pytest.mark.parametrize("kind", [Kind.ACCEPT, Kind.CONCESSION, Kind.REPLACE])
def test_a_second_bad_reading_is_not_covered_by_the_decision_about_the_first(kind):
    first, again = read("skirt", "too close to call"), read("skirt", "too close to call", 6)
    assert state(SKIRT, [first, again], [decided(kind, first)]) == State.UNDECIDED


def test_a_new_part_that_was_read_and_gave_way_in_its_turn_is_not_covered_by_the_first_decision():
    first, new = read("skirt", "outside limits"), read("skirt", "serviceable", 6, item=OTHER_PISTON)
    assert state(SKIRT, [first, new], [decided(Kind.REPLACE, first)], piston=UUID(int=9)) == State.MISSING


def test_a_rework_of_a_part_says_nothing_about_the_one_that_took_its_place():
    first = read("skirt", "outside limits")
    assert state(SKIRT, [first], [decided(Kind.REWORK, first)]) == State.PENDING
    assert state(SKIRT, [first], [decided(Kind.REWORK, first)], piston=OTHER_PISTON) == State.MISSING


def test_a_decision_about_a_fit_is_over_when_either_mate_was_read_again():
    bore, skirt, bore_again = read("bore"), read("skirt"), read("bore", hour=6)
    fit = read("fit", "outside limits", mates=(bore.id, skirt.id))
    newer = read("fit", "serviceable", 6, mates=(bore_again.id, skirt.id))
    replaced = decided(Kind.REPLACE, fit)
    assert state(SKIRT, [bore, skirt, fit], [replaced], piston=OTHER_PISTON) == State.PENDING
    assert state(SKIRT, [bore, skirt, fit, bore_again, newer], [replaced], piston=OTHER_PISTON) == State.MISSING


def test_a_part_that_gives_way_is_still_awaited_when_it_was_read_meanwhile():
    """A crack was found, the part is to be replaced, and its routine reading was taken all the same."""
    crack, routine = decided(Kind.REPLACE, item=PISTON), read("skirt", hour=6)
    assert state(SKIRT, [routine], [crack]) == State.GOOD
    assert state(SKIRT, [routine], [crack], piston=OTHER_PISTON) == State.PENDING
