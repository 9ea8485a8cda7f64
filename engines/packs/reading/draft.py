"""Everything read of a pack, each entry with its line, before it is known to be sound."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Generic, NamedTuple, TypeVar

from engines.catalogue.data import (
    PARTS,
    Area,
    Caution,
    Directive,
    Line,
    Operation,
    PackData,
    Pairing,
    RenewedSet,
    RunCheck,
    RunLimit,
    RunStep,
)
from measurements.metrology.limits import LimitRow

T = TypeVar("T")


class Placed(NamedTuple, Generic[T]):
    """An entry and the line of its file on which it begins."""

    line: int
    entry: T


class Limit(NamedTuple):
    """A limit row: its fields as they are stored, and as exact figures, None where a figure or unit cannot be used."""

    fields: dict[str, Any]
    exact: LimitRow | None

    @property
    def row(self) -> str:
        return str(self.fields["row"])

    @property
    def size_class(self) -> str:
        return str(self.fields["size_class"])

    @property
    def serials(self) -> tuple[str, str]:
        return self.fields["serial_from"], self.fields["serial_to"]

    @property
    def is_fit(self) -> bool:
        return bool(self.fields["outer_row"] or self.fields["inner_row"])

    @property
    def is_derived(self) -> bool:
        return bool(self.fields["from_row"] or self.fields["quantity"])

    @property
    def is_read(self) -> bool:
        return not self.is_fit and not self.is_derived


@dataclass
class Draft:
    """`head_lines` are those of the single keys of pack.yaml."""

    head: dict[str, Any] = field(default_factory=dict)
    head_lines: dict[str, int] = field(default_factory=dict)
    areas: list[Placed[Area]] = field(default_factory=list)
    lines: list[Placed[Line]] = field(default_factory=list)
    operations: list[Placed[Operation]] = field(default_factory=list)
    limits: list[Placed[Limit]] = field(default_factory=list)
    pairings: list[Placed[Pairing]] = field(default_factory=list)
    renewed_sets: list[Placed[RenewedSet]] = field(default_factory=list)
    cautions: list[Placed[Caution]] = field(default_factory=list)
    directives: list[Placed[Directive]] = field(default_factory=list)
    run_steps: list[Placed[RunStep]] = field(default_factory=list)
    run_limits: list[Placed[RunLimit]] = field(default_factory=list)
    run_checks: list[Placed[RunCheck]] = field(default_factory=list)

    @cached_property
    def data(self) -> PackData:
        """All of it as a pack, sound or not."""
        lists: dict[str, Any] = {name: tuple(placed.entry for placed in getattr(self, name)) for name in PARTS}
        return PackData(**self.head, **lists, limits=tuple(placed.entry.fields for placed in self.limits))

    @cached_property
    def area_codes(self) -> set[str]:
        return {area.code for _, area in self.areas}

    @cached_property
    def line_by_code(self) -> dict[str, Line]:
        return _first_of((line.line, line) for _, line in self.lines)

    @cached_property
    def operation_by_code(self) -> dict[str, Operation]:
        return _first_of((operation.code, operation) for _, operation in self.operations)

    @cached_property
    def rows(self) -> dict[str, list[Placed[Limit]]]:
        """The lines of each row: one for each size class and range of serials."""
        rows: dict[str, list[Placed[Limit]]] = defaultdict(list)
        for placed in self.limits:
            rows[placed.entry.row].append(placed)
        return dict(rows)


def _first_of(entries: Iterable[tuple[str, T]]) -> dict[str, T]:
    """By code; where a code stands twice the first entry counts."""
    found: dict[str, T] = {}
    for code, entry in entries:
        found.setdefault(code, entry)
    return found
