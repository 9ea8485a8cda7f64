"""The one task: the message names a job, the row decides."""

from uuid import UUID

from shopfloor.jobs.performing import perform
from shopfloor.jobs.queue import TASK, app


@app.task(name=TASK)
def run(job_id: str) -> None:
    perform(UUID(job_id))
