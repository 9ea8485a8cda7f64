"""The states of a job and the legal moves between them; the database repeats the rules as constraints."""

from django.db import models


class State(models.TextChoices):
    WAITING = "waiting", "waiting for a worker"
    RUNNING = "running", "being worked on"
    DONE = "done", "done"
    FAILED = "failed", "failed"


MOVES: dict[State, dict[State, str]] = {
    State.WAITING: {State.RUNNING: "a worker claims it"},
    State.RUNNING: {
        State.DONE: "the result is published",
        State.FAILED: "refused, or no attempt is left",
        State.WAITING: "the lease ran out, or the work broke off",
    },
    State.DONE: {},
    State.FAILED: {State.WAITING: "a person tries again"},
}


class IllegalMove(Exception):
    """A job was asked to change between two states that no move connects: a fault in the program."""


def check_move(old: State, new: State) -> None:
    if new not in MOVES[old]:
        raise IllegalMove(f"A job cannot go from '{old.value}' to '{new.value}'. See shopfloor/jobs/states.py for the moves.")


def diagram() -> str:
    """The moves as a Mermaid state diagram."""
    lines = [f"    {old.value} --> {new.value}: {why}" for old, moves in MOVES.items() for new, why in moves.items()]
    return "\n".join(["stateDiagram-v2", f"    [*] --> {State.WAITING.value}: requested", *lines, ""])
