"""The verdict vectors drive the judge of files and the judge in columns; what is expected comes from the slow oracle."""

import io
import json
from collections import defaultdict

import pytest

from measurements.judge import BadInput
from measurements.judge.readings import uncertainty_of, values_of
from measurements.judge.scales import Typed, scale_for
from measurements.judge.table import read_limits
from measurements.metrology.many import JUDGEMENTS, at_scale, judge_many
from tests.measurements.sheets import answer, limit_row, sheet, table
from tests.vectors import making

VECTORS = json.loads(making.FILE.read_text(encoding="utf-8"))
GROUPS = defaultdict(list)
for _each in VECTORS:
    GROUPS[_each["name"].partition(":")[0]].append(_each)


def test_the_file_is_what_the_oracle_says():
    assert making.FILE.read_text(encoding="utf-8") == making.text(), "run: python -m tests.vectors.making"


def test_there_are_enough_and_none_twice():
    assert len({json.dumps(each) for each in VECTORS}) == len(VECTORS) >= 400


@pytest.mark.parametrize("group", GROUPS)
def test_the_judge_of_files_agrees(group):
    for vector in GROUPS[group]:
        assert _of_the_judge(vector) == _expected(vector), vector


@pytest.mark.parametrize("group", [group for group in GROUPS if group != "ugly"])
def test_the_judge_in_columns_agrees(group):
    for vector in GROUPS[group]:
        assert _in_columns(vector) == _expected(vector), vector


def _expected(vector):
    return "refused" if "refused" in vector else (vector["verdict"], vector["reason"])


def _of_the_judge(vector):
    try:
        typed = ",".join(["r", "1", vector["values"], vector["unit"], vector["expanded_u"]])
        quoted = typed.replace(vector["values"], f'"{vector["values"]}"', 1) if "," in vector["values"] else typed
        (line,) = answer(table(limit_row(**vector["row"])), sheet(quoted)).lines
    except BadInput:
        return "refused"
    return line["verdict"], line["reason"].replace("fit: r", "fit")


def _in_columns(vector):
    row = read_limits(io.StringIO(table(limit_row(**vector["row"]))), "limits.csv", lambda warning: None)["r"]
    values, places = values_of(vector["values"])
    u, u_places = uncertainty_of(vector["expanded_u"])
    scale = scale_for(row, [Typed(vector["unit"], places, u_places)])
    factor = scale.values[0]
    (code,) = judge_many(at_scale([min(values)], factor), at_scale([max(values)], factor), scale.held, u * scale.uncertainties[0])
    judgement = JUDGEMENTS[code]
    return str(judgement.verdict), "; ".join(judgement.reasons)
