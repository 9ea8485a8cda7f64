"""What the ledger keeps of a run. A log's thousands of lines stand in its one event as a hash, worked out anew to verify."""

import hashlib

from django.urls import reverse

from engines.testbench.models import LoggedReading, Run, RunAnswer, RunLog, RunReading, StepSpan
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.plain import fields, worded
from shopfloor.ledger.records import register_record

SENTENCES = {
    "run.begun": "Run {number} on the stand was begun.",
    "run.passed": "Run {number} on the stand was passed.",
    "run.failed": "Run {number} on the stand failed.",
    "run.broken-off": "Run {number} on the stand was broken off.",
    "run.step-begun": "A step of the run was begun: {step}.",
    "run.step-ended": "A step of the run was ended: {step}.",
    "run.read": "{channel} was read on the stand: {value} {unit}.",
    "run.corrected": "A reading of {channel} on the stand was corrected to {value} {unit}.",
    "run.answered": "A question of the run was answered: {code}.",
    "run.log-sent": "A log of the stand was sent.",
    "run.log-read": "A log of the stand was read: {lines} lines.",
}
MEASURED = ("step", "channel", "cylinder", "value", "unit", "taken_at")


def register() -> None:
    ended = ("ended_by", "ended_at", "outcome", "findings", "findings_sha256")
    register_record(Run, content=fields("visit", "number", "begun_by", "begun_at", *ended), private=("why",))
    register_record(StepSpan, content=fields("run", "step", "begun_by", "begun_at", "ended_by", "ended_at"))
    read = fields("run", *MEASURED, "taken_by", "corrects")
    register_record(RunReading, content=read, private=("correction_reason",))
    register_record(RunAnswer, content=fields("run", "code", "yes", "answered_by", "answered_at"), private=("words",))
    register_record(RunLog, content=_log, private=("name",))
    for model in (RunReading, RunAnswer, LoggedReading):
        protect(model)
    protect(Run, closes=("ended_by", "ended_at", "outcome", "why", "findings", "findings_sha256"))
    protect(StepSpan, closes=("ended_by", "ended_at"))
    protect(RunLog, closes=("read_at", "lines", "readings_sha256"))
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=worded(words), link=_link)


def _link(event: LedgerEvent) -> str:
    """To the page of the run that it belongs to."""
    return reverse("testbench:run", args=[event.body["content"].get("run") or event.body["about"][1]])


def _log(log: RunLog) -> dict[str, object]:
    open_fields = fields("run", "sent_by", "sent_at", "job", "read_at", "lines", "readings_sha256")(log)
    return {**open_fields, "file_sha256": log.file.sha256, "readings_now": readings_sha256(log)}


def readings_sha256(log: RunLog) -> str:
    """Over every line of the log as it stands in the database now, each field length-prefixed; blank before it is read."""
    if log.read_at is None:
        return ""
    digest = hashlib.sha256()
    for row in log.readings.order_by("line").values_list("line", "shown", *MEASURED).iterator(2000):
        for field in row:
            text = (field.isoformat() if hasattr(field, "isoformat") else str(field)).encode()
            digest.update(len(text).to_bytes(8, "big") + text)
    return digest.hexdigest()
