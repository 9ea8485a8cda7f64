"""What must be decided on one engine: the limit rows in force for its serial, at every place that each names."""

from collections.abc import Iterable
from threading import Lock
from uuid import UUID

from engines.catalogue.data import PackData
from engines.catalogue.queries import rows_of
from engines.inspection.standing import Requirement
from engines.visits.models import Visit
from engines.visits.route import data_for
from measurements.limits.models import LimitRow
from measurements.limits.serials import in_range

KEPT = 1024
_kept: dict[tuple[UUID, str, str, tuple[str, ...], tuple[str, ...]], "Rows"] = {}
_lock = Lock()


class Rows:
    """The rows of a pack for one serial: by name and size class, and the requirements that they make.

    Required is what the data say so of, as far as an operation of this visit's route is about it.
    """

    def __init__(self, data: PackData, rows: tuple[LimitRow, ...], serial: str, scope: str, reasons: Iterable[str]) -> None:
        self.data = data
        self.by_id = {row.pk: row for row in rows}
        due = [operation for operation in data.operations if operation.is_due(scope, reasons)]
        self._due = {name for operation in due for name in operation.names}
        self._by_name: dict[str, dict[str, LimitRow]] = {}
        for row in rows:
            if in_range(serial, row.serial_from, row.serial_to):
                self._by_name.setdefault(row.row, {})[row.size_class] = row
        self._any = {name: found[min(found)] for name, found in self._by_name.items()}
        self._derived: dict[str, list[str]] = {}
        self._fits: dict[str, list[str]] = {}
        for name, row in self._any.items():
            if row.from_row:
                self._derived.setdefault(row.from_row, []).append(name)
            for mate in {row.outer_row, row.inner_row} - {""}:
                self._fits.setdefault(mate, []).append(name)
        self.requirements = tuple(each for name in self._by_name for each in self._required(self.any(name)))
        self.by_key = {requirement.key: requirement for requirement in self.requirements}

    def classes(self, name: str) -> tuple[str, ...]:
        """The size classes that a row exists for, standard (blank) first."""
        return tuple(sorted(self._by_name.get(name, ())))

    def row(self, name: str, size_class: str = "") -> LimitRow | None:
        return self._by_name.get(name, {}).get(size_class)

    def any(self, name: str) -> LimitRow:
        """The row itself, whatever its class: what is the same in all of them. Raises KeyError."""
        return self._any[name]

    def has(self, name: str) -> bool:
        return name in self._by_name

    def derived_from(self, name: str) -> list[str]:
        return self._derived.get(name, [])

    def fits_of(self, name: str) -> list[str]:
        return self._fits.get(name, [])

    def around(self, name: str) -> set[str]:
        """The row, what it is derived from or made of, what is derived from it, its fits, and the mates of those."""
        row = self._any.get(name)
        fits = [name] if row and row.is_fit else self.fits_of(name)
        made_of = {row.from_row} - {""} if row else set()
        mates = {mate for fit in fits for mate in (self.any(fit).outer_row, self.any(fit).inner_row)}
        return {name, *made_of, *self.derived_from(name), *fits, *mates}

    def _required(self, row: LimitRow) -> list[Requirement]:
        line = self.data.line_by_code[row.part]
        return [
            Requirement(
                row=row.row,
                place=place,
                area=line.area,
                line=line.line,
                at=place if place in line.places else line.places[0],
                mates=(row.outer_row, row.inner_row) if row.is_fit else None,
                base=row.from_row,
                condition=row.condition,
                required=row.required and (row.from_row or row.row) in self._due,
            )
            for place in row.places or line.places
        ]


def rows_for(visit: Visit) -> Rows:
    """Packs never change, nor what was added to one: what was worked out once for a serial and a route holds."""
    serial = visit.engine.item.serial
    key = (visit.pack_id, serial, visit.scope, tuple(visit.reasons), tuple(visit.added))
    with _lock:
        found = _kept.get(key)
    if found is None:
        found = Rows(data_for(visit), rows_of(visit.pack), serial, visit.scope, visit.reasons)
        with _lock:
            if len(_kept) >= KEPT:
                _kept.clear()
            _kept[key] = found
    return found
