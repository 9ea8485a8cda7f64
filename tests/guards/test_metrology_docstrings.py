"""Every public function of the computation says its units, its shape, what it raises, and where it comes from."""

import ast
import re
from pathlib import Path

import pytest

ROOM = Path(__file__).resolve().parents[2] / "measurements" / "metrology"
SAID = ("Units:", "Raises:", "Source:")
OF_MANY = re.compile(r"Sequence|Mapping|Iterable|ArrayLike|Points|Margins|Allowed")  # what is given has a shape to tell


def public_functions():
    for path in sorted(ROOM.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield pytest.param(node, id=f"{path.relative_to(ROOM).with_suffix('')}.{node.name}")


@pytest.mark.parametrize("function", public_functions())
def test_a_docstring_gives_units_errors_and_source(function):
    told = ast.get_docstring(function) or ""
    wanted = (*SAID, "Shape") if OF_MANY.search(ast.unparse(function.args)) else SAID
    assert [word for word in wanted if word not in told] == []
