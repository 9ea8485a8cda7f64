"""Writes that may not stand in views, API and tasks: those go through a service."""

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.guards.rooms import FLOORS

SURFACES = {"views", "api", "tasks"}
WRITING_CALLS = {
    "save", "create", "bulk_create", "update", "bulk_update", "delete", "get_or_create", "update_or_create",
    "acreate", "asave", "aupdate", "adelete", "abulk_create", "aget_or_create", "aupdate_or_create", "execute", "executemany",
    "raw", "select_for_update",
}  # fmt: skip
WRITING_NAMES = {
    "ModelForm", "modelform_factory", "modelformset_factory", "ModelSerializer", "HyperlinkedModelSerializer",
    "CreateModelMixin", "UpdateModelMixin", "DestroyModelMixin", "ModelViewSet", "CreateAPIView", "UpdateAPIView",
    "DestroyAPIView", "ListCreateAPIView", "RetrieveUpdateAPIView", "RetrieveDestroyAPIView", "RetrieveUpdateDestroyAPIView",
    "CreateView", "UpdateView", "DeleteView", "connection", "connections",
}  # fmt: skip


def faults(root: Path) -> list[str]:
    found = []
    for floor in FLOORS:
        for path in sorted((root / floor).rglob("*.py")):
            tree = ast.parse(path.read_text())
            where = path.relative_to(root)
            found += [f"{where}:{line}: {what}" for line, what in admin_faults(tree)]
            if SURFACES & set(where.with_suffix("").parts):
                found += [f"{where}:{line}: {what}" for line, what in surface_faults(tree)]
    return found


def surface_faults(tree: ast.AST) -> Iterator[tuple[int, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in WRITING_CALLS:
            yield node.lineno, f"calls .{node.func.attr}(): move the write into the room's services"
        name = getattr(node, "id", getattr(node, "attr", None))
        if isinstance(node, ast.Name | ast.Attribute) and name in WRITING_NAMES:
            yield node.lineno, f"uses {name}: it writes past the services"
        if isinstance(node, ast.ImportFrom):
            for alias in node.names:
                if alias.name in WRITING_NAMES:
                    yield node.lineno, f"imports {alias.name}: it writes past the services"


def admin_faults(tree: ast.AST) -> Iterator[tuple[int, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("django.contrib.admin"):
            yield node.lineno, "imports the Django admin: it writes past the services"
        if isinstance(node, ast.Constant) and node.value == "django.contrib.admin":
            yield node.lineno, "installs the Django admin: it writes past the services"
