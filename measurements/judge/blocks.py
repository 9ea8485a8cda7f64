"""A sheet cut into blocks of whole lines, so that a large one is judged on every core and its answers stay in order.

A block goes out as text; its share of the answer comes back as text, with the counts and the mates. At most two blocks a
core are under way, so memory does not grow with the sheet.
"""

import os
from collections import Counter, deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from multiprocessing import get_all_start_methods, get_context
from typing import NamedTuple, TextIO

from measurements.judge.bad_input import BadInput
from measurements.judge.mates import MateLists
from measurements.judge.records import LONGEST_LINE, not_utf8

BLOCK = 1 << 20


class Block(NamedTuple):
    """Whole records with the header above them. `before` is how many lines of the sheet stand between the two."""

    text: str
    before: int


class Share(NamedTuple):
    """What a block adds to the answer."""

    text: str
    counts: Counter[str]
    mates: MateLists


JudgeBlock = Callable[[Block], Share]


def blocks(readings: TextIO, readings_name: str) -> Iterator[Block]:
    """The sheet in blocks; at least one, even of an empty sheet. Raises BadInput where the text is not UTF-8."""
    header, line = _whole_records(readings, readings_name, 0, least=1)
    before = 0
    while True:
        text, lines = _whole_records(readings, readings_name, line, least=BLOCK)
        if text or not before:
            yield Block(header + text, before)
        if not text:
            return
        line, before = line + lines, before + lines


def _whole_records(readings: TextIO, readings_name: str, line: int, least: int) -> tuple[str, int]:
    """Lines of at least so many characters together, and how many; a field in quotation marks may hold line ends."""
    pieces: list[str] = []
    length = marks = 0
    try:
        while length < least or (marks % 2 and length < least + LONGEST_LINE):
            piece = readings.readline(LONGEST_LINE)
            if not piece:
                break
            pieces.append(piece)
            length, marks = length + len(piece), marks + piece.count('"')
    except UnicodeDecodeError as error:
        raise not_utf8(readings, readings_name, line + len(pieces) + 1) from error
    return "".join(pieces), len(pieces)


def shares(found: Iterator[Block], judge_block: JudgeBlock) -> Iterator[Share]:
    """Each block's share, in order. Raises the BadInput of the earliest block that has one.

    A sheet of one block is judged here and now; a longer one on every core, where processes can be forked.
    """
    first, second = next(found), next(found, None)
    yield judge_block(first)
    if second is None:
        return
    if (os.cpu_count() or 1) > 1 and "fork" in get_all_start_methods():
        yield from _on_every_core(second, found, judge_block)
    else:
        yield judge_block(second)
        yield from map(judge_block, found)


def _on_every_core(second: Block, found: Iterator[Block], judge_block: JudgeBlock) -> Iterator[Share]:
    cores = os.cpu_count() or 1
    under_way: deque[Future[Share]] = deque()
    with ProcessPoolExecutor(cores, get_context("fork"), _begin, (judge_block,)) as pool:
        under_way.append(pool.submit(_work, second))
        refusal = None
        try:
            for block in found:
                under_way.append(pool.submit(_work, block))
                if len(under_way) > 2 * cores:
                    yield under_way.popleft().result()
        except BadInput as later:
            refusal = later
        while under_way:
            yield under_way.popleft().result()
        if refusal:
            raise refusal


_judge_block: JudgeBlock | None = None


def _begin(judge_block: JudgeBlock) -> None:
    global _judge_block
    _judge_block = judge_block


def _work(block: Block) -> Share:
    assert _judge_block is not None
    return _judge_block(block)
