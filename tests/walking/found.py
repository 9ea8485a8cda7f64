"""What was found on a visit, what was decided about it, and which reading stands at each place: from the bare rows."""

from typing import Any, NamedTuple

from tests.walking.planned import moment, tagged
from tests.walking.route import ROW_OF
from tests.walking.watch import remembered, rows

FINDINGS = """SELECT id, number, area, line, at, reading_id, row, place FROM inspection_discrepancy
    WHERE visit_id = %s ORDER BY number"""
DECISIONS = """SELECT p.id, p.discrepancy_id, p.kind, p.line, p.at, p.row, p.place, p.made_at, p.second_at,
    (SELECT count(*) FROM inspection_carriedout c WHERE c.disposition_id = p.id),
    (SELECT count(*) FROM inspection_answer a JOIN inspection_workasked w ON w.id = a.request_id
     WHERE w.discrepancy_id = p.discrepancy_id AND a.said = 'refused' AND a.answered_at >= p.made_at)
    FROM inspection_disposition p JOIN inspection_discrepancy d ON d.id = p.discrepancy_id
    WHERE d.visit_id = %s ORDER BY p.made_at"""
READINGS = """SELECT r.id, t.row, t.place, t.item_id, r.verdict, r.taken_at,
    (SELECT count(*) FROM readings_reading c WHERE c.corrects_id = r.id)
    FROM inspection_taken t JOIN readings_reading r ON r.id = t.reading_id
    WHERE t.visit_id = %s ORDER BY r.taken_at, r.sequence"""
GOOD = ("within new limits", "serviceable")
NEW_PART = ("replace", "scrap", "exchange")


class Finding(NamedTuple):
    """A discrepancy."""

    id: Any
    number: int
    area: str
    line: str
    at: str
    reading: Any
    row: str
    place: str


class Decision(NamedTuple):
    """`carried_out` and `refused` are how often that was said."""

    id: Any
    about: Any
    kind: str
    line: str
    at: str
    row: str
    place: str
    made_at: Any
    second_at: Any
    carried_out: int
    refused: int

    @property
    def counts(self) -> bool:
        return not self.refused and (self.kind != "concession" or self.second_at is not None)


class Read(NamedTuple):
    id: Any
    row: str
    place: str
    item: Any
    verdict: str
    at: Any
    corrected: int


class Found:
    def __init__(self, visit: Any) -> None:
        self.findings = [Finding(*row) for row in rows(FINDINGS, visit)]
        self.decisions = [Decision(*row) for row in rows(DECISIONS, visit)]
        self.reads, self.tagged = [Read(*row) for row in rows(READINGS, visit)], tagged(visit)

    def last(self, finding: Finding) -> Decision | None:
        """The decision that counts."""
        return ([each for each in self.decisions if each.about == finding.id and each.counts] or [None])[-1]

    def about(self, read: Read) -> list[Decision]:
        """The decisions that count about a reading."""
        raised = {each.id for each in self.findings if each.reading == read.id}
        return [each for each in self.decisions if each.counts and each.about in raised]

    def standing(self, spot: tuple[str, str]) -> Read | None:
        """The last reading of the part that is there, none after a rework."""
        row, place, item = ROW_OF[spot[0]], spot[1], self.tagged[spot].item if spot in self.tagged else None
        reworks = [
            each.made_at for each in self.decisions if each.counts and (each.kind, each.row, each.place) == ("rework", row, place)
        ]
        able = [each for each in self.reads if (each.row, each.place, each.item) == (row, place, item) and not each.corrected]
        able = [each for each in able if not reworks or moment(each.at) > moment(reworks[-1])]
        return able[-1] if able and item else None

    def is_usable(self, read: Read) -> bool:
        """Good, or decided so that the part stays as it is."""
        kind = (self.about(read) or [None])[-1]
        said = kind.kind if kind else ""
        return (
            read.verdict in GOOD or said == "concession" or (said == "accept within limits" and read.verdict != "outside limits")
        )

    def is_latest(self, finding: Finding) -> bool:
        """Whether its reading is the last one of its part."""
        mine = next(each for each in self.reads if each.id == finding.reading)
        same = [each for each in self.reads if each[1:4] == mine[1:4] and not each.corrected]
        return bool(same) and same[-1].id == mine.id

    def is_open(self, finding: Finding) -> bool:
        """Whether somebody must still decide."""
        if finding.reading is None:
            return self.last(finding) is None
        read = self.standing((finding.line, finding.at))
        return read is not None and read.id == finding.reading and not self.is_usable(read) and not self.about(read)

    def is_done(self, finding: Finding, made: Decision) -> bool:
        """Whether what was decided asks for nothing more."""
        if made.kind in NEW_PART:
            stays = made.kind != "scrap" and finding.reading is not None and not self.is_latest(finding)
            return stays or self._came(made)
        if made.kind != "rework":
            return True
        read = self.standing((made.line, made.at)) if made.row else None
        return (read is not None and self.is_usable(read)) if made.row else bool(made.carried_out)

    def _came(self, made: Decision) -> bool:
        now = self.tagged.get((made.line, made.at))
        return now is not None and now.item is not None and now.tagged_at > moment(made.made_at)


found_on = remembered(Found)
