"""A pack is read whole or not at all, and every mistake in it is told with its file and line."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engines.packs.reading import PackMistakes, pack_of, read_pack, read_zip
from tests.engines.packs.mistaken import LIMITS_EDITS, PACK_EDITS, PARTS_EDITS, ROUTE_EDITS
from tests.making_packs import small_pack
from tests.pack_files import files_of, zip_of
from tests.published.limit_tables import BUSHING_BORE, PIN, PISTON_BORE, PRINTED_PIN_IN_BUSHING, PRINTED_PIN_IN_PISTON

FILES = files_of(small_pack())
LATIN = FILES["parts.csv"].encode().replace(b"Piston", b"Pist\xf6n")
EDITS = {"pack.yaml": PACK_EDITS, "parts.csv": PARTS_EDITS, "route.yaml": ROUTE_EDITS, "limits.csv": LIMITS_EDITS}
CHANGES = [(file, old, new, said) for file, edits in EDITS.items() for old, new, said in edits]


def edited(file, *changes):
    """The files with the first of each old text in one of them replaced."""
    text = FILES[file]
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return FILES | {file: text}


def mistakes_in(files):
    """Each mistake as file, line and what is wrong, without what would be right."""
    with pytest.raises(PackMistakes) as raised:
        pack_of({name: text if isinstance(text, bytes) else text.encode() for name, text in files.items()})
    assert all(mistake.right for mistake in raised.value.mistakes)
    return [f"{mistake.place}: {mistake.wrong}" for mistake in raised.value.mistakes]


def read(files):
    return pack_of({name: text.encode() for name, text in files.items()})


@pytest.fixture
def folder(tmp_path):
    for name, text in FILES.items():
        (tmp_path / name).write_text(text)
    return tmp_path


def test_a_folder_and_a_zip_give_the_same_pack(folder):
    packed, wrapped = folder.parent / "t2-90.zip", {f"t2-90/{name}": text for name, text in FILES.items()}
    packed.write_bytes(zip_of(FILES))
    assert read_pack(folder) == read_pack(packed) == read_zip(zip_of(wrapped)) == small_pack()


@pytest.mark.parametrize(("file", "old", "new", "said"), CHANGES)
def test_a_mistake_is_told_with_its_file_and_line(file, old, new, said):
    assert mistakes_in(edited(file, (old, new))) == said


def test_every_mistake_is_told_at_once():
    files = edited("limits.csv", ("in,2.1240", "furlong,2.1240"), ("0.0130", "0,013"), (",taper,", ",bend,"))
    files["pack.yaml"] = FILES["pack.yaml"].replace('"opposed"', '"vee"')
    files["route.yaml"] = FILES["route.yaml"].replace('"reading"', '"look"', 1)
    said = mistakes_in(files)
    assert [place.split(": ")[0] for place in said] == [
        *("pack.yaml:4", "route.yaml:6", "limits.csv:2", "limits.csv:10", "limits.csv:12"),
    ]


@pytest.mark.parametrize(
    ("files", "said"),
    [
        ({name: FILES[name] for name in FILES if name != "route.yaml"}, ["route.yaml: the file is missing"]),
        (FILES | {"notes.txt": "x"}, ["notes.txt: a pack has no file “notes.txt”"]),
        (FILES | {"parts.csv": LATIN}, ["parts.csv:6: the line is not UTF-8 text"]),
        (FILES | {"route.yaml": "x" * (1024 * 1024 + 1)}, ["route.yaml: the file is larger than 1 MB"]),
        (FILES | {"route.yaml": ""}, ["route.yaml:1: the file is empty"]),
        (FILES | {"route.yaml": "code: receive-case\n"}, ["route.yaml:1: the route is no list"]),
        (FILES | {"route.yaml": "[]"}, ["route.yaml:1: the route has no operations"]),
        (FILES | {"route.yaml": "- a: 1\n--- \n- b: 2\n"}, ["route.yaml:2: not YAML: but found another document"]),
        (FILES | {"route.yaml": "- a: \x07\n"}, ["route.yaml:1: a sign that YAML does not allow"]),
        (FILES | {"pack.yaml": "- model\n"}, ["pack.yaml:1: the file is no mapping"]),
        (FILES | {"parts.csv": FILES["parts.csv"].splitlines()[0]}, ["parts.csv:1: the parts list has no lines"]),
    ],
)  # fmt: skip
def test_a_file_that_cannot_be_used_is_told(files, said):
    assert mistakes_in(files) == said


def test_a_bomb_of_aliases_is_refused_before_it_swells():
    bomb = "a: &a [x, x]\n" + "".join(f"b{n}: &b{n} [*a, *a]\n" for n in range(30))
    said = mistakes_in(FILES | {"pack.yaml": bomb})
    assert said[0] == "pack.yaml:1: anchors and aliases (& and *) are not used"


def test_a_circle_through_two_areas_is_named():
    files = edited(
        "route.yaml",
        ('"after": ["look-crankshaft"]', '"after": ["look-crankshaft", "fit-pistons"]'),
        ('"names": ["barrel", "skirt-diameter"], "after": [', '"names": ["barrel", "skirt-diameter"], "after": ["fit-mains", '),
    )
    (said,) = mistakes_in(files)
    assert said == "route.yaml:6: these wait for each other: read-mains → fit-pistons → read-barrels → fit-mains → read-mains"


def test_a_circle_that_only_the_stages_close_is_named():
    """Repair of an area begins when its inspection has ended, so each of the two inspections would wait for the other."""
    files = edited(
        "route.yaml",
        ('"after": ["clean-case"], "reasons"', '"after": ["repair-cylinders"], "reasons"'),
        ('"after": ["clean-cylinders"], "scopes"', '"after": ["repair-case"], "scopes"'),
    )  # fmt: skip
    (said,) = mistakes_in(files)
    assert said.startswith("route.yaml:5: these wait for each other: ")
    assert "repair-cylinders → end of inspection of cylinders → gauge-flanges → repair-case → end of inspection of case" in said


def test_a_long_chain_is_walked_without_recursion():
    link = '- {"code": "x%d", "area": "case", "stage": "receiving", "kind": "sign-off", "title": "t", "after": ["%s"], %s}\n'
    cited = '"document": "M", "revision": "3", "page": "9"'
    chain = "".join(link % (n, f"x{n - 1}" if n else "receive-case", cited) for n in range(1200))
    assert len(read(FILES | {"route.yaml": FILES["route.yaml"] + chain}).operations) == 1216


def ranged(*ranges):
    """The files with a line of the choke for each range of serials."""
    line = next(line for line in FILES["limits.csv"].splitlines(keepends=True) if line.startswith("barrel-choke"))
    lines = "".join(line.replace("barrel-choke,,,,", f"barrel-choke,,{first},{last},") for first, last in ranges)
    return FILES | {"limits.csv": FILES["limits.csv"].replace(line, lines)}


@pytest.mark.parametrize(
    ("ranges", "line"),
    [
        ([("L-1", "L-99"), ("L-99", "L-200")], 11),
        ([("", ""), ("L-1", "L-9")], 11),
        ([("L-100", "L-200"), ("M-1", "M-9"), ("L-1", "")], 10),
        ([("L-1", "L-500"), ("L-2", "L-3"), ("L-400", "L-600")], 11),
    ],
)
def test_two_rows_in_force_for_one_serial_are_told(ranges, line):
    said = mistakes_in(ranged(*ranges))
    assert said[0].startswith(f"limits.csv:{line}: row “barrel-choke”, size class “standard” is in force for the same serials")


def test_ranges_side_by_side_are_fine():
    assert len(read(ranged(("L-1", "L-99"), ("L-100", ""), ("M-1", ""), ("L-1-A", "L-99-A"))).limits) == 14


def test_two_open_ranges_that_begin_blank_are_told():
    assert mistakes_in(ranged(("", "L-99"), ("", "M-99"))) == [
        "limits.csv:11: row “barrel-choke”, size class “standard” begins at the same serial as on line 10"
    ]


def printed(bore, pin, fit):
    """The files with printed figures in the three rows of a bearing, its undersize left out."""
    standard = [("2.1240,2.1250,2.1230", pin, ","), ("2.1265,2.1275,,2.1285", bore, ",,"), ("0.0015,0.0035,,0.0050", fit, ",,")]
    files = edited("limits.csv", *[(old, ",".join(new) + end) for old, new, end in standard])
    return {name: "".join(line for line in text.splitlines(True) if "0.010 under" not in line) for name, text in files.items()}


@pytest.mark.parametrize(
    ("bore", "fit"), [(PISTON_BORE, PRINTED_PIN_IN_PISTON), (BUSHING_BORE, PRINTED_PIN_IN_BUSHING)]
)  # fmt: skip
def test_fits_that_an_army_manual_prints_follow_from_its_parts(bore, fit):
    """US Army TM 5-6115-545-34, table 1-2: piston pin in piston and in bushing, as tests/published keeps them."""
    assert read(printed(bore, PIN, fit))


def test_a_printed_fit_with_one_digit_changed_is_told():
    """The same table with 0.0021 made 0.0022: 1.5032 less 1.5011 is 0.0021."""
    assert mistakes_in(printed(BUSHING_BORE, PIN, (PRINTED_PIN_IN_BUSHING[0], "0.0022"))) == [
        "limits.csv:5: new_max 0.0022 of fit “main-clearance”, but its mates give 0.0021 in"
    ]


def test_a_fit_rounded_to_its_own_last_digit_is_fine():
    assert read(edited("limits.csv", ("in,0.0015,0.0035,,0.0050", "in,0.002,0.004,,0.005")))


def test_rows_without_places_take_those_of_their_part():
    files = edited("limits.csv", ("skirt diameter,cylinder 1; cylinder 2", "skirt diameter,"))
    assert read(files) == small_pack()


SCRAPS = ["", "\n", ",", ";", '"', "'", ": ", "- ", "[", "{", "}", "&a ", "*a", "!!int ", "\0", "\ud7ff", "9" * 40, "?", "|", "#"]


@settings(max_examples=100, deadline=None)
@given(file=st.sampled_from(sorted(FILES)), cut=st.integers(0, 4000), length=st.integers(0, 40), scrap=st.sampled_from(SCRAPS))
def test_whatever_is_damaged_a_pack_is_read_or_refused(file, cut, length, scrap):
    """Nothing but a pack or a list of mistakes ever comes out."""
    text = FILES[file]
    cut %= len(text)
    damaged = FILES | {file: text[:cut] + scrap + text[cut + length :]}
    try:
        model = read(damaged).model
    except PackMistakes as refused:
        model = str(refused)
    assert model


def test_a_table_without_end_is_not_read_to_its_end():
    line = FILES["limits.csv"].splitlines(keepends=True)[1]
    said = mistakes_in(FILES | {"limits.csv": FILES["limits.csv"] + line * 3100})
    assert said == ["limits.csv:3001: the table goes on beyond line 3000"]


def test_a_folder_with_a_link_is_refused(folder):
    (folder / "parts.csv").unlink()
    (folder / "parts.csv").symlink_to("/etc/passwd")
    with pytest.raises(PackMistakes, match=r"holds “parts\.csv”, which is a link or a device"):
        read_pack(folder)


def test_a_file_deeper_in_the_folder_is_not_known(folder):
    (folder / "old").mkdir()
    (folder / "old" / "parts.csv").write_text("x")
    with pytest.raises(PackMistakes, match=r"a pack has no file “old/parts\.csv”"):
        read_pack(folder)


def test_a_folder_of_many_files_is_not_read(folder):
    for number in range(197):
        (folder / f"{number}.txt").touch()
    with pytest.raises(PackMistakes, match="holds 201 files"):
        read_pack(folder)
