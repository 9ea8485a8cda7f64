"""URL x method x reader x own or another's object -> the status that the shop expects. Written by hand, never generated.

Source: the owner's table of who must get what done (design, section 1) and the rule that nobody changes their own
rights. A new address needs one `Row` for GET and one for POST, and one more for every other method it answers. `of`
names a line of OBJECTS, which makes the object and gives the address its arguments; an address with an object that can
belong to somebody has a row for one's own and a row for another's. `others` are the signed-in readers not named.
"""

from collections.abc import Callable

from django.core.files.uploadedfile import SimpleUploadedFile

from measurements.readings.models import Sheet
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person, Role
from tests.making_gauges import GAUGE, make_gauge
from tests.making_packs import make_checked, make_draft, small_pack
from tests.making_papers import make_paper
from tests.making_people import AT, make_customer, make_grant, make_person
from tests.making_sheets import LIMITS, READINGS, make_sheet
from tests.pack_files import files_of, zip_of
from tests.permission_rows import benches, parts, releases, testbench, vendors
from tests.permission_rows.row import READERS, Row, World

__all__ = ["OBJECTS", "READERS", "ROWS", "Row", "World"]

OBJECTS: dict[str, Callable[[World], dict[str, object]]] = {
    "": lambda world: {},
    "own person": lambda world: {"pk": world.self_or_stranger.pk},
    "another person": lambda world: {"pk": make_person(Role.MECHANIC).pk},
    "another inactive person": lambda world: {"pk": make_person(Role.MECHANIC, is_active=False).pk},
    "another customer's person": lambda world: {"pk": make_person(Role.CUSTOMER).pk},
    "missing person": lambda world: {"pk": 987654},
    "own grant": lambda world: _grant_of(world.self_or_stranger),
    "another's grant": lambda world: _grant_of(make_person()),
    "another's grant under own address": lambda world: _grant_of(make_person()) | {"pk": world.self_or_stranger.pk},
    "event": lambda world: _event_about(make_person()),
    "missing event": lambda world: {"chain": "people", "sequence": 987654},
    "own paper": lambda world: {"pk": make_paper(world.self_or_stranger).pk},
    "another's paper": lambda world: {"pk": make_paper(make_person(Role.MECHANIC)).pk},
    "own waiting paper": lambda world: {"pk": make_paper(world.self_or_stranger, "waiting").pk},
    "own failed paper": lambda world: {"pk": make_paper(world.self_or_stranger, "failed").pk},
    "another's failed paper": lambda world: {"pk": make_paper(make_person(Role.MECHANIC), "failed").pk},
    "missing paper": lambda world: {"pk": "01a21364-3dc3-7376-891b-2b3866c9f427"},
    "own sheet": lambda world: {"pk": _sheet_of(world, own=True).pk},
    "another's sheet": lambda world: {"pk": _sheet_of(world, own=False).pk},
    "missing sheet": lambda world: {"pk": "01a21364-3dc3-7376-891b-2b3866c9f427"},
    "gauge": lambda world: {"pk": make_gauge(make_person(Role.STOREKEEPER)).pk},
    "missing gauge": lambda world: {"pk": "01a21364-3dc3-7376-891b-2b3866c9f427"},
    "draft pack": lambda world: {"pk": make_draft(make_person(Role.MANAGER)).pk},
    "draft pack of the reader": lambda world: {"pk": make_draft(world.self_or_stranger).pk},
    "checked draft pack": lambda world: {"pk": make_checked(make_person(Role.MANAGER), make_person(Role.INSPECTOR)).pk},
    "missing pack": lambda world: {"pk": "01a21364-3dc3-7376-891b-2b3866c9f427"},
    "two revisions": lambda world: _two_revisions(),
    "revision and a missing one": lambda world: _two_revisions() | {"older_pk": "01a21364-3dc3-7376-891b-2b3866c9f427"},
    **benches.OBJECTS,
    **parts.OBJECTS,
    **releases.OBJECTS,
    **testbench.OBJECTS,
    **vendors.OBJECTS,
    "erasable person": lambda world: {"pk": make_person(Role.MECHANIC, username="leaver").pk},
}


def _sheet_of(world: World, *, own: bool) -> Sheet:
    """A sheet of the reader's customer, or of another one; for a reader without a customer any is another's."""
    customer = world.reader.customer if own and world.reader.pk else None
    return make_sheet(make_person(Role.MECHANIC), customer or make_customer())


