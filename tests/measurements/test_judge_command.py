"""`manage.py judge` as it is typed: a process with an empty environment."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.measurements.sheets import limit_row, sheet, table

MANAGE = Path(__file__).parents[2] / "manage.py"
LIMITS = table(limit_row("r", new_min="1.0", new_max="2.0", service_max="2.5"))
GOOD, WORN, OUTSIDE = "r,1,1.5,in,", "r,2,2.25,in,", "r,3,2.6,in,"


@pytest.fixture
def run(tmp_path):
    def run(*readings, options=("--out", "O.csv"), environment=None):
        (tmp_path / "L.csv").write_text(LIMITS)
        (tmp_path / "R.csv").write_text(sheet(*readings))
        command = [sys.executable, str(MANAGE), "judge", "--limits", "L.csv", "--readings", "R.csv", *options]
        return subprocess.run(command, cwd=tmp_path, env=environment or {}, capture_output=True, text=True, timeout=60)

    return run


@pytest.mark.parametrize("environment", [{}, {"MAIN_JOURNAL_MODE": "shop"}, {"DJANGO_SETTINGS_MODULE": "nowhere"}])
def test_it_needs_no_environment(run, tmp_path, environment):
    done = run(GOOD, WORN, environment=environment)

    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    assert (tmp_path / "O.csv").read_text() == (
        "row,position,minimum,maximum,mean,verdict,conformity,reason\n"
        "r,1,1.5,1.5,1.500,within new limits,,uncertainty not stated\n"
        "r,2,2.25,2.25,2.2500,serviceable,,uncertainty not stated\n"
    )
    assert not (tmp_path / "var").exists()


def test_one_bad_verdict_shows_in_the_exit_code(run):
    done = run(GOOD, OUTSIDE, options=())
    assert done.returncode == 1
    assert done.stdout.splitlines()[-1] == "r,3,2.6,2.6,2.600,outside limits,,uncertainty not stated"


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--out", "nowhere/O.csv"), "nowhere/O.csv: cannot be written: No such file or directory"),
        (("--out", "R.csv"), "R.csv: is an input"),
        (("--out", "."), ".: is not a file"),
        (("--out", os.devnull), f"{os.devnull}: is not a file"),
        (("--readings", "absent.csv"), "absent.csv: cannot be read: No such file or directory"),
        (("--readings", "."), ".: cannot be read: Is a directory"),
    ],
)
def test_a_file_that_cannot_be_used_is_named(run, tmp_path, options, said):
    done = run(GOOD, options=options)
    assert done.returncode == 2
    assert done.stderr.startswith(said)
    assert {path.name for path in tmp_path.iterdir()} == {"L.csv", "R.csv"}
    assert (tmp_path / "R.csv").read_text() == sheet(GOOD)


def test_it_loads_no_django():
    script = "import sys, measurements.judge; print([name for name in sys.modules if name.split('.')[0] == 'django'])"
    done = subprocess.run([sys.executable, "-c", script], cwd=MANAGE.parent, capture_output=True, text=True, timeout=60)
    assert done.stdout.strip() == "[]"
