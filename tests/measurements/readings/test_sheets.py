"""Judged sheets: what is kept, what is shown, what is refused."""

import csv
import io
from uuid import uuid4

import pytest
from django.db import DatabaseError, IntegrityError
from django.urls import reverse

from measurements.judge import BadInput
from measurements.readings import queries
from measurements.readings.models import Sheet
from measurements.readings.services import SheetRefused
from shopfloor.documents.files import FileAltered, read
from shopfloor.documents.models import StoredFile
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_people import make_customer, make_person
from tests.making_sheets import LIMITS, READINGS, make_sheet
from tests.measurements.sheets import answer
from tests.permission_table import csv_file

pytestmark = pytest.mark.django_db


@pytest.fixture
def mechanic():
    return make_person(Role.MECHANIC)


@pytest.fixture
def signed_in(client, mechanic):
    client.force_login(mechanic)
    return client


def form(limits=LIMITS, readings=READINGS, **more):
    files = {"limits": csv_file("limits.csv", limits), "readings": csv_file("readings.csv", readings)}
    return {"title": "Pins", "receipt_key": str(uuid4()), **files, **more}


def test_a_sheet_keeps_the_verdicts_of_the_judge(mechanic):
    kept = list(csv.DictReader(io.StringIO(read(make_sheet(mechanic).verdicts_file).decode())))
    assert kept == answer(LIMITS, READINGS).lines


def test_the_counts_add_up_to_the_lines(mechanic):
    sheet = make_sheet(mechanic)
    assert sheet.total == len(answer(LIMITS, READINGS).lines) == 6
    assert dict(sheet.counts) == {verdict: answer(LIMITS, READINGS).counts[verdict] for verdict, _ in sheet.counts}


def test_one_event_tells_of_the_sheet_with_all_three_hashes(mechanic):
    sheet = make_sheet(mechanic)
    event = LedgerEvent.objects.get(kind="sheet.judged")
    assert (event.chain, event.by) == ("measurements", mechanic.pk)
    hashes = {event.body["content"][f"{name}_sha256"] for name in ("limits", "readings", "verdicts")}
    assert hashes == {sheet.limits_file.sha256, sheet.readings_file.sha256, sheet.verdicts_file.sha256}
    assert [fault for fault in verify() if "sheet" in fault.sentence] == []


def test_the_title_is_no_open_text_in_the_ledger(mechanic):
    make_sheet(mechanic, title="Serial 4711 of a named customer")
    assert "4711" not in bytes(LedgerEvent.objects.get(kind="sheet.judged").body_bytes).decode()


def test_the_database_refuses_to_alter_a_sheet(mechanic):
    make_sheet(mechanic)
    with pytest.raises((IntegrityError, DatabaseError), match=r"append-only|permission denied"):
        Sheet.objects.update(outside_limits=0)


def test_bad_input_keeps_nothing(mechanic):
    with pytest.raises(BadInput, match=r"readings.csv:2: .*not in the limit table"):
        make_sheet(mechanic, readings="row,position,values,unit,expanded_u\nno such row,1,1,in,\n")
    assert not Sheet.objects.exists()
    assert not StoredFile.objects.exists()
    assert not LedgerEvent.objects.exists()


def test_too_many_lines_are_sent_to_the_command_line(mechanic, monkeypatch):
    monkeypatch.setattr("measurements.readings.services.sheets.MOST_LINES", 3)
    with pytest.raises(SheetRefused, match=r"manage\.py judge"):
        make_sheet(mechanic)


def test_an_altered_file_is_not_shown(mechanic, tmp_path):
    sheet = make_sheet(mechanic)
    (place,) = (tmp_path / "files").rglob(sheet.verdicts_file.sha256)
    place.chmod(0o600)
    place.write_bytes(place.read_bytes().replace(b"outside limits", b"serviceable"))
    with pytest.raises(FileAltered, match="has been altered"):
        list(queries.lines(sheet))


def test_a_line_says_what_was_read_and_a_fit_what_it_is(mechanic):
    lines = list(queries.lines(make_sheet(mechanic)))
    assert [line.given for line in lines[:2]] == ["1.5030 1.5031 in, U 0.0002", "1.5012 in, U 0.0002"]
    assert (lines[4].given, lines[4].read) == ("", "0.0018 L to 0.0019 L")


def test_lines_are_shown_by_verdict_and_page(mechanic):
    sheet = make_sheet(mechanic)
    shown, more = queries.page_of_lines(sheet, verdict="", page=1, size=4)
    rest, further = queries.page_of_lines(sheet, verdict="", page=2, size=4)
    assert (len(shown), more, len(rest), further) == (4, True, 2, False)
    chosen = list(queries.lines(sheet, verdict=shown[0].verdict))
    assert {line.verdict for line in chosen} == {shown[0].verdict}


