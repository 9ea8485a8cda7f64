"""A long sheet, cut into blocks and judged on every core, gets the answer of a short one."""

import csv
import io
import os

import pytest

from measurements.judge import BadInput, blocks, command, judge_files, readings
from tests.making_sheets import LIMITS
from tests.measurements.sheets import READINGS as HEADER

LINES = [f"{('bushing', 'pin')[n % 2]},rod {n // 2 % 40},1.50{n % 90:02d} 1.5{n % 7}1,in,0.000{n % 3}" for n in range(900)]
SHEET = "\n".join((HEADER, *LINES, ""))


def answer(readings):
    out = io.StringIO()
    counts = judge_files(io.StringIO(LIMITS), io.StringIO(readings, newline=""), out, "limits.csv", "readings.csv", print)
    return out.getvalue(), counts


@pytest.fixture
def small_blocks(monkeypatch):
    monkeypatch.setattr(blocks, "BLOCK", 500)


@pytest.mark.parametrize("cores", [1, 2, 3])
def test_many_blocks_give_the_answer_of_one(monkeypatch, cores):
    whole = answer(SHEET)
    monkeypatch.setattr(blocks, "BLOCK", 500)
    monkeypatch.setattr(os, "cpu_count", lambda: cores)
    assert answer(SHEET) == whole


def test_what_is_forgotten_between_blocks_changes_no_answer(monkeypatch, small_blocks):
    remembered = answer(SHEET)
    monkeypatch.setattr(readings, "KEPT", 3)
    assert answer(SHEET) == remembered


@pytest.mark.parametrize("line", [3, 400, 901])
def test_a_fault_in_any_block_is_named_by_its_line_in_the_sheet(small_blocks, line):
    faulty = SHEET.splitlines()
    faulty[line - 1] = "bushing,rod 1,1-1/8,in,"
    with pytest.raises(BadInput, match=rf"readings.csv:{line}: .*1-1/8"):
        answer("\n".join(faulty))


def test_of_two_faults_the_first_is_named(small_blocks):
    faulty = SHEET.splitlines()
    faulty[500] = faulty[600] = "bushing,rod 1,none,in,"
    with pytest.raises(BadInput, match=r"readings.csv:501:"):
        answer("\n".join(faulty))


def test_a_fault_comes_before_bytes_further_down_that_are_no_text(small_blocks):
    faulty = SHEET.splitlines()
    faulty[300] = "bushing,rod 1,none,in,"
    raw = io.BytesIO("\n".join(faulty).encode() * 3 + b"\xff\n")
    with pytest.raises(BadInput, match=r"readings.csv:301:"):
        judge_files(io.StringIO(LIMITS), io.TextIOWrapper(raw, "utf-8", newline=""), io.StringIO(), "l", "readings.csv", print)


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_quotation_with_line_ends_inside_is_never_cut(monkeypatch, end):
    quoted = [f'bushing,"rod{end}{number}",1.5030,in,' for number in range(200)]
    sheet = end.join((HEADER, *quoted, ""))
    whole = answer(sheet)
    monkeypatch.setattr(blocks, "BLOCK", 31)
    assert answer(sheet) == whole
    with pytest.raises(BadInput, match=r"readings.csv:402:"):
        answer(sheet + "bushing,rod,none,in,")


def test_the_last_reading_at_a_position_counts_also_across_blocks(small_blocks):
    sheet = SHEET + "bushing,rod 0,1.5555,in,\npin,rod 0,1.5550,in,\n"
    (fit,) = (line for line in answer(sheet)[0].splitlines() if line.startswith("clearance,rod 0,"))
    assert fit.startswith("clearance,rod 0,0.0005,0.0005,")


@pytest.mark.parametrize("sheet", ["", "\n"])
def test_an_empty_sheet_lacks_its_header(sheet):
    with pytest.raises(BadInput, match=r"readings.csv:1: the header lacks"):
        answer(sheet)


def test_a_fault_of_the_judge_itself_is_never_taken_for_a_verdict(monkeypatch, tmp_path):
    def broken(*arguments):
        raise ZeroDivisionError

    limits, readings = tmp_path / "l.csv", tmp_path / "r.csv"
    limits.write_text(LIMITS)
    readings.write_text(SHEET)
    monkeypatch.setattr(command, "judge_files", broken)
    assert command.main(["--limits", str(limits), "--readings", str(readings)]) == 70


@pytest.mark.parametrize("name", ["a, b", 'so-called "b"', 'a "b", c', "a\nb", "ü µ", "-"])
def test_names_are_written_as_any_reader_of_such_files_expects(name):
    limits, sheet = io.StringIO(newline=""), io.StringIO(newline="")
    header = LIMITS.splitlines()[0].split(",")
    rows = [dict.fromkeys(header, "") | {"row": row, "part": "p", "unit": "in"} for row in ("bore", name, "fit")]
    rows[1] |= {"new_max": "1", "worn": "fit"}
    rows[2] |= {"outer_row": "bore", "inner_row": name, "row": f"fit {name}"}
    csv.DictWriter(limits, header).writeheader()
    csv.DictWriter(limits, header).writerows(rows)
    csv.writer(sheet).writerows([HEADER.split(","), (name, name, "2", "in", "")])
    for file in (limits, sheet):
        file.seek(0)
    out = io.StringIO(newline="")

    judge_files(limits, sheet, out, "limits.csv", "readings.csv", print)

    lines = list(csv.reader(io.StringIO(out.getvalue(), newline="")))
    assert lines[1][:2] == [name, name]
    assert lines[1][-1].startswith(f"limit is on the fit: fit {name}")
    again = io.StringIO(newline="")
    csv.writer(again, lineterminator="\n").writerows(lines)
    assert out.getvalue() == again.getvalue()
