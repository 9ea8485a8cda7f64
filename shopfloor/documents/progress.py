"""How far a document is, in words."""

import hashlib
from dataclasses import dataclass

from shopfloor.documents.models import Document
from shopfloor.jobs.states import State

PHASES = ("Collecting the figures", "Setting the pages", "Sealing the file", "Filing it")


@dataclass(frozen=True)
class Progress:
    state: State
    sentence: str
    done: int
    total: int

    @property
    def moving(self) -> bool:
        return self.state in (State.WAITING, State.RUNNING)


def progress(document: Document) -> Progress:
    job = document.job
    state = State(job.state)
    sentence = {
        State.WAITING: "Waiting for a worker." if not job.attempt else f"Attempt {job.attempt} broke off; waiting for the next.",
        State.RUNNING: f"{PHASES[min(job.progress_done, len(PHASES) - 1)]}.",
        State.DONE: "Made and sealed.",
        State.FAILED: "This paper could not be made.",
    }[state]
    return Progress(state, sentence, job.progress_done, job.progress_total or len(PHASES))


def etag(document: Document) -> str:
    """Changes with everything that the moving part of the page shows."""
    job = document.job
    shown = (job.state, job.attempt, job.progress_done, job.progress_total, job.reason, document.file_id)
    return f'"{hashlib.sha256(repr(shown).encode()).hexdigest()[:32]}"'
