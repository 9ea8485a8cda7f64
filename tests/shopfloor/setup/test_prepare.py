"""`make setup`: the script as it runs, on a copy with empty locks, and on machines that lack something."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
pytestmark = pytest.mark.sqlite  # needs no database: once is enough
VENV_PACKAGE = f"python{sys.version_info[0]}.{sys.version_info[1]}-venv"
# Read by every Python that starts with this folder in its path: it takes away what the file `lacking` names.
LACKING = """
import ctypes, pathlib, sys
lacking = (pathlib.Path(__file__).parent / "lacking").read_text().split()
if "ensurepip" in lacking:
    sys.modules["ensurepip"] = None
class Lacking(ctypes.CDLL):
    def __init__(self, name, *rest, **more):
        if name in lacking:
            raise OSError(name)
        super().__init__(name, *rest, **more)
ctypes.CDLL = Lacking
"""
TOOLS = ("sh", "dirname", "cat", "sha256sum", "rm", "touch", "env", "mkdir")


class Machine:
    """A folder with the script, and a PATH on which only the tools stand that we put there."""

    def __init__(self, home: Path, environment: Path) -> None:
        self.project, self.bin, self.python = home / "project", home / "bin", home / "bin/python3"
        shutil.copytree(ROOT / "shopfloor/setup", self.project / "shopfloor/setup", ignore=shutil.ignore_patterns("__pycache__"))
        for lock in ("requirements.lock", "requirements-dev.lock"):
            (self.project / lock).write_text("# nothing\n")
        self.bin.mkdir()
        (home / "sitecustomize.py").write_text(LACKING)
        self.lacking = home / "lacking"
        self.lacking.write_text("")
        for tool in TOOLS:
            (self.bin / tool).symlink_to(shutil.which(tool))
        # To save seconds a new environment is a copy of one that was made once, by the real command.
        copied = f'[ "$1 $2" = "-m venv" ] && exec {shutil.which("cp")} -a {environment} "$3"'
        self.script("python3", f'{copied}\nPYTHONPATH={home} exec {sys.executable} "$@"')
        self.apt_log = home / "apt.log"
        self.apt_log.touch()
        self.script("apt-get", f'echo "$@" >> {self.apt_log}')
        self.script("chromium", "exit 0")
        self.is_user(1000)

    def script(self, name: str, text: str) -> None:
        (self.bin / name).write_text(f"#!/bin/sh\n{text}\n")
        (self.bin / name).chmod(0o755)

    def is_user(self, number: int) -> None:
        self.script("id", f"echo {number}")

    def lacks(self, *things: str) -> None:
        self.lacking.write_text(" ".join(things))

    def run(self, kind: str = "product", **environment: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [self.project / "shopfloor/setup/prepare.sh", kind],
            env={"PATH": str(self.bin), "HOME": str(self.project.parent), **environment},
            capture_output=True,
            text=True,
            check=False,
        )

    def files(self) -> set[Path]:
        return {path.relative_to(self.project) for path in self.project.rglob("*") if "__pycache__" not in path.parts}


@pytest.fixture(scope="module")
def environment(tmp_path_factory):
    made = tmp_path_factory.mktemp("environment") / "made"
    subprocess.run([sys.executable, "-m", "venv", made], check=True)
    return made


@pytest.fixture
def machine(tmp_path, environment):
    return Machine(tmp_path, environment)


def test_who_is_not_root_is_told_one_command_and_nothing_is_changed(machine):
    machine.lacks("ensurepip", "libpango-1.0.so.0", "libharfbuzz-subset.so.0")
    before = machine.files()
    outcome = machine.run()
    assert outcome.returncode == 1
    assert outcome.stdout == f"sudo apt-get install {VENV_PACKAGE} libpango-1.0-0 libharfbuzz-subset0\n"
    assert "nothing was changed" in outcome.stderr
    assert machine.files() == before
    assert machine.apt_log.read_text() == ""


def test_root_has_it_installed(machine):
    machine.is_user(0)
    machine.lacks("libpango-1.0.so.0")
    machine.script("apt-get", f'echo "$@" >> {machine.apt_log}; : > {machine.lacking}')
    outcome = machine.run()
    assert outcome.returncode == 0, outcome.stderr
    assert machine.apt_log.read_text().splitlines()[-1].endswith("install --no-install-recommends libpango-1.0-0")
    assert (machine.project / ".venv/bin/python").exists()


def test_root_is_told_when_installing_did_not_help(machine):
    machine.is_user(0)
    machine.lacks("libpango-1.0.so.0")
    outcome = machine.run()
    assert outcome.returncode == 1
    assert "still missing: libpango-1.0-0" in outcome.stderr
    assert not (machine.project / ".venv").exists()


def test_elsewhere_than_on_debian_the_names_are_told(machine):
    (machine.bin / "apt-get").unlink()
    machine.lacks("libfontconfig.so.1")
    outcome = machine.run()
    assert outcome.returncode == 1
    assert "lacks what Debian calls: libfontconfig1" in outcome.stderr


def test_a_python_that_is_too_old_is_refused(machine):
    machine.script("old", "exit 1")
    outcome = machine.run(PYTHON="old")
    assert outcome.returncode == 1
    assert "old is not Python 3.11 or later" in outcome.stderr


def test_a_second_run_does_nothing_and_a_changed_lock_is_installed(machine):
    assert machine.run().returncode == 0
    assert machine.run().stderr == ""
    (machine.project / "requirements.lock").write_text("# something else\n")
    assert "installing the packages of requirements.lock" in machine.run().stderr
    assert machine.run().stderr == ""


def test_a_half_made_environment_is_made_again(machine):
    (machine.project / ".venv/bin").mkdir(parents=True)
    assert machine.run().returncode == 0
    (machine.project / ".venv/unfinished").touch()
    (machine.project / ".venv/rubbish").touch()
    assert machine.run().returncode == 0
    assert not (machine.project / ".venv/rubbish").exists()
    assert machine.run().stderr == ""


def test_a_lock_that_cannot_be_installed_leaves_the_mark(machine):
    (machine.project / "requirements.lock").write_text("no-such-package==1 --hash=sha256:00\n")
    outcome = machine.run(PIP_NO_INDEX="1")
    assert outcome.returncode != 0
    assert (machine.project / ".venv/unfinished").exists()


def test_the_lock_for_tests_serves_the_product_too(machine):
    assert machine.run("tests").returncode == 0
    assert machine.run("product").stderr == ""


def test_a_missing_browser_stops_nothing_but_is_told(machine):
    (machine.bin / "chromium").unlink()
    outcome = machine.run("tests")
    assert outcome.returncode == 0
    assert "without chromium the browser tests are left out (sudo apt-get install chromium)" in outcome.stderr


def test_a_home_that_cannot_be_written_is_not_needed(machine):
    assert machine.run(HOME="/proc/nowhere").returncode == 0


def test_the_libraries_are_those_that_the_renderer_opens():
    """Outside source: the names in WeasyPrint's own list of libraries, as installed."""
    from shopfloor.setup.missing import LIBRARIES

    renderer = Path(os.__file__).parent / "site-packages/weasyprint/text/ffi.py"
    if not renderer.exists():
        renderer = next(Path(entry) / "weasyprint/text/ffi.py" for entry in sys.path if (Path(entry) / "weasyprint").is_dir())
    opened = renderer.read_text()
    assert [name for name in LIBRARIES if f"'{name}'" not in opened] == []
