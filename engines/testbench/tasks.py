"""The worker's part of a long log: read it with no transaction open, then keep it with the job's end."""

from datetime import datetime
from uuid import UUID

from engines.testbench.errors import StandRefused
from engines.testbench.log_file import lines_in, read_lines
from engines.testbench.queries import log_to_read, run_now
from engines.testbench.services.keeping_logs import publish_log
from engines.visits.errors import VisitRefused
from shopfloor.documents.files import read
from shopfloor.jobs.kinds import JobRefused, Payload, Progress
from shopfloor.jobs.models import Job


def read_log(payload: Payload, progress: Progress) -> Payload:
    log = log_to_read(UUID(payload["log"]))
    now = run_now(log.run, log.sent_at)
    try:
        text, count = lines_in(read(log.file))
        progress(0, count)
        lines = read_lines(text, now.schedule, now.standing.facts.spans, log.sent_at, lambda done: progress(done, count))
    except StandRefused as refused:
        raise JobRefused(str(refused)) from None
    return {"lines": lines}


def publish(job: Job, result: Payload, at: datetime) -> None:
    try:
        publish_log(job=job, lines=result["lines"], at=at)
    except (StandRefused, VisitRefused) as refused:
        raise JobRefused(str(refused)) from None
