"""Whatever is wrong with a file is named by file and line, and nothing is left behind."""

import pytest

from measurements.judge import main
from tests.measurements.sheets import LIMITS, READINGS

GOOD_LIMITS = LIMITS + "\nbore,p,c,in,1.5,1.6,,,,,,,,\npin,p,c,in,1.4,1.5,,,,,,,,\nfit,p,c,in,0,,,,,,,,bore,pin\n"
GOOD_READINGS = READINGS + "\nbore,1,1.55,in,\n"


def third_row(row):
    return GOOD_LIMITS + row + "\n"


BAD_LIMITS = {
    "empty file": ("", 1, "lacks the column row"),
    "a column lacking": ("row,part,characteristic,unit,new_min,new_max,service_min\n", 1, "lacks the column service_max"),
    "a column unknown": (LIMITS + ",colour\n", 1, "“colour” that is not known"),
    "a column twice": (LIMITS + ",worn\n", 1, "column worn twice"),
    "short line": (third_row("a,p,c,in,1"), 5, "too few fields: 5"),
    "long line": (third_row("a,p,c,in,1,2,,,,,,,,,"), 5, "too many fields: 15"),
    "no name": (third_row(",p,c,in,1,2,,,,,,,,"), 5, "no name"),
    "letters": (third_row("a,p,c,in,1.5x,2,,,,,,,,"), 5, "new_min: “1.5x” is not a number"),
    "exponent": (third_row("a,p,c,in,1e5,,,,,,,,,"), 5, "“1e5” is not a number"),
    "nan": (third_row("a,p,c,in,NaN,,,,,,,,,"), 5, "“NaN” is not a number"),
    "infinity": (third_row("a,p,c,in,,inf,,,,,,,,"), 5, "new_max: “inf” is not a number"),
    "row twice": (third_row("pin,p,c,in,1,2,,,,,,,,"), 5, "listed twice, first on line 3"),
    "new reversed": (third_row("a,p,c,in,2,1,,,,,,,,"), 5, "reversed"),
    "service reversed": (third_row("a,p,c,in,,,2,1,,,,,,"), 5, "reversed"),
    "new and service swapped": (third_row("a,p,c,in,1,2,1.1,1.9,,,,,,"), 5, "reversed"),
    "new least above service greatest": (third_row("a,p,c,in,2,,,1,,,,,,"), 5, "reversed"),
    "no unit": (third_row("a,p,c,,1,2,,,,,,,,"), 5, "unit is missing"),
    "unknown unit": (third_row("a,p,c,furlong,1,2,,,,,,,,"), 5, "“furlong” is not known"),
    "unknown worn": (third_row("a,p,c,in,1,2,,,old,,,,,"), 5, "worn “old”"),
    "unknown rule": (third_row("a,p,c,in,1,2,,,,lenient,,,,"), 5, "rule “lenient”"),
    "unknown basis": (third_row("a,p,c,in,1,2,,,,,up,,,"), 5, "basis “up”"),
    "rounding to nothing": (third_row("a,p,c,in,1,2,,,,,rounding,,,"), 5, "decimals is blank"),
    "decimals below nothing": (third_row("a,p,c,in,1,2,,,,,rounding,-1,,"), 5, "decimals “-1”"),
    "one mate": (third_row("a,p,c,in,1,2,,,,,,,bore,"), 5, "needs both mates"),
    "unknown mate": (third_row("a,p,c,in,1,2,,,,,,,bore,nut"), 5, "inner_row names “nut”"),
    "mate is a fit": (third_row("a,p,c,in,1,2,,,,,,,fit,pin"), 5, "itself a fit"),
    "mate is itself": (third_row("a,p,c,in,1,2,,,,,,,a,pin"), 5, "itself a fit"),
    "mates alike": (third_row("a,p,c,in,1,2,,,,,,,bore,bore"), 5, "both “bore”"),
    "mate of another dimension": (third_row("a,p,c,lb,1,2,,,,,,,bore,pin"), 5, "in measures length and lb measures mass"),
    "open quotation": (third_row('a,p,"c,in,1,2,,,,,,,,'), 5, "not comma-separated"),
}
ALT_HEADER = LIMITS + ",alt_unit,alt_new_min,alt_new_max\n"
BAD_LIMITS |= {
    "second unit lacking": (ALT_HEADER + "a,p,c,in,1,2,,,,,,,,,,25.4,\n", 2, "alt_unit is blank"),
    "second unit of another dimension": (ALT_HEADER + "a,p,c,in,1,2,,,,,,,,,g,25.4,\n", 2, "g measures mass"),
    "second column reversed": (ALT_HEADER + "a,p,c,in,1,2,,,,,,,,,mm,50.8,25.4\n", 2, "reversed"),
}


def second_reading(line):
    return GOOD_READINGS + line + "\n"


