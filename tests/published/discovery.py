"""Every published check: the modules beside this one that list some."""

import importlib
import pkgutil
from pathlib import Path

from tests.published.check import Check


def checks() -> list[Check]:
    """In the order of the groups, then of their sources as listed."""
    modules = sorted(found.name for found in pkgutil.iter_modules([str(Path(__file__).parent)]) if not found.name.startswith("_"))
    listed = [getattr(importlib.import_module(f"tests.published.{name}"), "CHECKS", []) for name in modules]
    return sorted((check for each in listed for check in each), key=lambda check: check.group)
