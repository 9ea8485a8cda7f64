"""Two routes side by side: added, taken out, changed, moved; the old and the new beside each other."""

from dataclasses import replace

from engines.packs.beside import routes_beside
from tests.making_packs import small_pack

ROUTE = small_pack().operations


def told(old, new):
    return [(each.code, each.what) for each in routes_beside(old, new)]


def test_the_same_route_differs_in_nothing():
    assert told(ROUTE, ROUTE) == []


def test_what_was_added_or_taken_out_stands_where_it_stood():
    more = replace(ROUTE[0], code="more", title="One more")
    assert told(ROUTE, (ROUTE[0], more, *ROUTE[1:])) == [("more", "added")]
    assert told((ROUTE[0], more, *ROUTE[1:]), ROUTE) == [("more", "taken out")]
    shown = routes_beside(ROUTE, (more, *ROUTE[1:]))
    assert [(each.code, each.what) for each in shown] == [(ROUTE[0].code, "taken out"), ("more", "added")]
    assert all(not field.before for field in shown[1].fields)
    assert all(not field.after for field in shown[0].fields)


def test_old_and_new_of_a_field_stand_beside_each_other():
    changed = replace(ROUTE[3], criterion="No pit.", hold_point=False, details={"unit": "lbf in"})
    (shown,) = routes_beside(ROUTE, (*ROUTE[:3], changed, *ROUTE[4:]))
    assert shown.what == "changed"
    differing = {each.name: (each.before, each.after) for each in shown.fields if each.differs}
    assert differing == {
        "criterion": (ROUTE[3].criterion, "No pit."),
        "hold point": ("yes", ""),
        "details": ("", "unit lbf in"),
    }
    assert "title" in {each.name for each in shown.fields if not each.differs}


def test_a_change_of_order_is_a_change():
    moved = (*ROUTE[1:4], ROUTE[0], *ROUTE[4:])
    assert told(ROUTE, moved) == [(ROUTE[0].code, "moved")]
    both = (*ROUTE[1:4], replace(ROUTE[0], title="Anew"), *ROUTE[4:])
    assert told(ROUTE, both) == [(ROUTE[0].code, "changed, moved")]
