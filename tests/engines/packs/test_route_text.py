"""The text of a route is cut at its operations: one is changed, moved or taken out, and the rest stays to the last sign."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engines.packs.drafts import operations_of
from engines.packs.reading import PackMistakes
from engines.packs.route_text import cut, faults_of, fields_of, pack_with
from engines.packs.writing import operation_text, route_of, typed_entry
from tests.engines.packs.test_writing import operations
from tests.making_packs import small_pack

DEMO = Path("engines/scenario/data/packs")
WRITTEN = """\
# demonstration
# of a route

- code: one
  title: 'first'
  words: |
    several lines

    # no comment

# why the second is there
-   code: two
    details: {a: 1}  # as the page says

# stands apart

- code: three
"""


def said(text):
    with pytest.raises(PackMistakes) as found:
        cut(text)
    return str(found.value)


def test_each_operation_has_its_lines_and_the_comment_right_above_it():
    route = cut(WRITTEN)
    assert route.text == WRITTEN
    assert route.head == "# demonstration\n# of a route\n\n"
    assert route.blocks[1].startswith("# why the second is there\n-   code: two\n")
    assert route.blocks[2] == "- code: three\n"
    assert route.starts == [4, 11, 17]


def test_one_is_changed_and_all_else_stays():
    entry = "- code: two\n  title: anew\n"
    before = "-   code: two\n    details: {a: 1}  # as the page says\n"
    assert cut(WRITTEN).with_entry(1, entry).text == WRITTEN.replace(before, entry)


def test_one_is_added_moved_and_taken_out():
    route = cut(WRITTEN)
    added = route.with_more(1, "- code: more")
    assert [each.code for each in operations_of(added.text)] == ["one", "more", "two", "three"]
    assert [each.code for each in operations_of(route.with_more(3, "- code: more").text)] == ["one", "two", "three", "more"]
    assert [each.code for each in operations_of(route.moved(0, 2).text)] == ["two", "three", "one"]
    assert route.moved(0, 2).moved(2, 0).blocks == route.blocks
    assert route.without(1).text == WRITTEN.replace(route.blocks[1], "")
    assert "# why the second" in route.moved(1, 0).blocks[0]


def test_an_entry_comes_in_as_deep_as_the_others():
    text = "  - code: one\n  - code: two"
    assert cut(text).with_entry(0, "- code: new\n  title: x\n").text == "  - code: new\n    title: x\n  - code: two\n"


def test_the_last_is_taken_out_and_another_put_in():
    empty = cut("- code: one\n").without(0)
    assert (empty.text, empty.blocks) == ("", ())
    assert empty.with_more(0, "- code: two").text == "- code: two\n\n"


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("code: one", "route.yaml:1: the route is no list"),
        ("[{code: one}]", "route.yaml:1: the route is no list; begin each operation with a dash"),
        ("- code: one\n- just words", "route.yaml:2: an entry of the route is no mapping"),
        ("- code: 'one\n- code: two", "not YAML"),
        ("- code: one\n  title: a\u2028b", "route.yaml:2: there is a line break that is no plain one"),
        ("- &a\n  code: one", "anchors and aliases"),
        ("- code: \x07", "a sign that YAML does not allow"),
    ],
)
def test_what_is_no_list_of_operations_is_refused(text, sentence):
    assert sentence in said(text)


def test_an_entry_that_would_swallow_the_next_one_is_refused():
    with pytest.raises(PackMistakes):
        cut("- code: one\n- code: two\n").with_entry(0, "- code: 'one")


def test_fields_of_an_operation_and_its_details_as_they_stand():
    details = "# of page 4\nunit: lbf in\npasses:\n  - {low: '1'}"
    below = "\n".join(f"    {each}" for each in details.splitlines())
    block = f"- code: one\n  hold_point: yes\n  after:\n    - two\n  details:\n{below}\n  page: 1-1\n"
    assert fields_of(block) == {
        "code": "one",
        "hold_point": True,
        "after": ["two"],
        "details": details,
        "page": "1-1",
    }
    assert fields_of("- {code: one, details: {a: [b, c]}, page: '2'}")["details"] == "{a: [b, c]}"


@pytest.mark.parametrize(
    "block",
    ["- code: one\n  colour: red", "- code: one\n  code: two", "- code: [a]", "- after: two", "- hold_point: perhaps", "- x"],
)
def test_what_a_form_would_lose_is_left_to_the_text(block):
    assert fields_of(block) is None


@settings(deadline=None, max_examples=60)
@given(operation=operations)
def test_through_the_form_and_back_an_operation_is_the_same(operation):
    fields = fields_of(operation_text(operation))
    if fields is not None:  # a name of several lines fits in no form, and is edited as text
        assert operations_of(typed_entry(fields)) == [operation]
    else:
        assert any("\n" in text for text in (*operation.names, *operation.after))


@settings(deadline=None, max_examples=40)
@given(route=st.lists(operations, min_size=2, max_size=4), data=st.data())
def test_a_route_cut_and_put_together_again_is_the_same(route, data):
    written = cut(route_of(route))
    assert operations_of(written.text) == route
    place, to = (data.draw(st.integers(0, len(route) - 1)) for _ in range(2))
    moved = [each for number, each in enumerate(route) if number != place]
    moved.insert(to, route[place])
    assert operations_of(written.moved(place, to).text) == moved
    assert operations_of(written.without(place).text) == [each for number, each in enumerate(route) if number != place]
    assert operations_of(written.with_entry(place, operation_text(route[to])).text)[place] == route[to]


@pytest.mark.parametrize("folder", ["f6-240", "f4-130", "r5-110"])
def test_the_routes_of_the_invented_shop_are_cut_without_loss(folder):
    text = (DEMO / folder / "route.yaml").read_text()
    route = cut(text)
    assert route.text == text
    read = operations_of(text)
    assert len(route.blocks) == len(read)
    for block, operation in zip(route.blocks, read, strict=True):
        fields = fields_of(block)
        assert operations_of(typed_entry(fields)) == [operation]


def test_what_the_loader_would_say_stands_at_its_operation():
    pack = small_pack()
    text = route_of(pack.operations).replace("kind: fit-check", "kind: guess", 1).replace("- look-crankshaft\n", "- nobody\n", 1)
    faults = faults_of(pack, text)
    places = {place: [each.wrong for each in found] for place, found in enumerate(faults.at) if found}
    assert places == {5: ["there is no operation “nobody”"], 6: ["kind “guess” is not known"]}
    assert faults.elsewhere == []


def test_what_is_wrong_with_the_data_as_a_whole_is_told_apart():
    pack = small_pack()
    without = cut(route_of(pack.operations)).without(1)
    faults = faults_of(pack, without.text)
    assert [each.wrong for each in faults.elsewhere] == ["no operation tags “crankshaft”", "no operation tags “case-half”"]


def test_a_sound_route_makes_a_pack_of_the_same_data():
    pack = small_pack()
    text = route_of(pack.operations[:-1])
    made = pack_with(pack, text, "2")
    assert (made.revision, made.operations) == ("2", pack.operations[:-1])
    assert (made.limits, made.lines, made.areas) == (pack_with(pack, text, "1").limits, pack.lines, pack.areas)
