"""The register of vendors: approved for some work from one day to another, suspended, restored; nothing is overwritten."""

from datetime import date, timedelta

import pytest
from django.db import DatabaseError, transaction

from engines.vendors.errors import FieldRefused, NameTaken, NotApproved, NotSuspended, SuspendedAlready
from engines.vendors.models import Approval, Suspension, Vendor
from engines.vendors.queries import listed, vendors
from engines.vendors.services import add_vendor, approve, lift, suspend
from engines.vendors.services.ordering import approval_for
from engines.vendors.standing import read_scope
from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.models import Role
from tests.making_people import AT, make_person
from tests.making_vendors import TODAY, faults_told, make_vendor

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)


@pytest.fixture
def manager():
    return make_person(Role.MANAGER)


def renewed(vendor, by, **given):
    new = {
        "reference": "V-8",
        "scope": "grinding: crankshaft",
        "valid_from": TODAY,
        "valid_until": TODAY + 30 * DAY,
        "words": "seen",
    }
    return approve(vendor=vendor, **new | given, by=by, at=AT + DAY)


def may_grind(vendor, day=TODAY, part="crankshaft"):
    try:
        return approval_for(vendor, "grinding", part, day).reference
    except NotApproved as refused:
        return refused.reason


def test_an_approval_holds_from_its_first_day_to_its_last(manager):
    vendor = make_vendor(manager, valid_from=TODAY, valid_until=TODAY + DAY)
    assert [may_grind(vendor, TODAY + n * DAY) == "V-7" for n in (-1, 0, 1, 2)] == [False, True, True, False]


def test_a_new_approval_takes_the_place_of_the_one_before_with_its_own_scope(manager):
    vendor = make_vendor(manager, scope="grinding: crankshaft, camshaft")
    renewed(vendor, manager, valid_from=TODAY + DAY)
    assert may_grind(vendor, TODAY, "camshaft") == "V-7"
    assert may_grind(vendor, TODAY + DAY) == "V-8"
    assert "its approval V-8 does not name grinding of: camshaft" in may_grind(vendor, TODAY + DAY, "camshaft")
    assert Approval.objects.count() == 2


def test_an_approval_that_ends_early_does_not_let_the_longer_one_before_it_count_again(manager):
    vendor = make_vendor(manager)
    renewed(vendor, manager, valid_until=TODAY)
    assert "its approval V-8 ended on 2026-03-02" in may_grind(vendor, TODAY + DAY)


def test_a_suspension_holds_from_its_day_until_the_day_it_is_lifted(manager):
    vendor = make_vendor(manager)
    suspend(vendor=vendor, suspended_on=TODAY - DAY, reason="late papers", by=manager, at=AT)
    assert "suspended since 2026-03-01: late papers" in may_grind(vendor, TODAY)
    lift(vendor=vendor, words="audited anew", by=manager, at=AT + 3 * DAY)
    assert [may_grind(vendor, TODAY + n * DAY) == "V-7" for n in (-2, -1, 2, 3)] == [True, False, False, True]


def test_suspended_once_and_lifted_once(manager):
    vendor = make_vendor(manager)
    held = {"vendor": vendor, "suspended_on": TODAY, "by": manager, "at": AT}
    suspend(**held, reason="late")
    with pytest.raises(SuspendedAlready, match="Invented Grinding is suspended already"):
        suspend(**held, reason="late again")
    lift(vendor=vendor, words="better now", by=manager, at=AT)
    with pytest.raises(NotSuspended):
        lift(vendor=vendor, words="better now", by=manager, at=AT)
    assert suspend(**held, reason="late once more").lifted_at is None
    assert Suspension.objects.count() == 2


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"reference": " "}, "the reference of the approval"),
        ({"scope": ""}, "a line for each kind of work"),
        ({"scope": "grinding"}, "a line for each kind of work"),
        ({"scope": "grinding: crankshaft\nplating:"}, "a line for each kind of work"),
        ({"valid_until": TODAY - DAY}, "It ends before it begins"),
        ({"words": " "}, "what the approval rests on"),
    ],
)
def test_an_approval_that_says_too_little_is_refused(manager, wrong, said):
    vendor = make_vendor(manager, scope="")
    with pytest.raises(FieldRefused, match=said):
        renewed(vendor, manager, **wrong)
    assert not Approval.objects.exists()


def test_a_suspension_needs_a_reason_and_no_day_to_come(manager):
    vendor = make_vendor(manager)
    with pytest.raises(FieldRefused, match="Say why"):
        suspend(vendor=vendor, suspended_on=TODAY, reason=" ", by=manager, at=AT)
    with pytest.raises(FieldRefused, match="today or on a day that has passed"):
        suspend(vendor=vendor, suspended_on=TODAY + DAY, reason="late", by=manager, at=AT)


@pytest.mark.parametrize("name", ["Invented Grinding", "  invented   grinding "])
def test_a_vendor_stands_in_the_register_once(manager, name):
    make_vendor(manager)
    with pytest.raises(NameTaken):
        add_vendor(name=name, by=manager, at=AT)
    assert Vendor.objects.count() == 1


def test_scopes_are_compared_whatever_their_letters_and_spaces():
    assert read_scope("Grinding:  Crankshaft ,cam  shaft\n\nplating: barrel") == [
        "grinding: cam shaft",
        "grinding: crankshaft",
        "plating: barrel",
    ]


def test_the_list_says_how_each_stands_today(manager):
    make_vendor(manager, "A Works")
    make_vendor(manager, "B Works", valid_until=TODAY - DAY)
    make_vendor(manager, "C Works", scope="")
    found = [
        (each.vendor.name, each.approval and each.approval.reference, bool(each.reason)) for each in listed(vendors(), TODAY)
    ]
    assert found == [("A Works", "V-7", False), ("B Works", "V-7", True), ("C Works", None, True)]


def test_every_act_is_on_record_and_none_is_overwritten(manager):
    vendor = make_vendor(manager)
    suspend(vendor=vendor, suspended_on=TODAY, reason="late", by=manager, at=AT)
    lift(vendor=vendor, words="better", by=manager, at=AT)
    kinds = LedgerEvent.objects.filter(chain="stores").order_by("sequence").values_list("kind", flat=True)
    assert list(kinds) == ["vendor.added", "vendor.approved", "vendor.suspended", "vendor.restored"]
    assert not faults_told()
    with pytest.raises(DatabaseError), transaction.atomic():
        Approval.objects.update(valid_until=TODAY + 900 * DAY)
    with pytest.raises(DatabaseError), transaction.atomic():
        Suspension.objects.update(lifted_on=date(2026, 1, 1))
