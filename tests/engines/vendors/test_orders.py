"""Orders on their way: sent while the vendor may do it, back with papers that count, or withdrawn before anything left."""

from datetime import date, timedelta

import pytest

from engines.parts.errors import AlreadyFitted, NotAtHand, Scrapped
from engines.parts.models import Certificate
from engines.parts.services import fit_item, remove_item, scrap_item, take_piece
from engines.parts.services.evidence import Upload
from engines.vendors.errors import (
    Ended,
    EvidenceMissing,
    FieldRefused,
    NotApproved,
    NotSent,
    OrderedAlready,
    SentAlready,
    StillFitted,
    VendorRefused,
)
from engines.vendors.queries import open_orders, orders, overdue_orders
from engines.vendors.services import Papers, approve, receive_back, send, suspend, withdraw
from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.models import Role
from tests.making_parts import make_engine, make_item
from tests.making_people import AT, make_customer, make_person
from tests.making_vendors import PAPERS, TODAY, faults_told, make_vendor, ordered

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)


@pytest.fixture
def keeper():
    return make_person(Role.STOREKEEPER)


@pytest.fixture
def vendor(keeper):
    return make_vendor(keeper)


@pytest.fixture
def engine(keeper):
    return make_engine(keeper, make_customer())


@pytest.fixture
def item(keeper):
    return make_item(keeper)


@pytest.fixture
def order(vendor, item, engine, keeper):
    return ordered(vendor, item, engine, keeper)


def sent(order, keeper, at=AT):
    send(order=order, words="by the van", by=keeper, at=at)
    return orders().get(pk=order.pk)


def back(order, keeper, at=AT + 5 * DAY, **papers):
    given = {"certificate": "C-100", "dated": TODAY + 4 * DAY, "did": "ground", "numbers": PAPERS} | papers
    return receive_back(order=order, papers=Papers(**given), by=keeper, at=at)


def test_back_with_every_paper_which_become_evidence_of_the_part(order, item, keeper):
    sent(order, keeper)
    made = back(order, keeper, upload=Upload("c.pdf", b"%PDF-1.7 a scan"))
    assert made.papers == ["dimension sheet: DS-4", "crack test after grinding: CT-9"]
    found = Certificate.objects.filter(item=item).order_by("booked_at", "id").values_list("kind", "number", "issued_by")
    assert set(found) == {
        ("vendor's certificate", "C-100", "Invented Grinding"),
        ("dimension sheet", "DS-4", "Invented Grinding"),
        ("crack test after grinding", "CT-9", "Invented Grinding"),
    }
    assert made.certificate.file is not None
    assert orders().get().standing == "back, an inspector has to look at it"


def test_each_act_stands_on_the_chain_of_the_engine_and_on_stores(order, engine, keeper):
    sent(order, keeper)
    back(order, keeper)
    for chain in ("stores", f"engine:{engine.pk}"):
        kinds = [each.kind for each in LedgerEvent.objects.filter(chain=chain).order_by("id")]
        mine = [kind for kind in kinds if kind.startswith("outside-work")]
        assert mine == ["outside-work.ordered", "outside-work.sent", "outside-work.back", "outside-work.ended"]
    assert not faults_told()


@pytest.mark.parametrize(
    ("wrong", "refusal", "said"),
    [
        ({"certificate": " "}, EvidenceMissing, "vendor's certificate"),
        ({"numbers": {"dimension sheet": "DS-4"}}, EvidenceMissing, "not here: crack test after grinding"),
        ({"did": " "}, FieldRefused, "Say what the vendor did"),
        ({"dated": None}, FieldRefused, "dated from the day it was sent .2026-03-02. to today"),
        ({"dated": TODAY - DAY}, FieldRefused, "dated from the day it was sent"),
        ({"dated": TODAY + 6 * DAY}, FieldRefused, "dated from the day it was sent"),
    ],
)
def test_papers_that_prove_nothing_are_refused_and_it_stays_out(order, item, keeper, wrong, refusal, said):
    sent(order, keeper)
    with pytest.raises(refusal, match=said):
        back(order, keeper, **wrong)
    assert orders().get().is_out
    assert not Certificate.objects.exists()


def test_a_certificate_of_a_day_on_which_the_approval_had_lapsed_is_refused(vendor, order, keeper):
    sent(order, keeper)
    short = {"reference": "V-8", "scope": "grinding: crankshaft", "valid_from": TODAY, "words": "seen"}
    approve(vendor=vendor, **short, valid_until=TODAY + 3 * DAY, by=keeper, at=AT)
    with pytest.raises(NotApproved, match="Invented Grinding: its approval V-8 ended on 2026-03-05, before 2026-03-06"):
        back(order, keeper)
    assert back(order, keeper, dated=TODAY + 3 * DAY).certificate is not None


def test_a_certificate_of_a_day_on_which_the_vendor_was_suspended_is_refused(vendor, order, keeper):
    sent(order, keeper)
    suspend(vendor=vendor, suspended_on=TODAY + 4 * DAY, reason="no audit", by=keeper, at=AT + 5 * DAY)
    with pytest.raises(NotApproved, match="suspended since 2026-03-06: no audit"):
        back(order, keeper)
    assert back(order, keeper, dated=TODAY + 3 * DAY).certificate is not None


