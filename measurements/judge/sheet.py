"""A table and a sheet in, the answer out."""

import csv
import io
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from typing import TextIO

from measurements.judge.bad_input import BadInput
from measurements.judge.blocks import Block, JudgeBlock, Share, blocks, shares
from measurements.judge.fits import fit_lines
from measurements.judge.lines import COLUMNS, Line, Wording
from measurements.judge.mates import MateLists, Mates
from measurements.judge.readings import Sheet
from measurements.judge.table import read_limits
from measurements.metrology.limits import LimitRow

Counts = Counter[str]


def judge_files(
    limits: TextIO, readings: TextIO, out: TextIO, limits_name: str, readings_name: str, warn: Callable[[str], None]
) -> Counts:
    """Judges every reading, then every fit, and writes the answer to `out` as it goes; returns how many got each verdict.

    Memory holds the table and one entry for each position of the rows that a fit names, nothing else. Raises BadInput,
    named by `limits_name` or `readings_name`, when part of the answer may already be written: discard it then.
    `warn` receives a sentence for each row of the table whose unit columns disagree. All three open as UTF-8, newline="".
    """
    table = read_limits(limits, limits_name, warn)
    fits = [row for row in table.values() if row.is_fit]
    wordings = {row.row: Wording(_fits_of(row, fits)) for row in table.values()}
    mates = Mates(name for fit in fits for name in (fit.outer_row, fit.inner_row))
    counts: Counts = Counter()
    out.write(",".join(COLUMNS) + "\n")
    judge_block = _block_judge(Sheet(table, wordings, mates.columns), readings_name)
    for share in shares(blocks(readings, readings_name), judge_block):
        out.write(share.text)
        counts.update(share.counts)
        mates.keep_all(share.mates)
    _write(out, fit_lines(fits, wordings, mates), counts)
    return counts


def _block_judge(sheet: Sheet, readings_name: str) -> JudgeBlock:
    def judge_block(block: Block) -> Share:
        mates = MateLists()
        try:
            lines = list(sheet.lines(io.StringIO(block.text, newline=""), readings_name, mates))
        except BadInput as refusal:
            raise BadInput(refusal.file, refusal.line and refusal.line + block.before, refusal.sentence) from None
        return Share("".join([line for _, line in lines]), Counts(verdict for verdict, _ in lines), mates)

    return judge_block


def _write(out: TextIO, lines: Iterable[Line], counts: Counts) -> None:
    csv.writer(out, lineterminator="\n").writerows(_counted(lines, counts))


def _fits_of(row: LimitRow, fits: list[LimitRow]) -> list[str]:
    return [fit.row for fit in fits if row.row in (fit.row, fit.outer_row, fit.inner_row)]


def _counted(lines: Iterable[Line], counts: Counts) -> Iterator[tuple[str, ...]]:
    for row, position, answer in lines:
        counts[answer.verdict] += 1
        yield row, position, *answer
