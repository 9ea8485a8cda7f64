"""Two revisions side by side: what was added, what was taken out, what reads otherwise."""

from dataclasses import replace

from engines.catalogue.changes import Change, changes_between
from engines.catalogue.data import Pairing
from tests.making_packs import UNDER, page, small_pack

OLD = small_pack()


def with_row(row, size_class="", **fields):
    """The pack with one line of a limit row changed."""
    changed = [each | fields if (each["row"], each["size_class"]) == (row, size_class) else each for each in OLD.limits]
    assert changed != list(OLD.limits)
    return replace(OLD, revision="2", limits=tuple(changed))


def test_the_same_data_under_a_new_revision_is_no_change():
    assert changes_between(OLD, replace(OLD, revision="2")) == []


def test_a_figure_that_reads_otherwise_names_row_class_and_field():
    assert changes_between(OLD, with_row("crank-main", UNDER, service_min="2.1125")) == [
        Change("limit row", "crank-main", "service min (0.010 under)", "2.1130", "2.1125")
    ]


def test_a_limit_that_appears_stands_beside_a_blank():
    assert changes_between(OLD, with_row("barrel", service_min="4.3690")) == [
        Change("limit row", "barrel", "service min", "", "4.3690")
    ]


def test_another_page_of_the_document_is_a_change():
    assert changes_between(OLD, with_row("barrel", page="page 4-9")) == [
        Change(
            "limit row",
            "barrel",
            "source",
            "T2-90 invented manual, revision 3, page 4-4",
            "T2-90 invented manual, revision 3, page 4-9",
        )
    ]


def test_lists_and_flags_are_told_in_words():
    operations = [
        replace(each, after=("clean-case", "read-mains"), hold_point=False) if each.code == "look-crankshaft" else each
        for each in OLD.operations
    ]
    assert changes_between(OLD, replace(OLD, operations=tuple(operations))) == [
        Change("operation", "look-crankshaft", "after", "clean-case", "clean-case; read-mains"),
        Change("operation", "look-crankshaft", "hold point", "yes", "no"),
    ]


def test_what_comes_and_goes_is_told_whole():
    new_pairing = Pairing(fit="main-clearance", outer_class="", inner_class=UNDER, source=page("7-1"))
    new = replace(OLD, pairings=(*OLD.pairings, new_pairing), directives=())
    added, gone = changes_between(OLD, new)
    assert added[:4] == ("pairing", "main-clearance", "added (standard / 0.010 under)", "")
    assert added.after == "source T2-90 invented manual, revision 3, page 7-1"
    assert gone[:3] == ("directive", "T2-SB-1", "taken out")
    assert (gone.before.startswith("title Look for cracks"), gone.after) == (True, "")


def test_order_alone_is_no_change():
    new = replace(OLD, limits=OLD.limits[::-1], lines=OLD.lines[::-1], areas=OLD.areas[::-1])
    assert changes_between(OLD, new) == []


def test_the_two_directions_mirror_each_other():
    new = with_row("barrel", service_max="4.3790", unit="mm")
    there, back = changes_between(OLD, new), changes_between(new, OLD)
    assert {(change.what, change.before, change.after) for change in there} == {
        (change.what, change.after, change.before) for change in back
    }
