"""The run on the stand, and what a kind of step alone needs, in a pack: read without loss, refused with its line."""

from dataclasses import replace

import pytest

from engines.catalogue.changes import Change, changes_between
from engines.catalogue.data import from_plain, to_plain
from engines.packs.reading import PackMistakes, pack_of
from tests.making_packs import running_pack
from tests.pack_files import files_of

PACK = running_pack()
FILES = files_of(PACK)
OIL = '"channel": "oil pressure", "unit": "psi", "low": "25", "high": "90", "abort_low": "10"'


def read(files):
    return pack_of({name: text.encode() for name, text in files.items()})


def line_of(file, text):
    return FILES[file][: FILES[file].index(text)].count("\n") + 1


def said_of(file, old, new):
    """What is wrong once a text is another, without what would be right; the line is that of the text that was there."""
    assert old in FILES[file]
    with pytest.raises(PackMistakes) as refused:
        read(FILES | {file: FILES[file].replace(old, new, 1)})
    place = f"{file}:{line_of(file, old)}: "
    assert all(mistake.right for mistake in refused.value.mistakes)
    return [f"{mistake.place}: {mistake.wrong}".removeprefix(place) for mistake in refused.value.mistakes]


def test_files_and_plain_values_lose_nothing():
    assert read(FILES) == PACK
    assert from_plain({**to_plain(PACK), "limits": PACK.limits}) == PACK


@pytest.mark.parametrize(
    ("old", "new", "wrong"),
    [
        ('"minutes": "3"', '"minutes": "some"', "minutes “some” is no figure above zero"),
        ('"rpm": "1000"', '"rpm": "-1000"', "rpm “-1000” is no figure above zero"),
        ('"title": "Oil to every bearing"', '"title": "Oil", "rpm": "900"', "the engine turns at the first step, “pre-oil”"),
        ('"code": "full"', '"code": "warm"', "the run step “warm” stands on line"),
        ('"caution": "arc"', '"caution": "club"', "there is no caution “club”"),
        ('{"step": "full", "channel": "oil', '{"step": "half", "channel": "oil', "there is no run step “half”"),
        ('"step": "warm", "words"', '"step": "warming", "words"', "there is no run step “warming”"),
        (OIL, OIL.replace('"90"', '"9O"'), "high “9O” is no number"),
        (OIL, OIL.replace('"90"', '"20"'), "limits are reversed: low 25 is above high 20 (psi)"),
        (OIL, OIL.replace('"10"', '"30"'), "limits are reversed: abort_low 30 is above low 25 (psi)"),
        ('"high": "210", "abort_high": "240"', '"high": "250", "abort_high": "240"', "limits are reversed: high 250 is above"),
        (', "high": "210", "abort_high": "240"', "", "the limit of “oil temperature” says nothing"),
        ('run_reopens: ["cylinders"]', 'run_reopens: ["sump"]', "there is no area “sump”"),
        ('run_reopens: ["cylinders"]', 'run_reopens: ["engine"]', "there is no area “engine”"),
        ('rated_power: "90"', 'rated_power: "ninety"', "rated_power “ninety” is no figure above zero"),
    ],
)
def test_a_run_that_cannot_be_followed_is_told_with_its_line(old, new, wrong):
    assert said_of("pack.yaml", old, new)[0].startswith(wrong)


def test_power_is_rated_at_a_speed_and_corrected_by_name():
    said = said_of("pack.yaml", 'rated_rpm: "2500"\nrun_correction: "classic 460/520"\n', "")
    assert [each.partition(": ")[2] for each in said] == [
        "power is rated, but no correction is named",
        "rated_power and rated_rpm stand only together",
    ]


def test_a_run_needs_the_whole_engine_as_an_area():
    gone = replace(PACK, areas=PACK.areas[:2], operations=PACK.operations[:-3], cautions=(), run_steps=PACK.run_steps[:1])
    with pytest.raises(PackMistakes, match="there is a run on the stand, but no whole engine; list the area engine"):
        read(files_of(replace(gone, run_limits=(), run_checks=())))


@pytest.mark.parametrize(
    ("old", "new", "wrong"),
    [
        ('"finds": "metal found"', '"finds": "a mouse"', "finds “a mouse” is not known"),
        ('"title": "Flush the oil lines"', '"title": "Flush", "finds": "fire"', "the operation “flush-lines” finds fire, but a"),
        ('"title": "Flush the oil lines"', '"title": "F", "details": {"colour": "red"}', "the operation “flush-lines”: the kind"),
        ('"title": "Flush the oil lines"', '"title": "F", "details": ["red"]', "details is no mapping"),
        ('"title": "Flush the oil lines"', '"title": "F", "details": {"a": {"b": {"c": {"d": ["e"]}}}}', "details nest too deep"),
        ('"title": "Flush the oil lines"', '"title": "F", "details": {"a": yes}', "“yes” is no text in YAML"),
        ('"title": "Flush the oil lines"', '"title": "F", "details": {"a": ""}', "details hold a blank"),
        ('"title": "Flush the oil lines"', '"title": "F", "details": {"a": "1", "a": "2"}', "the key “a” stands there twice"),
        ('"title": "Flush the oil lines"', f'"title": "F", "details": {{"a": {["x"] * 401}}}', "details hold more than 400"),
    ],
)
def test_what_a_kind_cannot_use_is_told_with_its_line(old, new, wrong):
    assert [each for each in said_of("route.yaml", old, new) if each.startswith(wrong)]


def test_two_revisions_of_a_run_are_compared():
    fuller = replace(PACK.run_limits[0], high="95")
    newer = replace(PACK, revision="2", run_limits=(fuller, *PACK.run_limits[1:]), run_steps=PACK.run_steps[:2], rated_rpm="2600")
    assert [change[:3] for change in changes_between(PACK, newer)] == [
        ("model", "T2-90", "rated rpm"),
        ("step of the run", "full", "taken out"),
        ("limit of the run", "oil pressure", "high (every step)"),
    ]


def test_details_are_compared_in_words():
    operations = (*PACK.operations[:-1], replace(PACK.operations[-1], details={"lines": [{"name": "A", "times": "2"}, "B"]}))
    assert changes_between(PACK, replace(PACK, operations=operations)) == [
        Change("operation", "flush-lines", "details", "", "lines name A, times 2; B")
    ]