def test_judging_on_the_page_shows_every_verdict(signed_in):
    page = signed_in.post(reverse("readings:judge"), form(), follow=True)
    assert page.status_code == 200
    for line in answer(LIMITS, READINGS).lines:
        assert line["verdict"] in page.content.decode()


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"title": ""}, "This field is required"),
        ({"readings": csv_file("r.csv", "row,position\n")}, "r.csv:1: the header lacks the column values"),
        ({"limits": csv_file("l.csv", "a picture")}, "l.csv:1: the header lacks"),
        ({"limits": csv_file("l.csv", "")}, "empty"),
        ({"limits": csv_file("l.csv", "x" * (2 * 1024 * 1024 + 1))}, "larger than 2 MB"),
        ({"customer": "987654"}, "Select a valid choice"),
        ({"readings": csv_file("r.csv", READINGS.replace("1.5012", "1-1/2"))}, "r.csv:3:"),
    ],
)
def test_what_cannot_be_judged_is_said_on_the_form_and_nothing_is_kept(signed_in, change, sentence):
    page = signed_in.post(reverse("readings:judge"), form() | change)
    assert page.status_code == 422
    assert sentence in page.content.decode()
    assert not Sheet.objects.exists()


def test_bytes_that_are_no_text_name_their_line(signed_in):
    page = signed_in.post(reverse("readings:judge"), form() | {"limits": csv_file("l.csv", LIMITS.encode() + b"\xff")})
    assert page.status_code == 422
    assert "l.csv:5: this is not UTF-8 text" in page.content.decode()


def test_a_program_gets_the_same_figures(signed_in):
    made = signed_in.post(reverse("readings-api:sheets"), form())
    assert made.status_code == 201
    lines = signed_in.get(made.json()["lines"]).json()["lines"]
    for shown, expected in zip(lines, answer(LIMITS, READINGS).lines, strict=True):
        assert shown == expected


def test_the_verdicts_come_as_a_file_that_is_never_opened_as_a_page(signed_in, mechanic):
    sheet = make_sheet(mechanic)
    response = signed_in.get(reverse("readings:verdicts", args=[sheet.pk]))
    assert list(csv.reader(io.StringIO(b"".join(response.streaming_content).decode()))) == list(
        csv.reader(io.StringIO(read(sheet.verdicts_file).decode()))
    )
    assert response["Content-Disposition"].startswith("attachment")
    assert response["X-Content-Type-Options"] == "nosniff"


def test_a_position_cannot_act_as_a_formula(signed_in, mechanic):
    sheet = make_sheet(mechanic, readings=READINGS + "pin,=1+1,1.5012,in,\n")
    response = signed_in.get(reverse("readings:verdicts", args=[sheet.pk]))
    assert b"pin,'=1+1,1.5012," in b"".join(response.streaming_content)


def test_a_form_that_is_sent_twice_judges_once(signed_in):
    posted = form()
    first, second = (
        signed_in.post(reverse("readings:judge"), posted | form() | {"receipt_key": posted["receipt_key"]}) for _ in "12"
    )
    assert first["Location"] == second["Location"]
    assert Sheet.objects.count() == 1


def test_a_customer_sees_own_sheets_only(mechanic):
    own, other = make_customer(), make_customer()
    person = make_person(Role.CUSTOMER, customer=own)
    mine = make_sheet(mechanic, own)
    make_sheet(mechanic, other)
    make_sheet(mechanic)
    assert list(queries.visible_sheets(person)) == [mine]


@pytest.mark.parametrize("address", ["readings:sheets", "benches:home"])
def test_a_longer_list_takes_no_more_queries(signed_in, mechanic, address, django_assert_max_num_queries):
    signed_in.get(reverse(address))
    for _ in range(12):
        make_sheet(mechanic, make_customer())
    with django_assert_max_num_queries(5):
        signed_in.get(reverse(address))


def test_a_sheet_takes_as_many_queries_whatever_its_length(signed_in, mechanic, django_assert_num_queries):
    long = READINGS + "".join(f"pin,rod {number},1.5012,in,\n" for number in range(3, 200))
    for readings in (READINGS, long):
        sheet = make_sheet(mechanic, readings=readings)
        with django_assert_num_queries(4):  # session, person, roles, sheet with its files
            signed_in.get(reverse("readings:sheet", args=[sheet.pk]))
