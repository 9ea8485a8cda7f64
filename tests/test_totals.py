"""What CI reads: the totals, and that a skip is a failure."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.suite import Outcome, Part, in_a_line
from tests.totals import counts_of, in_words

pytestmark = pytest.mark.sqlite  # needs no database: once is enough
ROOT = Path(__file__).resolve().parents[1]
TESTS = """
import pytest
def test_good(): pass
@pytest.mark.skip(reason="nothing to hold")
def test_left_out(): pass
"""


def pytest_in(folder, *arguments):
    (folder / "test_some.py").write_text(TESTS)
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-c", os.devnull, "-p", "no:cacheprovider", *arguments, str(folder)],
        cwd=ROOT,
        env={**os.environ, "PYTEST_ADDOPTS": "", "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"},
        capture_output=True,
        text=True,
        check=False,
    )


def test_a_skip_is_a_failure_where_it_is_asked_for(tmp_path):
    assert pytest_in(tmp_path).returncode == 0
    strict = pytest_in(tmp_path, "-p", "tests.no_skips")
    assert strict.returncode == 1
    assert "A skip is a failure here" in strict.stdout
    assert pytest_in(tmp_path, "-p", "tests.no_skips", "-k", "good").returncode == 0


def test_totals_are_read_from_what_pytest_prints(tmp_path):
    printed = pytest_in(tmp_path).stdout.splitlines()
    assert counts_of([*printed, *printed]) == {"passed": 2, "skipped": 2}
    assert in_words(counts_of(printed)) == "1 passed, 1 skipped"


def test_a_part_over_its_budget_and_one_with_skips_are_named():
    outcome = Outcome(0, counts_of(["=== 2 passed, 1 skipped in 95.00s (0:01:35) ==="]), 95.2)
    told = in_a_line(Part("core", "", 90), outcome)
    assert "2 passed, 1 skipped; 95 s of 90 s, OVER BUDGET. SKIPPED TESTS" in told
