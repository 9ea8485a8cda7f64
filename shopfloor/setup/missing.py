"""What this machine lacks, as the names of Debian's packages on one line. Runs on a bare Python: no package is there yet.

Usage: python missing.py product|tests
"""

import ctypes
import importlib.util
import shutil
import sys

# What WeasyPrint 70 opens by these names at its import, and harfbuzz-subset, which it asks for.
LIBRARIES = {
    "libpango-1.0.so.0": "libpango-1.0-0",
    "libpangoft2-1.0.so.0": "libpangoft2-1.0-0",
    "libharfbuzz.so.0": "libharfbuzz0b",
    "libharfbuzz-subset.so.0": "libharfbuzz-subset0",
    "libfontconfig.so.1": "libfontconfig1",
}
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def main(kind: str) -> None:
    print(*(missing_for_tests() if kind == "tests" else missing_for_the_product()))


def missing_for_the_product() -> list[str]:
    """Tried, not asked for by name: a library that came another way is as good."""
    lacking = [] if can_make_environments() else [f"python{sys.version_info[0]}.{sys.version_info[1]}-venv"]
    return lacking + [package for name, package in LIBRARIES.items() if not opens(name)]


def missing_for_tests() -> list[str]:
    return [] if any(map(shutil.which, BROWSERS)) else ["chromium"]


def can_make_environments() -> bool:
    """Debian's Python has `venv` without python3-venv too, but not the pip to put into one."""
    return all(importlib.util.find_spec(name) for name in ("venv", "ensurepip"))


def opens(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


if __name__ == "__main__":
    main(sys.argv[1])
