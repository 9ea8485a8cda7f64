"""Whether a vendor may do a kind of work on a sort of part on a day, and what says so. Pure but for the records it reads."""

from collections.abc import Iterable, Sequence
from datetime import date

from engines.vendors.errors import NotApproved
from engines.vendors.models import Approval, Suspension, Vendor


def plain(text: str) -> str:
    """Words as they are compared: small letters, single spaces."""
    return " ".join(text.split()).casefold()


def scope_of(work: str, part: str) -> str:
    return f"{plain(work)}: {plain(part)}"


def read_scope(text: str) -> list[str]:
    """A line for each kind of work, `grinding: crankshaft, camshaft`, as pairs; empty where a line is no such thing."""
    pairs: set[str] = set()
    for line in filter(str.strip, text.splitlines()):
        work, _, parts = line.partition(":")
        sorts = [part for part in parts.split(",") if part.strip()]
        if not work.strip() or not sorts:
            return []
        pairs |= {scope_of(work, part) for part in sorts}
    return sorted(pairs)


def approval_on(approvals: Sequence[Approval], day: date) -> Approval | None:
    """The newest that has begun: it takes the place of all before it."""
    begun = [each for each in approvals if each.valid_from <= day]
    return max(begun, key=lambda each: (each.valid_from, each.granted_at, each.pk), default=None)


def suspension_on(suspensions: Iterable[Suspension], day: date) -> Suspension | None:
    holds = (each for each in suspensions if each.suspended_on <= day and (each.lifted_on is None or day < each.lifted_on))
    return next(holds, None)


def reason_against(name: str, approvals: Sequence[Approval], suspensions: Iterable[Suspension], day: date) -> str:
    """Why the vendor may do nothing on that day, a sentence; blank where it may do what its approval names."""
    found = approval_on(approvals, day)
    if held := suspension_on(suspensions, day):
        return f"{name} has been suspended since {held.suspended_on}: {held.reason.rstrip('.')}."
    if found is None:
        return f"{name} has no approval that had begun on {day}."
    if found.valid_until < day:
        return f"{name}: its approval {found.reference} ended on {found.valid_until}, before {day}."
    return ""


def reason_against_work(vendor: Vendor, day: date, work: str, part: str) -> str:
    """Why a vendor of `vendors()` may not do that work on that day, a sentence; blank where it may."""
    try:
        check_may_do(vendor.name, list(vendor.approvals.all()), vendor.suspensions.all(), day, work, part)
    except NotApproved as refused:
        return refused.reason
    return ""


def check_may_do(
    name: str, approvals: Sequence[Approval], suspensions: Iterable[Suspension], day: date, work: str, part: str
) -> Approval:
    """The approval that the work rests on. Raises NotApproved with the vendor's name and why."""
    if reason := reason_against(name, approvals, suspensions, day):
        raise NotApproved(reason)
    found = approval_on(approvals, day)
    assert found is not None
    if scope_of(work, part) not in found.scope:
        raise NotApproved(f"{name}: its approval {found.reference} does not name {work} of: {part}.")
    return found
