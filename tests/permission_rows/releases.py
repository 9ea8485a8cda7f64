"""Who may release, amend and authorise: inspectors sign, the manager keeps the roster, a customer sees own releases."""

from datetime import date

from engines.inspection.queries import discrepancies
from engines.release.models import Notice, Release
from engines.release.services import mark_serious
from engines.traveler.models import Authorisation
from shopfloor.people.models import Role
from tests.making_people import AT, make_customer, make_person
from tests.making_visits import Shop
from tests.permission_rows.benches import MISSING, discrepancy_of, inspecting, seeing, shop_sees
from tests.permission_rows.row import Row

KEY = {"receipt_key": "01a21364-3dc3-7376-891b-2b3866c9f427"}
DAY = date(2026, 3, 2)
FILLED = {"status": "inspected", "description": "looked over", "completed_on": "2026-03-02", "directive_0": "does not apply"}
AMENDED = FILLED | {"documents": "T2-90 engine data, revision 1", "reason": "a slip"}


def make_release(visit, by):
    """Written past the service: what may be seen does not depend on how it came about."""
    return Release.objects.create(
        visit=visit,
        number=(Release.objects.count() + 1),
        status="inspected",
        description="looked over",
        completed_on=DAY,
        certificate_kind="repairman",
        certificate_number="INV 1",
        shown='{"status": "inspected", "data": []}',
        shown_sha256="0" * 64,
        signed_by=by,
        signed_at=AT,
    )


def _release(world, *, own):
    shop = Shop()
    customer = world.reader.customer if own and world.reader.pk else None
    visit = shop.receive(customer=customer or make_customer())
    return make_release(visit, shop.inspector)


def _notice(world, *, own):
    release = _release(world, own=own)
    return {"pk": Notice.objects.create(customer=release.visit.customer, release=release, words="corrected", made_at=AT).pk}


def _authorisation(person):
    granted = {"what": "release", "valid_from": DAY, "training": "course"}
    return Authorisation.objects.create(person=person, **granted, granted_by=make_person(Role.MANAGER), granted_at=AT)


def _serious():
    found = discrepancy_of()
    mark_serious(discrepancy=discrepancies().get(pk=found["pk"]), by=make_person(Role.INSPECTOR), at=AT)
    return found


OBJECTS = {
    "own release": lambda world: {"pk": _release(world, own=True).pk},
    "another's release": lambda world: {"pk": _release(world, own=False).pk},
    "missing release": lambda world: {"pk": MISSING},
    "own notice": lambda world: _notice(world, own=True),
    "another's notice": lambda world: _notice(world, own=False),
    "own authorisation": lambda world: {"pk": _authorisation(world.self_or_stranger).pk},
    "another's authorisation": lambda world: {"pk": _authorisation(make_person(Role.INSPECTOR)).pk},
    "serious defect": lambda world: _serious(),
}


def authorising(method, status, url="benches:authorise", **rest):
    return Row(url, method, manager=status, others=403, anonymous=302, first_password=302, **rest)


def roster(method, status):
    return Row("benches:roster", method, manager=status, auditor=status, others=403, anonymous=302, first_password=302)


def customers(method, status, **rest):
    return Row("benches:notice-seen", method, customer=status, others=403, anonymous=302, first_password=302, **rest)


ROWS = [
    shop_sees("benches:release", "GET", 200, of="own visit"),
    shop_sees("benches:release", "GET", 200, of="another's visit"),
    shop_sees("benches:release", "GET", 404, of="missing visit"),
    shop_sees("benches:release", "POST", 405, of="own visit"),
    inspecting("benches:preview-release", "GET", 405, of="own visit"),
    inspecting("benches:preview-release", "POST", 422, of="own visit"),
    inspecting("benches:preview-release", "POST", 403, of="another's visit", data=FILLED),
    inspecting("benches:sign-release", "GET", 405, of="own visit"),
    inspecting("benches:sign-release", "POST", 422, of="another's visit", data=KEY),
    seeing("benches:releases", "GET", 200),
    seeing("benches:releases", "POST", 405),
    seeing("benches:released", "GET", 200, of="own release"),
    seeing("benches:released", "GET", 200, of="another's release", customer=404),
    seeing("benches:released", "GET", 404, of="missing release"),
    seeing("benches:released", "POST", 405, of="own release"),
    inspecting("benches:amend", "GET", 200, of="own release"),
    inspecting("benches:amend", "GET", 200, of="another's release"),
    inspecting("benches:amend", "POST", 405, of="own release"),
    inspecting("benches:preview-amendment", "GET", 405, of="own release"),
    inspecting("benches:preview-amendment", "POST", 422, of="own release"),
    inspecting("benches:preview-amendment", "POST", 403, of="another's release", data=AMENDED),
    inspecting("benches:sign-amendment", "GET", 405, of="own release"),
    inspecting("benches:sign-amendment", "POST", 422, of="another's release", data=KEY),
    customers("GET", 405, of="own notice"),
    customers("POST", 302, of="own notice", data=KEY),
    customers("POST", 404, of="another's notice", data=KEY),
    roster("GET", 200),
    roster("POST", 405),
    authorising("GET", 405),
    authorising("POST", 422, data=KEY),
    authorising("GET", 405, url="benches:end-authorisation", of="own authorisation"),
    authorising("POST", 302, url="benches:end-authorisation", of="another's authorisation", data=KEY),
    authorising("POST", 403, url="benches:end-authorisation", of="own authorisation", data=KEY),
    inspecting("benches:mark-serious", "GET", 405, of="discrepancy"),
    inspecting("benches:mark-serious", "POST", 302, of="discrepancy", data=KEY),
    inspecting("benches:mark-serious", "POST", 409, of="serious defect", data=KEY),
    inspecting("benches:mark-serious", "POST", 404, of="missing discrepancy", data=KEY),
    inspecting("benches:report-serious", "GET", 405, of="serious defect"),
    inspecting("benches:report-serious", "POST", 422, of="serious defect", data=KEY),
    inspecting("benches:report-serious", "POST", 302, of="serious defect", data=KEY | {"reported_to": "the authority, 12"}),
    inspecting("benches:report-serious", "POST", 404, of="discrepancy", data=KEY),
]
