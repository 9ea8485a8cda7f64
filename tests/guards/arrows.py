"""Django's arrows that the import linter cannot see: names in strings and in templates."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from tests.guards.rooms import FLOORS, room_of, rooms

RELATIONS = {"ForeignKey", "OneToOneField", "ManyToManyField"}
ROUTES = {"reverse", "reverse_lazy", "redirect", "resolve_url"}
TEMPLATES = {"render", "render_to_string", "get_template", "select_template"}
EXEMPT = {"settings.py", "urls.py"}
TEMPLATE_TAG = re.compile(r"{%\s*(url|include|extends)\s+[\"']([^\"']+)[\"']")


def faults(root: Path) -> list[str]:
    """Each place that names a room above its own, as a sentence."""
    found = []
    for path, target in arrows(root):
        room, other = room_of(path), rooms().get(target)
        if room and other and not room.may_name(other):
            found.append(f"{path}: {room.name} names {other.name}, which lies above or beside it")
    return found


def arrows(root: Path) -> Iterator[tuple[Path, str]]:
    for floor in FLOORS:
        for path in sorted((root / floor).rglob("*.py")):
            if path.name not in EXEMPT:
                for target in python_targets(path.read_text()):
                    yield path.relative_to(root), target
    for path in sorted((root / "templates").rglob("*.html")):
        if path.name != "base.html":
            for target in template_targets(path.read_text()):
                yield path.relative_to(root), target


def template_targets(text: str) -> Iterator[str]:
    for tag, name in TEMPLATE_TAG.findall(text):
        yield re.split("[:/]", name)[0].removesuffix("-api") if tag == "url" else name.split("/")[0]


def python_targets(source: str) -> Iterator[str]:
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call):
            yield from call_targets(node)
        elif isinstance(node, ast.Assign) and any(getattr(t, "id", "") == "dependencies" for t in node.targets):
            yield from dependency_targets(node.value)
        elif isinstance(node, ast.Attribute) and node.attr == "AUTH_USER_MODEL":
            yield "people"


def call_targets(call: ast.Call) -> Iterator[str]:
    function = getattr(call.func, "attr", getattr(call.func, "id", ""))
    texts = [a.value for a in call.args if isinstance(a, ast.Constant) and isinstance(a.value, str)]
    texts += [
        k.value.value
        for k in call.keywords
        if k.arg in {"to", "app_label", "through", "template_name", "template"}
        and isinstance(k.value, ast.Constant)
        and isinstance(k.value.value, str)
    ]
    if function in RELATIONS | {"get_model"} and texts:
        yield texts[0].split(".")[0].lower()
    elif function in ROUTES and texts:
        yield texts[0].split(":")[0].removesuffix("-api")
    elif function in TEMPLATES or any(text.endswith(".html") for text in texts):
        yield from (text.split("/")[0] for text in texts if text.endswith(".html"))


def dependency_targets(value: ast.expr) -> Iterator[str]:
    for item in getattr(value, "elts", []):
        if isinstance(item, ast.Tuple) and item.elts and isinstance(item.elts[0], ast.Constant):
            yield str(item.elts[0].value)