BAD_READINGS = {
    "empty file": ("", 1, "lacks the column row"),
    "a column lacking": ("row,position,values,unit\n", 1, "lacks the column expanded_u"),
    "short line": (second_reading("bore,1,1.55,in"), 3, "too few fields: 4"),
    "long line": (second_reading("bore,1,1.55,in,,"), 3, "too many fields: 6"),
    "no value": (second_reading("bore,1, ,in,"), 3, "there is no value"),
    "letters": (second_reading("bore,1,1.55 oops,in,"), 3, "“oops” is not a number"),
    "fraction": (second_reading("bore,1,1-1/8,in,"), 3, "“1-1/8” is not a number"),
    "underscore": (second_reading("bore,1,1_5,in,"), 3, "“1_5” is not a number"),
    "decimal comma": (second_reading('bore,1,"1,55",in,'), 3, "“1,55” is not a number"),
    "other digits": (second_reading("bore,1,١.٥,in,"), 3, "is not a number"),  # noqa: RUF001
    "superscript": (second_reading("bore,1,1²,in,"), 3, "is not a number"),
    "a point alone": (second_reading("bore,1,.,in,"), 3, "“.” is not a number"),
    "two points": (second_reading("bore,1,1.5.5,in,"), 3, "“1.5.5” is not a number"),
    "nan": (second_reading("bore,1,nan,in,"), 3, "“nan” is not a number"),
    "infinity": (second_reading("bore,1,-Infinity,in,"), 3, "“-Infinity” is not a number"),
    "endless digits": (second_reading(f"bore,1,1.{'5' * 5000},in,"), 3, "5001 digits"),
    "endless field": (second_reading(f"bore,1,{'1 ' * 100_000},in,"), 3, "not comma-separated"),
    "negative uncertainty": (second_reading("bore,1,1.55,in,-0.001"), 3, "is negative"),
    "uncertainty in letters": (second_reading("bore,1,1.55,in,little"), 3, "“little” is not a number"),
    "unknown row": (second_reading("nut,1,1.55,in,"), 3, "“nut” is not in the limit table"),
    "a fit is never read": (second_reading("fit,1,0.01,in,"), 3, "never read"),
    "no unit": (second_reading("bore,1,1.55,,"), 3, "unit is missing"),
    "unknown unit": (second_reading("bore,1,1.55,inch,"), 3, "“inch” is not known"),
    "another dimension": (second_reading("bore,1,1.55,g,"), 3, "g measures mass and in measures length"),
    "after an empty line": (second_reading("\nbore,1,x,in,"), 4, "“x” is not a number"),
    "after a quoted line break": (second_reading('bore,"1\n2",1.55,in,\nbore,1,x,in,'), 5, "“x” is not a number"),
}


@pytest.fixture
def judge(tmp_path, capfd):
    def run(limits, readings):
        (tmp_path / "L.csv").write_bytes(limits if isinstance(limits, bytes) else limits.encode())
        (tmp_path / "R.csv").write_bytes(readings if isinstance(readings, bytes) else readings.encode())
        files = {name: str(tmp_path / f"{name[0].upper()}.csv") for name in ("limits", "readings", "out")}
        code = main([part for name, path in files.items() for part in (f"--{name}", path)])
        return code, capfd.readouterr().err, {path.name for path in tmp_path.iterdir()}

    return run


def test_the_files_the_bad_ones_are_made_from_are_good(judge):
    assert judge(GOOD_LIMITS, GOOD_READINGS)[::2] == (1, {"L.csv", "R.csv", "O.csv"})  # 1: the fit lacks its pin


@pytest.mark.parametrize("fault", BAD_LIMITS)
def test_a_bad_table_is_refused_by_line(judge, tmp_path, fault):
    limits, line, words = BAD_LIMITS[fault]
    code, said, files = judge(limits, GOOD_READINGS)

    assert (code, files) == (2, {"L.csv", "R.csv"})
    assert said.startswith(f"{tmp_path}/L.csv:{line}: ")
    assert words in said
    assert said.count("\n") == 1


@pytest.mark.parametrize("fault", BAD_READINGS)
def test_a_bad_sheet_is_refused_by_line(judge, tmp_path, fault):
    readings, line, words = BAD_READINGS[fault]
    code, said, files = judge(GOOD_LIMITS, readings)

    assert (code, files) == (2, {"L.csv", "R.csv"})
    assert said.startswith(f"{tmp_path}/R.csv:{line}: ")
    assert words in said


def test_bytes_that_are_not_text_are_found_where_they_stand(judge, tmp_path):
    readings = GOOD_READINGS.encode() + b"bore,2,1.55,in,\n" * 5000 + b"bore,\xff,1.55,in,\n" + b"bore,3,1.55,in,\n" * 5000
    code, said, files = judge(GOOD_LIMITS, readings)

    assert (code, files) == (2, {"L.csv", "R.csv"})
    assert said.startswith(f"{tmp_path}/R.csv:5003: is not UTF-8")


def test_an_older_answer_survives_a_refusal(judge, tmp_path):
    (tmp_path / "O.csv").write_text("older")
    assert judge(GOOD_LIMITS, second_reading("nut,1,1,in,"))[0] == 2
    assert (tmp_path / "O.csv").read_text() == "older"
