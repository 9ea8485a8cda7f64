"""Every public function of the computation says its units, what it raises, and where it comes from."""

import ast
from pathlib import Path

import pytest

ROOM = Path(__file__).resolve().parents[2] / "measurements" / "metrology"
SAID = ("Units", "Raises", "Source")


def public_functions():
    for path in sorted(ROOM.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield pytest.param(node, id=f"{path.relative_to(ROOM).with_suffix('')}.{node.name}")


@pytest.mark.parametrize("function", public_functions())
def test_a_docstring_gives_units_errors_and_source(function):
    told = ast.get_docstring(function) or ""
    assert [word for word in SAID if word.lower() not in told.lower()] == []
