"""What the ledger keeps of releases, notices and serious defects."""

from engines.release.models import Notice, Release, SeriousDefect
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.plain import fields, worded
from shopfloor.ledger.records import register_record

SENTENCES = {
    "release.signed": "The engine was released as {status}: release {number}.",
    "release.amended": "A release was amended: release {number}, {status}, takes its place.",
    "notice.made": "The customer was given notice of a change in the record.",
    "notice.seen": "The customer saw the notice.",
    "serious-defect.marked": "A discrepancy was marked as a serious defect, to be reported by {due_at}.",
    "serious-defect.reported": "A serious defect was reported.",
}
RELEASED = ("visit", "number", "amendment", "status", "completed_on", "shown_sha256", "signed_by", "signed_at", "amends")
WORDS = ("description", "done_by", "recommendations", "certificate_kind", "certificate_number", "shown", "reason")
MARKED = ("discrepancy", "due_at", "marked_by", "marked_at", "reported_by", "reported_at")


def register() -> None:
    register_record(Release, content=fields(*RELEASED), private=WORDS)
    register_record(Notice, content=fields("customer", "release", "made_at", "seen_by", "seen_at"), private=("words",))
    register_record(SeriousDefect, content=fields(*MARKED), private=("reported_to",))
    protect(Release)
    protect(Notice, closes=("seen_by", "seen_at"))
    protect(SeriousDefect, closes=("reported_to", "reported_by", "reported_at"))
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=worded(words))
