"""An engine data pack as plain values: what a reader of files makes and everything else asks. No Django."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass, field, fields
from functools import cached_property
from typing import Any

AREA_STAGES = ("receiving", "teardown", "cleaning", "inspection", "repair", "assembly")
ENGINE = "engine"  # the area that the others become when they meet
ENGINE_STAGES = ("close-up", "test", "final inspection", "release")
STAGES = AREA_STAGES + ENGINE_STAGES
SCOPES = ("overhaul", "repair", "inspection")
REASONS = ("time", "propeller strike", "overspeed", "overheat", "metal found", "immersion", "fire")


def stages_of(area: str) -> tuple[str, ...]:
    """The stages that an area goes through: the whole engine begins where the others end."""
    return ENGINE_STAGES if area == ENGINE else AREA_STAGES


TRACKING = ("serial", "mark", "none")
CITED = ("document", "revision", "page")


@dataclass(frozen=True, kw_only=True)
class Source:
    """Where a row comes from: document, its revision, page or figure."""

    document: str
    revision: str
    page: str

    def __str__(self) -> str:
        return f"{self.document}, revision {self.revision}, {self.page}"


def _cited_in(details: Any) -> Iterator[Source]:
    """Wherever a mapping of the details holds document, revision and page."""
    within: Iterable[Any] = details.values() if isinstance(details, Mapping) else details if isinstance(details, list) else ()
    if isinstance(details, Mapping) and all(isinstance(details.get(name), str) for name in CITED):
        yield Source(**{name: details[name] for name in CITED})
    for each in within:
        yield from _cited_in(each)


def source_of(row: Mapping[str, Any]) -> Source:
    """What a limit row cites."""
    return Source(document=row["document"], revision=row["document_revision"], page=row["page"])


@dataclass(frozen=True, kw_only=True)
class Area:
    code: str
    name: str
    source: Source


@dataclass(frozen=True, kw_only=True)
class Line:
    """A line of the parts list: one part number at one or more positions of an area, each named by its place.

    `tracking` says how a part is known: by serial, by a mark that the shop puts on, or not at all (`none`). `renew` parts are
    never used again.
    """

    line: str
    part_number: str
    name: str
    area: str
    places: tuple[str, ...]
    tracking: str = "mark"
    renew: bool = False
    source: Source


@dataclass(frozen=True, kw_only=True)
class Operation:
    """An operation of the route. `names` are the limit rows or parts list lines that it works on, as its kind wants.

    `scopes` and `reasons` empty mean: always; else only for a visit of that scope, or received for one of the reasons.
    `finds` is the reason that a finding here that is not accepted adds to the visit, such as `metal found`; the operations for
    that reason are then planned. `details` is what its kind alone needs, as texts, lists of texts, and mappings of them.
    """

    code: str
    area: str
    stage: str
    kind: str
    title: str
    words: str = ""
    names: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    hold_point: bool = False
    scopes: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    criterion: str = ""
    caution: str = ""
    finds: str = ""
    details: Mapping[str, Any] = field(default_factory=dict)
    source: Source

    def is_due(self, scope: str, reasons: Iterable[str]) -> bool:
        """Whether it belongs to a visit of this scope, received for these reasons."""
        return (not self.scopes or scope in self.scopes) and (not self.reasons or bool(set(self.reasons) & set(reasons)))

    @property
    def cited(self) -> tuple[Source, ...]:
        """Its own page, and each page that a line of its details names for itself."""
        return (self.source, *_cited_in(self.details))


@dataclass(frozen=True, kw_only=True)
class Pairing:
    """Two size classes whose surfaces may run together in a fit; blank is standard."""

    fit: str
    outer_class: str = ""
    inner_class: str = ""
    source: Source


@dataclass(frozen=True, kw_only=True)
class RenewedSet:
    """Lines of the parts list that are renewed only together."""

    code: str
    name: str
    lines: tuple[str, ...]
    source: Source


@dataclass(frozen=True, kw_only=True)
class Caution:
    code: str
    area: str
    words: str
    source: Source


@dataclass(frozen=True, kw_only=True)
class RunStep:
    """A step of the run on the stand: the speed to hold in rpm (blank: not turning) and the least minutes at it."""

    code: str
    title: str
    rpm: str = ""
    minutes: str
    caution: str = ""
    source: Source


@dataclass(frozen=True, kw_only=True)
class RunLimit:
    """What a channel must show at a step (blank: at every step). Beyond an abort figure the run is ended at once.

    A channel is a plain name such as `oil pressure`, `ignition drop left` or `corrected power`; figures are texts in `unit`.
    """

    step: str = ""
    channel: str
    unit: str
    low: str = ""
    high: str = ""
    abort_low: str = ""
    abort_high: str = ""
    source: Source


@dataclass(frozen=True, kw_only=True)
class RunCheck:
    """What somebody looks at while a step of the run goes on, answered with yes or no, such as *no leak at any joint*."""

    code: str
    step: str
    words: str
    source: Source


@dataclass(frozen=True, kw_only=True)
class Directive:
    number: str
    title: str
    source: Source


@dataclass(frozen=True, kw_only=True)
class PackData:
    """`limits` are fields of a stored limit row, every figure as text."""

    model: str
    model_name: str
    maker: str
    layout: str
    cylinders: int
    revision: str
    label: str
    areas: tuple[Area, ...]
    lines: tuple[Line, ...]
    operations: tuple[Operation, ...]
    limits: tuple[Mapping[str, Any], ...] = field(default=())
    pairings: tuple[Pairing, ...] = ()
    renewed_sets: tuple[RenewedSet, ...] = ()
    cautions: tuple[Caution, ...] = ()
    directives: tuple[Directive, ...] = ()
    run_steps: tuple[RunStep, ...] = ()
    run_limits: tuple[RunLimit, ...] = ()
    run_checks: tuple[RunCheck, ...] = ()
    run_reopens: tuple[str, ...] = ()  # the areas that a failed run opens again
    rated_power: str = ""  # hp at `rated_rpm`, for the power correction
    rated_rpm: str = ""
    run_correction: str = ""  # which correction of power the data name

    @cached_property
    def area_by_code(self) -> dict[str, Area]:
        return {area.code: area for area in self.areas}

    @cached_property
    def line_by_code(self) -> dict[str, Line]:
        return {line.line: line for line in self.lines}

    @cached_property
    def operation_by_code(self) -> dict[str, Operation]:
        return {operation.code: operation for operation in self.operations}

    @cached_property
    def sources(self) -> tuple[Source, ...]:
        """Every page that the pack cites, limit rows included, once each and in order."""
        cited = [part.source for name in PARTS for part in getattr(self, name)]
        cited += [source for operation in self.operations for source in operation.cited]
        cited += [source_of(row) for row in self.limits]
        return tuple(sorted(set(cited), key=lambda source: (source.document, source.revision, source.page)))


PARTS: dict[str, type] = {
    "areas": Area,
    "lines": Line,
    "operations": Operation,
    "pairings": Pairing,
    "renewed_sets": RenewedSet,
    "cautions": Caution,
    "directives": Directive,
    "run_steps": RunStep,
    "run_limits": RunLimit,
    "run_checks": RunCheck,
}


def to_plain(pack: PackData) -> dict[str, Any]:
    """The pack without its limit rows, as lists, texts and flags."""
    plain = {**asdict(pack), "cylinders": str(pack.cylinders)}
    del plain["limits"]
    return plain


def from_plain(plain: Mapping[str, Any]) -> PackData:
    given = {each.name: plain[each.name] for each in fields(PackData) if each.name in plain}
    given["cylinders"] = int(given["cylinders"])
    given["run_reopens"] = tuple(given.get("run_reopens", ()))
    for name, kind in PARTS.items():
        given[name] = tuple(_part(kind, part) for part in given.get(name, ()))
    return PackData(**given)


def _part(kind: type, plain: Mapping[str, Any]) -> Any:
    values = {name: tuple(value) if isinstance(value, list) else value for name, value in plain.items()}
    return kind(**{**values, "source": Source(**plain["source"])})
