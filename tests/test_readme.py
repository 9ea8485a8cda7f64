"""What the reader is told to type and to set, held against what the product reads and prints."""

import re
from pathlib import Path

import pytest

from measurements.judge import main as judge
from tests.shopfloor.test_compose import TEXT as COMPOSE
from tests.shopfloor.test_compose import names_read

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text()


def tables():
    """The names in the first column of each table of variables."""
    for table in re.findall(r"^\| variable \|.*\n\| --- .*\n((?:\|.*\n)+)", README, re.MULTILINE):
        yield {name for line in table.splitlines() for name in re.findall(r"`([A-Z_]+)`", line.split("|")[1])}


def blocks(first_word):
    """Each indented block that begins with `first_word`, without its indent."""
    for block in re.findall(r"^((?:    .*\n)+)", README, re.MULTILINE):
        if block.startswith(f"    {first_word}"):
            yield re.sub("^    ", "", block, flags=re.MULTILINE)


def test_the_variables_of_compose_are_those_that_it_asks_for():
    for_compose, _ = tables()
    assert for_compose == set(re.findall(r"(?<!\$)\$\{([A-Z_]+)", COMPOSE))


def test_the_variables_of_the_settings_are_those_that_are_read():
    _, for_settings = tables()
    assert for_settings == names_read() | {"MAIN_JOURNAL_MODE"}


def test_the_example_prints_what_the_reader_is_shown(tmp_path):
    """The figures were worked out by hand from the issue's rules: 28.599 mm / 25.4 = 1.125944… in, less 1.1236 = 0.002344…"""
    limits, readings, expected = blocks("row,")
    (tmp_path / "L.csv").write_text(limits)
    (tmp_path / "R.csv").write_text(readings)
    code = judge(["--limits", str(tmp_path / "L.csv"), "--readings", str(tmp_path / "R.csv"), "--out", str(tmp_path / "O.csv")])
    assert code == 1
    assert (tmp_path / "O.csv").read_text() == expected


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_every_file_that_is_named_is_there(name):
    named = re.findall(r"`((?:\.ci|tests|shopfloor|engines|measurements|templates|static)/[\w./-]+)`", (ROOT / name).read_text())
    assert named
    assert [path for path in named if not (ROOT / path).exists()] == []


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_every_target_of_make_that_is_named_is_there(name):
    named = set(re.findall(r"(?:    |`)make ([a-z-]+)", (ROOT / name).read_text()))
    assert named
    assert named <= set(re.findall(r"^([a-z-]+):", (ROOT / "Makefile").read_text(), re.MULTILINE))