def test_what_no_paper_proves_comes_back_without_and_why(order, keeper):
    sent(order, keeper)
    with pytest.raises(FieldRefused, match="without them say why"):
        receive_back(order=order, without=" ", by=keeper, at=AT)
    made = receive_back(order=order, without="approval lapsed", by=keeper, at=AT)
    assert (made.certificate, made.papers) == (None, [])


def test_the_vendor_is_asked_again_on_the_day_it_leaves(vendor, order, keeper):
    suspend(vendor=vendor, suspended_on=TODAY, reason="no audit", by=keeper, at=AT)
    with pytest.raises(NotApproved, match="Invented Grinding has been suspended"):
        sent(order, keeper)
    assert not orders().get().is_out


def test_a_fitted_part_is_neither_ordered_nor_sent(vendor, item, engine, keeper):
    where = {"item": item, "root": engine.item, "line": "crankshaft", "place": "engine", "by": keeper}
    fitment = fit_item(**where, fitted_at=AT, at=AT)
    with pytest.raises(StillFitted, match="Take it out before it goes to a vendor"):
        ordered(vendor, item, engine, keeper)
    remove_item(fitment=fitment, removed_at=AT + DAY, reason="out", by=keeper, at=AT + DAY)
    order = ordered(vendor, item, engine, keeper, AT + DAY)
    fit_item(**where, fitted_at=AT + DAY, at=AT + DAY)
    with pytest.raises(StillFitted):
        sent(order, keeper, AT + DAY)


def test_a_part_that_is_out_is_fitted_nowhere_until_it_is_back(order, item, engine, keeper):
    where = {"item": item, "root": engine.item, "line": "crankshaft", "place": "engine", "by": keeper, "fitted_at": AT}
    sent(order, keeper)
    with pytest.raises(NotAtHand, match=r"is out with Invented Grinding .order 1, due 2026-03-12.\. Nothing is done with"):
        fit_item(**where, at=AT + DAY)
    back(order, keeper)
    fit_item(**where, at=AT + 6 * DAY)
    with pytest.raises(AlreadyFitted):
        fit_item(**where, at=AT + 6 * DAY)


def test_a_second_open_order_of_a_part_is_refused_and_a_later_one_is_not(vendor, order, item, engine, keeper):
    with pytest.raises(OrderedAlready, match="is on order 1 with Invented Grinding already"):
        ordered(vendor, item, engine, keeper)
    sent(order, keeper)
    with pytest.raises(OrderedAlready):
        ordered(vendor, item, engine, keeper)
    back(order, keeper)
    assert ordered(vendor, item, engine, keeper, AT + 6 * DAY).number == 2


def test_a_piece_of_a_lot_goes_out_and_the_lot_does_not(vendor, engine, keeper):
    lot = make_item(keeper, tracking="lot", quantity=3, mark="L-1")
    with pytest.raises(FieldRefused, match=r"is a lot\. Take a piece of it"):
        ordered(vendor, lot, engine, keeper)
    first, second = (take_piece(lot=lot, mark=mark, by=keeper, at=AT) for mark in ("L-1/1", "L-1/2"))
    numbers = [sent(ordered(vendor, piece, engine, keeper), keeper).number for piece in (first, second)]
    assert numbers == [1, 2]


def test_a_scrapped_part_goes_nowhere(vendor, item, engine, keeper):
    scrap_item(item=item, reason="cracked", by=keeper, at=AT)
    with pytest.raises(Scrapped):
        ordered(vendor, item, engine, keeper)


def test_sent_once_and_withdrawn_only_before(order, keeper):
    with pytest.raises(NotSent):
        back(order, keeper)
    sent(order, keeper)
    for act in (send, withdraw):
        with pytest.raises(SentAlready):
            act(order=order, words="again", by=keeper, at=AT)
    back(order, keeper)
    with pytest.raises(Ended):
        back(order, keeper)


def test_a_withdrawn_order_has_ended(order, keeper):
    with pytest.raises(FieldRefused, match="Say why"):
        withdraw(order=order, words=" ", by=keeper, at=AT)
    withdraw(order=order, words="ground here", by=keeper, at=AT)
    for act in (lambda: sent(order, keeper), lambda: back(order, keeper)):
        with pytest.raises(Ended):
            act()
    assert orders().get().standing == "withdrawn"


def test_how_it_goes_is_said(order, keeper):
    with pytest.raises(VendorRefused, match="Say how it goes"):
        send(order=order, words=" ", by=keeper, at=AT)


def test_late_is_what_is_open_after_its_day(vendor, order, engine, keeper):
    other = ordered(vendor, make_item(keeper), engine, keeper, due_on=date(2026, 3, 5))
    assert [each.number for each in open_orders()] == [other.number, order.number]
    assert [each.number for each in overdue_orders(date(2026, 3, 6))] == [other.number]
    assert not overdue_orders(date(2026, 3, 5))
    withdraw(order=other, words="not needed", by=keeper, at=AT)
    assert not overdue_orders(date(2026, 3, 6))