def _two_revisions() -> dict[str, object]:
    loader = make_person(Role.MANAGER)
    older, newer = (make_draft(loader, small_pack(revision=revision)) for revision in ("1", "2"))
    return {"pk": newer.pk, "older_pk": older.pk}


def _event_about(person: Person) -> dict[str, object]:
    record(Entry("people", "person.added", of=person), by=None, at=AT)
    return {"chain": "people", "sequence": 1}


def _grant_of(person: Person) -> dict[str, object]:
    grant = person.grants.first() or make_grant(person, Role.AUDITOR)
    return {"pk": person.pk, "grant_pk": grant.pk}


def admin(url: str, method: str, *, manager: int, first_password: int = 302, **rest) -> Row:
    """A page of the manager: everybody else is refused, the anonymous reader is sent to sign in."""
    return Row(url, method, manager=manager, others=403, anonymous=302, first_password=first_password, **rest)


def signed_in(url: str, method: str, status: int, **rest) -> Row:
    """A page of everybody who is signed in; what belongs to somebody else is not found."""
    return Row(url, method, others=status, anonymous=302, first_password=302, **rest)


def fragment(url: str, status: int, **rest) -> Row:
    return Row(url, "GET", fragment=True, others=status, anonymous=401, first_password=403, **rest)


def api(url: str, method: str, status: int, **rest) -> Row:
    return Row(url, method, others=status, anonymous=401, first_password=403, **rest)


def seeing(url: str, method: str, status: int, **rest) -> Row:
    """A page of every role."""
    return Row(url, method, others=status, no_role=403, anonymous=302, first_password=302, **rest)


def seeing_api(url: str, method: str, status: int, **rest) -> Row:
    return Row(url, method, others=status, no_role=403, anonymous=401, first_password=403, **rest)


def judging(url: str, method: str, status: int, **rest) -> Row:
    """A page of those who judge sheets."""
    may = dict.fromkeys(("manager", "mechanic", "inspector"), status)
    return Row(url, method, **may, others=403, anonymous=302, first_password=302, **rest)


def judging_api(url: str, method: str, status: int, **rest) -> Row:
    may = dict.fromkeys(("manager", "mechanic", "inspector"), status)
    return Row(url, method, **may, others=403, anonymous=401, first_password=403, **rest)


def gauge_page(url: str, method: str, status: int, **rest) -> Row:
    """The shop and its auditor see the register; customers do not."""
    return Row(url, method, others=status, customer=403, no_role=403, anonymous=302, first_password=302, **rest)


def keeping_gauges(url: str, method: str, status: int, **rest) -> Row:
    may = dict.fromkeys(("manager", "inspector", "storekeeper"), status)
    return Row(url, method, **may, others=403, anonymous=302, first_password=302, **rest)


def data_page(url: str, method: str, status: int, **rest) -> Row:
    """The shop and its auditor see engine data; customers do not."""
    return Row(url, method, others=status, customer=403, no_role=403, anonymous=302, first_password=302, **rest)


def loading_data(url: str, method: str, status: int, **rest) -> Row:
    return Row(url, method, manager=status, inspector=status, others=403, anonymous=302, first_password=302, **rest)


def approving_data(url: str, method: str, status: int, **rest) -> Row:
    """What an inspector does with engine data that somebody else loaded."""
    return Row(url, method, inspector=status, others=403, anonymous=302, first_password=302, **rest)


def csv_file(name: str, text: str | bytes) -> SimpleUploadedFile:
    return SimpleUploadedFile(name, text if isinstance(text, bytes) else text.encode(), "text/csv")


KEY = {"receipt_key": "01a21364-3dc3-7376-891b-2b3866c9f427"}
SHEET_FORM = {"title": "Pins", "limits": csv_file("limits.csv", LIMITS), "readings": csv_file("readings.csv", READINGS)}
PACK_FILE = SimpleUploadedFile("t2-90.zip", zip_of(files_of(small_pack())), "application/zip")

