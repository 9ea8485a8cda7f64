"""What newer engine data change for this visit is settled."""

from engines.release.blockers import Blocker, Situation


def changes_settled(situation: Situation) -> list[Blocker]:
    mine = (line for line in situation.impact if line.area in ("", situation.area.code))
    return [Blocker(f"Newer engine data: {line.words}", "impact") for line in mine if line.settled_at is None]
