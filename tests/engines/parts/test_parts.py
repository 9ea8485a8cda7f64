"""Parts on record: each once, in one place at a time, and what is scrapped stays out."""

import threading
from datetime import timedelta

import pytest
from django.db import DatabaseError, IntegrityError, connection, connections, transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engines.parts import queries
from engines.parts.errors import (
    AlreadyFitted,
    FieldRefused,
    LotIsEmpty,
    NotFitted,
    PartRefused,
    Scrapped,
    SerialTaken,
    StillFitted,
)
from engines.parts.models import Fitment, Item
from engines.parts.overlap import check_trigger
from engines.parts.services import book_evidence, fit_item, remove_item, scrap_item, take_piece
from engines.parts.services.evidence import Upload
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_parts import make_engine, make_item
from tests.making_people import AT, make_customer, make_person

HOUR = timedelta(hours=1)
NOW = AT + 1000 * HOUR


@pytest.fixture
def keeper():
    return make_person(Role.STOREKEEPER)


@pytest.fixture
def engine(keeper):
    return make_engine(keeper, make_customer())


def fit(item, engine, hour, keeper, place="cylinder 1"):
    return fit_item(item=item, root=engine.item, line="piston", place=place, fitted_at=AT + hour * HOUR, by=keeper, at=NOW)


def remove(fitment, hour, keeper):
    return remove_item(fitment=fitment, removed_at=AT + hour * HOUR, reason="worn", by=keeper, at=NOW)


@pytest.mark.django_db
class TestOneAtATime:
    def test_a_part_goes_in_and_comes_out_and_its_history_stays(self, keeper, engine):
        piston = make_item(keeper)
        remove(fit(piston, engine, 1, keeper), 5, keeper)
        fit(piston, engine, 5, keeper, "cylinder 2")
        assert [each.place for each in queries.history(piston)] == ["cylinder 2", "cylinder 1"]
        assert [*queries.fitted_now(engine.item)] == [("piston", "cylinder 2")]
        assert [fault for fault in verify() if "people." not in fault.sentence and "enginemodel" not in fault.sentence] == []

    def test_it_cannot_be_fitted_twice(self, keeper, engine):
        piston = make_item(keeper)
        fit(piston, engine, 1, keeper)
        with pytest.raises(AlreadyFitted):
            fit(piston, engine, 2, keeper, "cylinder 2")
        assert Fitment.objects.count() == 1

    def test_a_time_that_was_spent_elsewhere_is_refused(self, keeper, engine):
        piston = make_item(keeper)
        remove(fit(piston, engine, 4, keeper), 8, keeper)
        with pytest.raises(AlreadyFitted):
            fit(piston, engine, 2, keeper)

    @pytest.mark.parametrize(
        ("begun", "ended", "free"), [(1, 4, True), (8, 9, True), (1, 5, False), (5, 6, False), (7, 12, False)]
    )
    def test_the_database_keeps_past_spans_apart(self, keeper, engine, begun, ended, free):
        """Written past the service, as a repair of data by hand would be: half-open spans, so 4 to 8 leaves 8 free."""
        piston = make_item(keeper)
        remove(fit(piston, engine, 4, keeper), 8, keeper)
        span = Fitment(
            item=piston,
            root=engine.item,
            line="piston",
            place="cylinder 2",
            fitted_at=AT + begun * HOUR,
            fitted_known_at=NOW,
            fitted_by=keeper,
            removed_at=AT + ended * HOUR,
            removed_known_at=NOW,
            removed_by=keeper,
        )
        if free:
            span.save(force_insert=True)
        else:
            with pytest.raises(IntegrityError), transaction.atomic():
                span.save(force_insert=True)

    def test_a_closed_span_is_never_opened_or_moved(self, keeper, engine):
        fitment = remove(fit(make_item(keeper), engine, 1, keeper), 5, keeper)
        with pytest.raises(NotFitted):
            remove(fitment, 6, keeper)
        with pytest.raises(DatabaseError, match=r"append-only|permission denied"), transaction.atomic():
            Fitment.objects.update(removed_at=NOW)

    @pytest.mark.parametrize("hour", [1, 0, 2000])
    def test_it_is_removed_after_it_was_fitted_and_not_in_the_future(self, keeper, engine, hour):
        fitment = fit(make_item(keeper), engine, 1, keeper)
        with pytest.raises(FieldRefused, match="check the day"):
            remove(fitment, hour, keeper)

    def test_an_engine_is_not_fitted_in_itself(self, keeper, engine):
        with pytest.raises(AlreadyFitted):
            fit(engine.item, engine, 1, keeper)

    @pytest.mark.sqlite
    def test_a_trigger_that_is_gone_is_noticed(self, keeper):
        assert check_trigger(databases=["default"]) == []
        with connection.cursor() as cursor:
            cursor.execute("DROP TRIGGER fitments_never_overlap")
        assert [error.id for error in check_trigger(databases=["default"])] == ["parts.E001"]


