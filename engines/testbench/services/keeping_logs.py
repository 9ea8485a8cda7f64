"""A log of the stand is kept: at once where it is short, else by a worker. All of it, or nothing."""

import hashlib
from collections.abc import Sequence
from datetime import datetime

from django.db import transaction

from engines.testbench.errors import LogRefused
from engines.testbench.log_file import LogLine, lines_in, read_lines
from engines.testbench.models import LoggedReading, Run, RunLog
from engines.testbench.queries import run_now
from engines.testbench.records import readings_sha256
from engines.testbench.services.ending import fail_if_beyond
from engines.testbench.services.open_run import open_run
from engines.visits.chains import chain_of
from shopfloor.documents.files import store
from shopfloor.jobs.models import Job
from shopfloor.jobs.services import request_job
from shopfloor.jobs.states import State
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

AT_ONCE = 1000  # lines that are read and kept within half a second; a longer log goes to a worker
MEDIA_TYPE = "text/csv"


@transaction.atomic
def keep_log(*, run: Run, name: str, data: bytes, by: Person, at: datetime) -> RunLog:
    """Raises LogRefused with every mistake and its line, RunEnded, NotInTest."""
    run = open_run(run)
    text, count = lines_in(data)
    sha256 = hashlib.sha256(data).hexdigest()
    if RunLog.objects.filter(run=run, file__sha256=sha256).exclude(job__state=State.FAILED).exists():
        raise LogRefused(["This very file was sent for this run before."])
    now = run_now(run, at)
    lines = read_lines(text, now.schedule, now.standing.facts.spans, at) if count <= AT_ONCE else None
    log = RunLog(run=run, name=name[-120:], file=store(data, MEDIA_TYPE, at), sent_by=by, sent_at=at)
    if lines is not None:
        log.save(force_insert=True)
        record(*_kept(log, lines, by, at), by=by.pk, at=at)
        return log
    log.job = request_job(kind="run-log", payload={"log": str(log.pk)}, by=by, at=at)
    log.save(force_insert=True)
    record(Entry(chain=chain_of(run.visit), kind="run.log-sent", of=log), by=by.pk, at=at)
    return log


@transaction.atomic
def publish_log(*, job: Job, lines: Sequence[LogLine], at: datetime) -> None:
    """Within the transaction that finishes the job. Raises RunEnded, NotInTest."""
    log = RunLog.objects.select_related("run", "file", "sent_by").get(job=job)
    log.run = open_run(log.run)
    record(*_kept(log, lines, log.sent_by, at), by=log.sent_by_id, at=at)


def _kept(log: RunLog, lines: Sequence[LogLine], by: Person, at: datetime) -> list[Entry]:
    LoggedReading.objects.bulk_create(
        (
            LoggedReading(
                log=log,
                line=each.line,
                step=each.step,
                channel=each.spot.channel,
                cylinder=each.spot.cylinder,
                value=each.value,
                unit=each.unit,
                taken_at=each.at,
                shown=each.shown,
            )
            for each in lines
        ),
        batch_size=1000,
    )
    log.read_at, log.lines = at, len(lines)
    log.readings_sha256 = readings_sha256(log)
    log.save(update_fields=["read_at", "lines", "readings_sha256"])
    return [Entry(chain=chain_of(log.run.visit), kind="run.log-read", of=log), *fail_if_beyond(log.run, by, at)]
