"""Parts that an operation works on and that are out with a vendor: nobody signs for what is not here."""

from collections.abc import Iterator

from engines.catalogue.data import Operation
from engines.inspection.facts import Inspection
from engines.steps.registry import step_of
from engines.steps.work import PARTS, Spot
from engines.vendors.queries import out_words


def parts_out(now: Inspection, planned: Operation) -> list[str]:
    """A sentence for each part of the operation that is out now; none where the operation is that very work."""
    if step_of(planned.kind).follows_parts_out:
        return []
    return [sentence for spot in _spots(now, planned) if (sentence := where_out(now, spot))]


def waits_for_parts(now: Inspection, planned: Operation) -> list[str]:
    """The same where nothing that it works on is here, so that it cannot even be begun."""
    out = parts_out(now, planned)
    return out if out and len(out) == len(_spots(now, planned)) else []


def where_out(now: Inspection, spot: Spot) -> str:
    """A sentence while the part at a position is out; blank while it is here."""
    order = now.out(*spot)
    line, place = spot
    return out_words(f"{now.rows.data.line_by_code[line].name}, {place},", order) if order else ""


def _spots(now: Inspection, planned: Operation) -> list[Spot]:
    if step_of(planned.kind).names_what == PARTS:
        lines = (now.rows.data.line_by_code[name] for name in planned.names)
        return [(line.line, place) for line in lines for place in line.places]
    return list(dict.fromkeys(_read_on(now, planned)))


def _read_on(now: Inspection, planned: Operation) -> Iterator[Spot]:
    """Where the rows are read; of a fit both its mates."""
    for each in now.rows.requirements:
        if each.row in planned.names:
            mates = [now.rows.by_key.get((row, each.place)) for row in each.mates or (each.row,)]
            yield from ((mate.line, mate.at) for mate in mates if mate)