@pytest.mark.django_db
class TestOnRecord:
    def test_a_serial_is_on_record_once_for_its_part_number(self, keeper):
        make_item(keeper, serial="S-1", tracking="serial")
        with pytest.raises(SerialTaken, match="S-1"):
            make_item(keeper, serial="S-1", tracking="serial")
        make_item(keeper, serial="S-1", tracking="serial", part_number="T2-999")
        assert Item.objects.count() == 2

    @pytest.mark.parametrize(
        ("fields", "sentence"),
        [
            ({"part_number": " "}, "part number and a name"),
            ({"tracking": "serial"}, "known by its serial"),
            ({"mark": ""}, "mark on the part"),
            ({"quantity": 3}, "Only a lot"),
            ({"tracking": "lot", "quantity": 0}, "at least one"),
        ],
    )
    def test_a_part_that_cannot_be_is_refused(self, keeper, fields, sentence):
        with pytest.raises(FieldRefused, match=sentence):
            make_item(keeper, **fields)
        assert not LedgerEvent.objects.filter(kind="item.added").exists()

    def test_a_scrapped_part_is_never_fitted(self, keeper, engine):
        piston = make_item(keeper)
        scrap_item(item=piston, reason="cracked", by=keeper, at=AT)
        with pytest.raises(Scrapped):
            fit(piston, engine, 1, keeper)
        with pytest.raises(Scrapped):
            scrap_item(item=piston, reason="again", by=keeper, at=AT)

    def test_a_fitted_part_is_not_scrapped(self, keeper, engine):
        piston = make_item(keeper)
        fit(piston, engine, 1, keeper)
        with pytest.raises(StillFitted):
            scrap_item(item=piston, reason="cracked", by=keeper, at=AT)

    def test_pieces_leave_a_lot_until_it_is_empty(self, keeper, engine):
        lot = make_item(keeper, mark="LOT-7", tracking="lot", quantity=2)
        pieces = [take_piece(lot=lot, by=keeper, at=AT) for _ in range(2)]
        with pytest.raises(LotIsEmpty):
            take_piece(lot=lot, by=keeper, at=AT)
        assert {piece.lot for piece in pieces} == {lot}
        with pytest.raises(FieldRefused, match="Take a piece"):
            fit(lot, engine, 1, keeper)
        book_evidence(item=lot, kind="certificate", number="C-1", by=keeper, at=AT)
        assert queries.certificates(pieces[0]).get().number == "C-1"

    @pytest.mark.parametrize("data", [b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"<html>", b"", b"\xff\xd8\xff\xe0 torn"])
    def test_evidence_is_a_pdf_or_a_photo(self, keeper, data):
        with pytest.raises(FieldRefused, match="neither a PDF nor a photo"):
            book_evidence(item=make_item(keeper), kind="scan", number="1", upload=Upload("x", data), by=keeper, at=AT)
        assert not LedgerEvent.objects.filter(kind="evidence.booked").exists()


