"""The table of moves, the picture of it, and the constraints that repeat it in the database."""

from datetime import UTC, datetime
from itertools import product
from pathlib import Path

import pytest
from django.db import IntegrityError, transaction

from shopfloor.jobs.models import Job
from shopfloor.jobs.states import MOVES, IllegalMove, State, check_move, diagram

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
LEGAL = {
    ("waiting", "running"),
    ("running", "done"),
    ("running", "failed"),
    ("running", "waiting"),
    ("failed", "waiting"),
}


@pytest.mark.parametrize(("old", "new"), sorted(product(State.values, State.values)))
def test_only_the_five_moves_are_legal(old, new):
    if (old, new) in LEGAL:
        check_move(State(old), State(new))
    else:
        with pytest.raises(IllegalMove, match=f"from '{old}' to '{new}'"):
            check_move(State(old), State(new))


def test_every_state_stands_in_the_table():
    assert set(MOVES) == set(State)


def test_the_picture_is_drawn_from_the_table():
    assert diagram() in (Path(__file__).resolve().parents[3] / "shopfloor" / "jobs" / "states.md").read_text()


@pytest.mark.django_db
@pytest.mark.parametrize(
    "change",
    [
        {"state": "resting"},
        {"state": "running"},
        {"state": "running", "started_at": NOON, "attempt": 1},
        {"state": "running", "started_at": NOON, "lease_until": NOON},
        {"lease_until": NOON},
        {"state": "done"},
        {"finished_at": NOON},
        {"state": "failed", "finished_at": NOON},
        {"attempt": 3},
    ],
    ids=str,
)
def test_the_database_refuses_what_the_table_does_not_know(job, change):
    with pytest.raises(IntegrityError), transaction.atomic():
        Job.objects.filter(pk=job.pk).update(**change)
