"""An operation beyond the route is held against the pack as the route itself was."""

from dataclasses import replace

import pytest

from engines.catalogue.data import Operation
from engines.packs.reading import PackMistakes, read_added
from engines.packs.writing import operation_text, typed_entry
from tests.making_packs import page, small_pack, with_operations

GIVEN = {
    "code": "added-1",
    "area": "case",
    "stage": "receiving",
    "kind": "sign-off",
    "title": "Look again",
    "document": "Maker's letter (invented)",
    "revision": "1",
    "page": "sheet 2",
}


def said(pack=None, **given):
    with pytest.raises(PackMistakes) as found:
        read_added(typed_entry(GIVEN | given), pack or small_pack())
    return str(found.value)


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"kind": "a look"}, "kind “a look” is not known; use one of: strip-and-tag"),
        ({"kind": ""}, "kind “” is not known"),
        ({"title": ""}, "title is blank"),
        ({"document": ""}, "document is blank"),
        ({"page": " "}, "page is blank"),
        ({"area": "gears"}, "there is no area “gears”"),
        ({"stage": "test"}, "area “case” has no stage “test”"),
        ({"code": "tag-case"}, "the operation “tag-case” stands on line 0 already"),
        ({"after": ["polish"]}, "there is no operation “polish”"),
        ({"after": ["read-mains"]}, "“added-1” in receiving waits for “read-mains” in inspection"),
        ({"kind": "reading"}, "names nothing; fill in names"),
        ({"kind": "reading", "names": ["nut"]}, "there is no limit row “nut”"),
        ({"kind": "install-item", "names": ["piston"], "stage": "assembly"}, "“piston” belongs to the area “cylinders”"),
        ({"kind": "strip-and-tag", "names": ["case-half"], "stage": "teardown"}, "is tagged by “tag-case” already"),
        ({"kind": "go-no-go", "names": ["crankshaft"]}, "criterion is blank"),
        ({"kind": "torque-group"}, "the operation “added-1”: passes is missing"),
        ({"details": "a: 1"}, "the kind sign-off knows no details “a”"),
        ({"details": "a: [1\nb"}, "not YAML"),
        ({"details": "just words"}, "details is no mapping"),
        ({"details": "a: &x 1"}, "anchors and aliases"),
        ({"details": "a: 'open"}, "not YAML"),
        ({"details": "a: 1\n- code: more"}, "not YAML"),
    ],
)
def test_what_the_route_could_not_say_is_refused(given, sentence):
    assert sentence in said(**given)


def test_circles_through_the_stages_are_found():
    early = Operation(
        code="early", area="cylinders", stage="receiving", kind="sign-off", title="x", after=("tag-case",), source=page("3-1")
    )
    sentence = said(with_operations(small_pack(), early), after=["early"])
    assert "these wait for each other" in sentence
    assert "end of receiving of case" in sentence


def test_what_was_wrong_with_the_pack_before_is_not_said_of_the_operation():
    pack = small_pack()
    lame = replace(pack, operations=tuple(replace(each, after=("nothing",)) for each in pack.operations))
    assert read_added(typed_entry(GIVEN), lame).title == "Look again"


def test_details_stand_as_typed_below_their_key():
    torque = """
        unit: lbf in
        over: case bolts
        condition: dry
        fasteners:
            - {number: '1', across: '10', down: '10'}
    """
    text = typed_entry(GIVEN | {"kind": "torque-group", "details": torque, "hold_point": True, "names": ["a", "b"]})
    assert "  details:\n    unit: lbf in\n" in text
    assert "hold_point: true" in text
    assert "passes is missing" in said(kind="torque-group", details=torque)


def test_an_operation_reads_as_it_was_written():
    pack = small_pack()
    for each in pack.operations:
        others = tuple(other for other in pack.operations if other is not each)
        assert read_added(operation_text(replace(each, after=())), replace(pack, operations=others)) == replace(each, after=())