def test_the_past_is_seen_as_it_was_and_as_it_was_known(db, keeper, engine):
    """Fitted at 2 and booked at 6; removed at 10 and booked at 20."""
    piston = make_item(keeper)
    fitment = fit_item(
        item=piston, root=engine.item, line="piston", place="cylinder 1", fitted_at=AT + 2 * HOUR, by=keeper, at=AT + 6 * HOUR
    )
    remove_item(fitment=fitment, removed_at=AT + 10 * HOUR, reason="worn", by=keeper, at=AT + 20 * HOUR)
    seen = {
        (so, known): bool(queries.fitted(engine.item, so_at=AT + so * HOUR, known_at=AT + known * HOUR))
        for so in (1, 2, 9, 10)
        for known in (5, 6, 19, 20)
    }
    assert seen == {
        **{(1, known): False for known in (5, 6, 19, 20)},
        **{(so, 5): False for so in (2, 9, 10)},
        **{(so, known): True for so in (2, 9) for known in (6, 19, 20)},
        (10, 6): True,
        (10, 19): True,
        (10, 20): False,
    }


acts = st.lists(st.tuples(st.sampled_from(["fit", "remove"]), st.integers(0, 1), st.integers(1, 30)), max_size=8)


@pytest.mark.django_db
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(acts)
def test_whatever_is_tried_a_part_is_in_one_place(keeper, engine, acts):
    """Against a list of spans kept in plain Python: what it allows is done, everything else refused."""
    with transaction.atomic():
        items, spans, open_ones = [make_item(keeper), make_item(keeper)], {0: [], 1: []}, {}
        for act, which, hour in acts:
            if act == "fit":
                free = which not in open_ones and all(end <= hour for _, end in spans[which])
                tell = lambda which=which, hour=hour: fit(items[which], engine, hour, keeper)  # noqa: E731
            else:
                free = which in open_ones and open_ones[which].fitted_at < AT + hour * HOUR
                tell = lambda which=which, hour=hour: remove(open_ones[which], hour, keeper)  # noqa: E731
                if which not in open_ones:
                    continue
            if not free:
                with pytest.raises(PartRefused):
                    tell()
            elif act == "fit":
                open_ones[which] = tell()
            else:
                closed = open_ones.pop(which)
                tell_result = remove(closed, hour, keeper)
                spans[which].append(((tell_result.fitted_at - AT) / HOUR, hour))
        for which, item in enumerate(items):
            assert item.fitments.count() == len(spans[which]) + (which in open_ones)
        transaction.set_rollback(True)


@pytest.mark.django_db(transaction=True)
def test_twenty_hands_reach_for_one_part_and_one_gets_it(keeper, engine):
    piston, outcomes, start = make_item(keeper), [], threading.Barrier(20)

    def reach(number):
        start.wait()
        try:
            fit(piston, engine, 1, keeper, f"cylinder {number}")
            outcomes.append("fitted")
        except AlreadyFitted:
            outcomes.append("refused")
        finally:
            connections.close_all()

    threads = [threading.Thread(target=reach, args=(number,)) for number in range(20)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["fitted", *["refused"] * 19]
    assert Fitment.objects.get().item == piston


@pytest.mark.django_db(transaction=True)
def test_a_lot_never_gives_more_than_it_holds(keeper):
    lot, outcomes = make_item(keeper, mark="LOT-8", tracking="lot", quantity=3), []

    def take():
        try:
            take_piece(lot=lot, by=keeper, at=AT)
            outcomes.append("taken")
        except LotIsEmpty:
            outcomes.append("empty")
        finally:
            connections.close_all()

    threads = [threading.Thread(target=take) for _ in range(10)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["empty"] * 7 + ["taken"] * 3
    assert queries.remaining(lot) == 0
