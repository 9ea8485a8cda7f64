"""A pack as its files, written from plain values, so that tests can change a line of them."""

import csv
import io
import json
import zipfile
from collections.abc import Mapping
from typing import Any

from engines.catalogue.data import PackData

PARTS = ("line", "part_number", "name", "area", "places", "tracking", "renew", "document", "revision", "page")
LIMITS = (
    *("row", "size_class", "serial_from", "serial_to", "part", "characteristic", "places", "unit"),
    *("new_min", "new_max", "service_min", "service_max"),
    *("alt_unit", "alt_new_min", "alt_new_max", "alt_service_min", "alt_service_max", "worn", "rule", "basis", "decimals"),
    *("outer_row", "inner_row", "outer_planes", "inner_planes", "from_row", "quantity", "planes", "directions"),
    *("set_up", "condition", "required", "document", "revision", "page"),
)
HEAD = ("model", "model_name", "maker", "layout", "cylinders", "revision", "label")
LISTS = ("areas", "pairings", "renewed_sets", "cautions", "directives")
RUN_HEAD = ("rated_power", "rated_rpm", "run_correction", "run_reopens")
RUN_LISTS = ("run_steps", "run_limits", "run_checks")


def files_of(pack: PackData) -> dict[str, str]:
    """Each entry on one line: an entry of a list is a mapping in braces, which is YAML as well."""
    head = [f"{name}: {json.dumps(str(getattr(pack, name)))}" for name in HEAD]
    for name in filter(lambda name: getattr(pack, name), LISTS):
        head += [f"{name}:", *(f"  - {_entry(part)}" for part in getattr(pack, name))]
    head += [f"{name}: {json.dumps(getattr(pack, name))}" for name in RUN_HEAD if getattr(pack, name)]
    for name in RUN_LISTS:
        if parts := getattr(pack, name):
            head += [f"{name}:", *(f"  - {_entry(part)}" for part in parts)]
    limits = [row | {"revision": row["document_revision"], "required": "" if row["required"] else "no"} for row in pack.limits]
    return {
        "pack.yaml": "\n".join(head) + "\n",
        "parts.csv": _table(PARTS, [vars(part) | vars(part.source) | {"renew": "yes" * part.renew} for part in pack.lines]),
        "route.yaml": "".join(f"- {_entry(operation)}\n" for operation in pack.operations),
        "limits.csv": _table(LIMITS, limits),
    }


def zip_of(files: Mapping[str, str | bytes]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return packed.getvalue()


def _entry(part: Any) -> str:
    return json.dumps({name: value for name, value in (vars(part) | vars(part.source)).items() if name != "source" and value})


def _table(columns: tuple[str, ...], rows: list[Mapping[str, Any]]) -> str:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows([_cell(row[column]) for column in columns] for row in rows)
    return text.getvalue()


def _cell(value: Any) -> str:
    return "; ".join(value) if isinstance(value, list | tuple) else "" if value is None else str(value)
