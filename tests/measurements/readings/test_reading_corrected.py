"""A wrong reading is corrected by another that names it; both stay."""

import threading

import pytest
from django.db import connection

from measurements.readings.errors import CorrectedAlready, ReadingRefused
from measurements.readings.models import Reading
from shopfloor.ledger.models import ErasableText, LedgerEvent
from tests.making_readings import ledger_faults, make_reading, make_row

pytestmark = pytest.mark.django_db


def test_a_correction_names_the_reading_and_the_reason_and_both_stay(mechanic, gauge):
    row = make_row(mechanic)
    first = make_reading(row, mechanic, "2.5990", gauge=gauge)
    second = make_reading(row, mechanic, "2.4990", gauge=gauge, corrects=first, correction_reason="wrote a 5 for a 4")
    third = make_reading(row, mechanic, "2.4991", gauge=gauge, corrects=second, correction_reason="read again")

    assert (first.corrected_by, second.corrected_by) == (second, third)
    assert Reading.objects.get(pk=first.pk).verdict == "outside limits"
    assert LedgerEvent.objects.filter(kind="reading.corrected").count() == 2
    assert "wrote" not in bytes(LedgerEvent.objects.filter(kind="reading.corrected").first().body_bytes).decode()
    assert ErasableText.objects.filter(about_id=str(second.pk)).get().text == "wrote a 5 for a 4"
    assert ledger_faults() == []
    with pytest.raises(ReadingRefused, match="corrected already") as refused:
        make_reading(row, mechanic, corrects=first, correction_reason="again")
    assert refused.value.status == 409
    assert Reading.objects.count() == 3


def test_a_correction_needs_its_reason_and_the_same_row(mechanic):
    row, other = make_row(mechanic), make_row(mechanic)
    first = make_reading(row, mechanic)
    with pytest.raises(ReadingRefused, match="Say what was wrong"):
        make_reading(row, mechanic, corrects=first, correction_reason=" ")
    with pytest.raises(ReadingRefused, match="of the same row"):
        make_reading(other, mechanic, corrects=first, correction_reason="wrong row")


@pytest.mark.django_db(transaction=True)
def test_of_two_corrections_at_once_one_is_kept(mechanic):
    row = make_row(mechanic)
    first = make_reading(row, mechanic, "2.5990")
    start, told = threading.Barrier(2), []

    def correct(value):
        start.wait()
        try:
            told.append(make_reading(row, mechanic, value, corrects=first, correction_reason="wrote a 5 for a 4").minimum)
        except CorrectedAlready:
            told.append("refused")
        finally:
            connection.close()

    threads = [threading.Thread(target=correct, args=[value]) for value in ("2.4990", "2.4991")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert sorted(told) == [Reading.objects.get(corrects=first).minimum, "refused"]
    assert LedgerEvent.objects.filter(kind="reading.corrected").count() == 1
