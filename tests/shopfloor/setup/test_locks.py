"""The locks: no host, a hash for every package, and the one for tests holds the product's whole."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
PINNED = re.compile(r"^([a-z0-9][a-z0-9._-]*)==(\S+)", re.IGNORECASE)


def packages(lock):
    """Each `name==version` line with everything that belongs to it, but not where it comes from."""
    found, name = {}, ""
    for line in (ROOT / lock).read_text().splitlines():
        if pinned := PINNED.match(line):
            name = pinned[1]
        if name and not line.lstrip().startswith("#"):
            found.setdefault(name, []).append(line.rstrip(" \\"))
    return found


@pytest.mark.parametrize("lock", ["requirements.lock", "requirements-dev.lock"])
def test_a_lock_names_no_host_and_pins_by_hash(lock):
    text = (ROOT / lock).read_text()
    assert not re.search(r"https?:|index-url|find-links|trusted-host", text)
    unhashed = [name for name, lines in packages(lock).items() if "--hash=sha256:" not in "".join(lines)]
    assert unhashed == []
    assert len(packages(lock)) > 30


def test_the_lock_for_tests_holds_the_products_whole():
    tests = packages("requirements-dev.lock")
    differing = [name for name, lines in packages("requirements.lock").items() if tests.get(name) != lines]
    assert differing == []