ROWS = [
    # the way in and out
    Row("people:sign-in", "GET", everyone=200),
    Row("people:sign-in", "POST", everyone=400),
    Row("people:sign-in", "POST", data={"username": "nobody", "password": "no such password"}, everyone=403),
    Row("people:sign-in", "DELETE", everyone=405),
    Row("people:sign-out", "GET", everyone=405),
    Row("people:sign-out", "POST", everyone=302),
    Row("people:own-password", "GET", others=200, anonymous=302),
    Row("people:own-password", "POST", others=400, anonymous=302),
    # persons
    Row("people:persons", "GET", manager=200, auditor=200, others=403, anonymous=302, first_password=302),
    Row("people:persons", "GET", fragment=True, manager=200, auditor=200, others=403, anonymous=401),
    Row("people:persons", "POST", manager=405, auditor=405, others=403, anonymous=302, first_password=302),
    admin("people:add", "GET", manager=200),
    admin("people:add", "POST", manager=400),
    admin("people:add", "POST", data={"username": "new", "name": "The new one", "role": "mechanic"}, manager=201),
    Row("people:person", "GET", of="own person", manager=200, auditor=200, others=403, anonymous=302, first_password=302),
    Row("people:person", "GET", of="another person", manager=200, auditor=200, others=403, anonymous=302, first_password=302),
    Row("people:person", "GET", of="missing person", manager=404, auditor=404, others=403, anonymous=302, first_password=302),
    Row("people:person", "POST", of="another person", manager=405, auditor=405, others=403, anonymous=302, first_password=302),
    admin("people:grant-role", "GET", of="another person", manager=405),
    admin("people:grant-role", "POST", of="another person", manager=400),
    admin("people:grant-role", "POST", of="another person", data={"role": "inspector"}, manager=302),
    admin("people:grant-role", "POST", of="another person", data={"role": "customer"}, manager=409),
    admin("people:grant-role", "POST", of="another person", data={"role": "mechanic"}, manager=409),
    admin("people:grant-role", "POST", of="another person", data={"role": "owner"}, manager=400),
    admin("people:grant-role", "POST", of="own person", data={"role": "inspector"}, manager=403),
    admin("people:end-role", "GET", of="another's grant", manager=405),
    admin("people:end-role", "POST", of="another's grant", manager=302),
    admin("people:end-role", "POST", of="own grant", manager=403),
    admin("people:end-role", "POST", of="another's grant under own address", manager=404),
    admin("people:link", "GET", of="another customer's person", manager=405),
    admin("people:link", "POST", of="another customer's person", data={"customer": "987654"}, manager=400),
    admin("people:link", "POST", of="another person", manager=409),
    admin("people:link", "POST", of="own person", manager=403),
    admin("people:set-certificate", "GET", of="another person", manager=405),
    admin("people:set-certificate", "POST", of="another person", data={"kind": "repairman", "number": "INV 1"}, manager=302),
    admin("people:set-certificate", "POST", of="another person", data={"kind": "repairman"}, manager=422),
    admin("people:set-certificate", "POST", of="another person", data={"kind": "k" * 61, "number": "1"}, manager=400),
    admin("people:set-certificate", "POST", of="own person", data={"kind": "repairman", "number": "INV 1"}, manager=403),
    admin("people:deactivate", "GET", of="another person", manager=405),
    admin("people:deactivate", "POST", of="another person", manager=302),
    admin("people:deactivate", "POST", of="another inactive person", manager=409),
    admin("people:deactivate", "POST", of="own person", manager=403),
    admin("people:reactivate", "GET", of="another inactive person", manager=405),
    admin("people:reactivate", "POST", of="another inactive person", manager=302),
    admin("people:reactivate", "POST", of="another person", manager=409),
    admin("people:reactivate", "POST", of="own person", manager=403),
    admin("people:reset-password", "GET", of="another person", manager=405),
    admin("people:reset-password", "POST", of="another person", manager=200),
    admin("people:reset-password", "POST", of="another inactive person", manager=409),
    admin("people:reset-password", "POST", of="own person", manager=403),
    admin("people:erase", "GET", of="another person", manager=405),
    admin("people:erase", "POST", of="another person", manager=400),
    admin("people:erase", "POST", of="erasable person", data={"confirm": "leaver"}, manager=302),
    admin("people:erase", "POST", of="own person", data={"confirm": "reader"}, manager=403),
    # customers
    Row("people:customers", "GET", manager=200, auditor=200, others=403, anonymous=302, first_password=302),
    Row("people:customers", "POST", manager=405, auditor=405, others=403, anonymous=302, first_password=302),
    admin("people:add-customer", "GET", manager=405),
    admin("people:add-customer", "POST", manager=400),
    admin("people:add-customer", "POST", data={"name": "Estuary Survey Air"}, manager=302),
    # the ledger
    Row("auditing:events", "GET", manager=200, auditor=200, inspector=200, others=403, anonymous=302, first_password=302),
    Row("auditing:events", "POST", manager=405, auditor=405, inspector=405, others=403, anonymous=302, first_password=302),
    Row(
        "auditing:event",
        "GET",
        of="event",
        manager=200,
        auditor=200,
        inspector=200,
        others=403,
        anonymous=302,
        first_password=302,
    ),
    Row(
        "auditing:event",
        "POST",
        of="event",
        manager=405,
        auditor=405,
        inspector=405,
        others=403,
        anonymous=302,
        first_password=302,
    ),
    Row(
        "auditing:event",
        "GET",
        of="missing event",
        manager=404,
        auditor=404,
        inspector=404,
        others=403,
        anonymous=302,
        first_password=302,
    ),
    Row("auditing-api:events", "GET", manager=200, auditor=200, inspector=200, others=403, anonymous=401),
    Row("auditing-api:events", "POST", manager=405, auditor=405, inspector=405, others=403, anonymous=401),
    Row("auditing-api:event", "GET", of="event", manager=200, auditor=200, inspector=200, others=403, anonymous=401),
    Row("auditing-api:event", "POST", of="event", manager=405, auditor=405, inspector=405, others=403, anonymous=401),
    Row("auditing-api:event", "GET", of="missing event", manager=404, auditor=404, inspector=404, others=403, anonymous=401),
    # the API
    Row("people-api:session", "GET", everyone=200),
    Row("people-api:session", "POST", everyone=400),
    Row("people-api:session", "POST", data={"username": "nobody", "password": "no such password"}, everyone=401),
    Row("people-api:session", "DELETE", everyone=204),
    Row("people-api:persons", "GET", manager=200, auditor=200, others=403, anonymous=401),
    Row("people-api:persons", "POST", manager=405, auditor=405, others=403, anonymous=401),
    # papers
    signed_in("documents:documents", "GET", 200),
    signed_in("documents:documents", "POST", 405),
    signed_in("documents:document", "GET", 200, of="own paper"),
    signed_in("documents:document", "GET", 404, of="another's paper"),
    signed_in("documents:document", "GET", 404, of="missing paper"),
    signed_in("documents:document", "POST", 405, of="own paper"),
    fragment("documents:progress", 200, of="own waiting paper"),
    fragment("documents:progress", 200, of="own paper"),
    fragment("documents:progress", 404, of="another's paper"),
    signed_in("documents:progress", "POST", 405, of="own paper"),
    signed_in("documents:again", "GET", 405, of="own failed paper"),
    signed_in("documents:again", "POST", 302, of="own failed paper"),
    signed_in("documents:again", "POST", 409, of="own paper"),
    signed_in("documents:again", "POST", 404, of="another's failed paper"),
    signed_in("documents:download", "GET", 200, of="own paper"),
    signed_in("documents:download", "GET", 404, of="own waiting paper"),
    signed_in("documents:download", "GET", 404, of="another's paper"),
    signed_in("documents:download", "POST", 405, of="own paper"),
    api("documents-api:state", "GET", 200, of="own paper"),
    api("documents-api:state", "GET", 404, of="another's paper"),
    api("documents-api:state", "POST", 405, of="own paper"),
    api("documents-api:download", "GET", 200, of="own paper"),
    api("documents-api:download", "GET", 404, of="another's paper"),
    api("documents-api:download", "POST", 405, of="own paper"),
    # health: 503, because no worker is at work during this test
    Row("health", "GET", everyone=503),
    Row("health", "POST", everyone=405),
    # judged sheets
    seeing("readings:sheets", "GET", 200),
    seeing("readings:sheets", "POST", 405),
    judging("readings:judge", "GET", 200),
    judging("readings:judge", "POST", 400),
    judging("readings:judge", "POST", 422, data=KEY),
    judging("readings:judge", "POST", 302, data=KEY | SHEET_FORM),
    seeing("readings:sheet", "GET", 200, of="own sheet"),
    seeing("readings:sheet", "GET", 200, of="another's sheet", customer=404),
    seeing("readings:sheet", "GET", 404, of="missing sheet"),
    seeing("readings:sheet", "POST", 405, of="own sheet"),
    seeing("readings:verdicts", "GET", 200, of="own sheet"),
    seeing("readings:verdicts", "GET", 200, of="another's sheet", customer=404),
    seeing("readings:verdicts", "POST", 405, of="own sheet"),
    seeing("readings:paper", "GET", 405, of="own sheet"),
    seeing("readings:paper", "POST", 400, of="own sheet"),
    seeing("readings:paper", "POST", 302, of="own sheet", data=KEY),
    seeing("readings:paper", "POST", 302, of="another's sheet", data=KEY, customer=404),
    seeing_api("readings-api:sheets", "GET", 200),
    judging_api("readings-api:sheets", "POST", 400),
    judging_api("readings-api:sheets", "POST", 201, data=SHEET_FORM),
    judging_api("readings-api:sheets", "POST", 422, data=SHEET_FORM | {"readings": csv_file("readings.csv", "row\n")}),
    seeing_api("readings-api:sheet", "GET", 200, of="own sheet"),
    seeing_api("readings-api:sheet", "GET", 200, of="another's sheet", customer=404),
    seeing_api("readings-api:sheet", "POST", 405, of="own sheet"),
    seeing_api("readings-api:lines", "GET", 200, of="own sheet"),
    seeing_api("readings-api:lines", "GET", 200, of="another's sheet", customer=404),
    seeing_api("readings-api:lines", "POST", 405, of="own sheet"),
    seeing_api("readings-api:paper", "GET", 405, of="own sheet"),
    seeing_api("readings-api:paper", "POST", 202, of="own sheet"),
    seeing_api("readings-api:paper", "POST", 202, of="another's sheet", customer=404),
    # gauges
    gauge_page("gauges:gauges", "GET", 200),
    gauge_page("gauges:gauges", "POST", 405),
    gauge_page("gauges:gauge", "GET", 200, of="gauge"),
    gauge_page("gauges:gauge", "GET", 404, of="missing gauge"),
    gauge_page("gauges:gauge", "POST", 405, of="gauge"),
    keeping_gauges("gauges:add", "GET", 200),
    keeping_gauges("gauges:add", "POST", 400),
    keeping_gauges("gauges:add", "POST", 422, data=KEY),
    keeping_gauges("gauges:add", "POST", 302, data=KEY | GAUGE),
    keeping_gauges("gauges:calibrate", "GET", 405, of="gauge"),
    keeping_gauges("gauges:calibrate", "POST", 422, of="gauge", data=KEY),
    keeping_gauges("gauges:calibrate", "POST", 404, of="missing gauge", data=KEY),
    keeping_gauges("gauges:retire", "GET", 405, of="gauge"),
    keeping_gauges("gauges:retire", "POST", 302, of="gauge", data=KEY | {"reason": "dropped"}),
    # engine data
    data_page("packs:packs", "GET", 200),
    data_page("packs:packs", "POST", 405),
    data_page("packs:pack", "GET", 200, of="draft pack"),
    data_page("packs:pack", "GET", 404, of="missing pack"),
    data_page("packs:pack", "POST", 405, of="draft pack"),
    data_page("packs:compare", "GET", 200, of="two revisions"),
    data_page("packs:compare", "GET", 404, of="revision and a missing one"),
    data_page("packs:compare", "POST", 405, of="two revisions"),
    loading_data("packs:load", "GET", 200),
    loading_data("packs:load", "POST", 400),
    loading_data("packs:load", "POST", 422, data=KEY),
    loading_data("packs:load", "POST", 302, data=KEY | {"pack": PACK_FILE}),
    approving_data("packs:check", "GET", 405, of="draft pack"),
    approving_data("packs:check", "POST", 422, of="draft pack", data=KEY),
    approving_data("packs:check", "POST", 302, of="draft pack", data=KEY | {"page": ["0", "1"]}),
    approving_data("packs:check", "POST", 403, of="draft pack of the reader", data=KEY | {"page": ["0"]}),
    approving_data("packs:check", "POST", 404, of="missing pack", data=KEY),
    approving_data("packs:approve", "GET", 405, of="draft pack"),
    approving_data("packs:approve", "POST", 409, of="draft pack", data=KEY),
    approving_data("packs:approve", "POST", 403, of="draft pack of the reader", data=KEY),
    approving_data("packs:approve", "POST", 302, of="checked draft pack", data=KEY),
    approving_data("packs:approve", "POST", 404, of="missing pack", data=KEY),
    *parts.ROWS,
    *benches.ROWS,
    *releases.ROWS,
    *testbench.ROWS,
    *vendors.ROWS,
    # the first page, and the gallery
    signed_in("benches:home", "GET", 200),
    signed_in("benches:home", "POST", 405),
    seeing("benches:gallery", "GET", 200),
    seeing("benches:gallery", "POST", 405),
]
