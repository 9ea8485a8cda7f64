"""Journals with their shells, pistons with their barrels: a small engine whose data say what goes together. All invented."""

from dataclasses import replace
from typing import Any

from engines.catalogue.data import Line, PackData, RenewedSet
from engines.parts.models import Item
from engines.parts.services import add_item, book_evidence, fit_item
from engines.visits.services import tag_replacement
from tests.making_packs import UNDER, page, running_pack
from tests.making_steps_s3 import Errand

MAINS = ["main 1", "main 2"]
JOURNAL = {"mate": "main journal", "told_by": "its size class", "row": "crank-main"}
SHELL = {"mate": "bearing shell", "told_by": "the class on its back", "line": "shell"}


def row(first: str, second: str, at: str = "page 4-7") -> dict[str, str]:
    return {"first": first, "second": second, "document": "T2-90 invented manual", "revision": "3", "page": at}


MAIN_SHELLS: dict[str, Any] = {
    "places": MAINS,
    "mates": [JOURNAL, SHELL],
    "permitted": [row("standard", "standard"), row("standard", "0.002 under"), row(UNDER, UNDER, "page 4-8")],
}
CHROME: dict[str, Any] = {
    "places": ["cylinder 1"],
    "mates": [{"mate": "barrel", "told_by": "its surface"}, {"mate": "ring", "told_by": "its material"}],
    "permitted": [row("plain steel", "chromed"), row("chromed", "cast iron")],
}


def paired_pack(*sets: RenewedSet) -> PackData:
    """With a shell at each main journal, bolt and nut at each, and the given sets."""
    pack = running_pack()
    shells = tuple(
        Line(line=line, part_number=f"T2-{number}", name=name, area="case", places=tuple(MAINS), source=page("2-3"))
        for line, number, name in (("shell", "310", "Bearing shell"), ("bolt", "311", "Main bolt"), ("nut", "312", "Main nut"))
    )
    operations = tuple(
        replace(each, names=(*each.names, "shell", "bolt", "nut")) if each.code == "tag-case" else each
        for each in pack.operations
    )
    return replace(pack, lines=(*pack.lines, *shells), operations=operations, renewed_sets=sets)


def paired(details: dict[str, Any] = MAIN_SHELLS) -> Errand:
    """Crankshaft and shells tagged, both journals read as standard."""
    work = Errand("permitted-pairing", details, pack=paired_pack())
    work.shop.tag_all(work.visit, "crankshaft", "shell")
    for place in MAINS:
        work.shop.read(work.visit, "crank-main", place, "2.1245")
    return work


def new_part(work: Errand, line: str, place: str, mark: str = "", evidence: str = "C-1") -> Item:
    """Booked in on this visit; put in the place of the tagged one where there is one, else fitted."""
    by, at, known = work.shop.mechanic, work.shop.later(), work.data.line_by_code[line]
    named = {"part_number": known.part_number, "name": known.name, "mark": mark or f"new-{line}-{place}"}
    item = add_item(**named, tracking="mark", origin="booked in", by=by, at=at)
    if evidence:
        book_evidence(item=item, kind="certificate", number=evidence, by=by, at=at)
    if work.visit.tagged.filter(line=line, place=place).exists():
        tag_replacement(visit=work.visit, line=line, place=place, item=item, words="new", by=by, at=at)
    else:
        fit_item(item=item, root=work.visit.engine.item, line=line, place=place, fitted_at=at, by=by, at=at)
    return item
