"""A pack written down and read again is the same pack, to the last byte of its canonical text."""

from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engines.catalogue.data import REASONS, SCOPES, Operation, PackData, Source, to_plain
from engines.packs.reading import pack_of, read_pack
from engines.packs.reading.draft import Draft
from engines.packs.reading.mistakes import Notes
from engines.packs.reading.route import read_route
from engines.packs.writing import files_of, route_of
from shopfloor.ledger.canonical import canonical
from tests.making_packs import running_pack, small_pack

DEMO = Path("engines/scenario/data/packs")


def text_of(pack: PackData) -> bytes:
    return canonical(
        {**to_plain(pack), "limits": [dict(row) for row in pack.limits]},
    )


@pytest.mark.parametrize("folder", ["f6-240", "f4-130", "r5-110"])
def test_the_packs_of_the_invented_shop_come_back_as_they_were(folder):
    pack = read_pack(DEMO / folder)
    again = pack_of(files_of(pack))
    assert again == pack
    assert text_of(again) == text_of(pack)


@pytest.mark.parametrize("pack", [small_pack(), running_pack()], ids=["small", "with a run"])
def test_so_do_packs_that_were_never_files(pack):
    read = pack_of(files_of(pack))
    assert text_of(pack_of(files_of(read))) == text_of(read)
    assert read.operations == pack.operations


SIGNS = st.characters(codec="utf-8", exclude_categories=("Cc",)) | st.sampled_from("\n\t\x85\x9f\u2028 ")
TRICKY = (
    "yes",
    "null",
    "~",
    "1.50",
    "0x1f",
    "- dash",
    "a: b",
    "# no comment",
    "'",
    '"',
    "\\n",
    "=",
    "<<",
    "2001-01-01",
    "&a",
    "*a",
    "!x",
)


def texts(most: int, least: int = 1):
    """What the reader keeps: nothing that no page prints, no blanks around it."""
    some = st.text(SIGNS, max_size=most).map(str.strip) | st.sampled_from(TRICKY)
    return some.filter(lambda text: least <= len(text) <= most)


codes, words = partial(texts, 60), partial(texts, 200)
lists = st.lists(codes(), unique=True, max_size=3).map(tuple)
details = st.recursive(
    words(), lambda inner: st.lists(inner, max_size=3) | st.dictionaries(codes(), inner, max_size=3), max_leaves=5
)
operations = st.builds(
    Operation,
    code=codes(),
    area=codes(),
    stage=st.sampled_from(("teardown", "inspection", "assembly")),
    kind=st.sampled_from(("sign-off", "torque-group", "photo")),
    title=words(),
    words=texts(200, 0),
    names=lists,
    after=lists,
    hold_point=st.booleans(),
    scopes=st.lists(st.sampled_from(SCOPES), unique=True).map(tuple),
    reasons=st.lists(st.sampled_from(REASONS), unique=True).map(tuple),
    criterion=texts(200, 0),
    caution=texts(60, 0),
    finds=st.sampled_from(("", *REASONS)),
    details=st.dictionaries(codes(), details, max_size=3),
    source=st.builds(Source, document=codes(), revision=texts(40), page=texts(40)),
)


@settings(deadline=None, max_examples=120)
@given(route=st.lists(operations, min_size=1, max_size=3))
def test_any_route_that_can_be_read_comes_back_to_the_last_byte(route):
    notes, draft = Notes(), Draft()
    read_route(route_of(route), draft, notes)
    assert list(notes) == []
    again = [placed.entry for placed in draft.operations]
    assert again == route
    plain = [canonical(to_plain(replace(small_pack(), operations=tuple(each)))) for each in (again, route)]
    assert plain[0] == plain[1]
