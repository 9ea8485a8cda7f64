"""`manage.py judge`: limits and readings from files, the answer to a file or to standard output."""

import argparse
import gc
import os
import sys
import traceback
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO

from measurements.judge.bad_input import BadInput
from measurements.judge.sheet import Counts, judge_files
from measurements.metrology.verdicts import GOOD

ALL_GOOD, SOME_NOT_GOOD, BAD_INPUT, OWN_FAULT = 0, 1, 2, 70


def main(argv: Sequence[str]) -> int:
    """Runs the command. Returns 0 when every verdict is good, 1 when some are not, 2 when nothing could be judged.

    70 is a fault of the judge itself, never to be taken for a verdict.

    A fault in the arguments leaves by SystemExit with 2, as argparse does.
    """
    options = _parser().parse_args(argv)
    gc.disable()  # nothing here makes cycles, and looking for them among so many figures takes a fifth of the time
    try:
        counts = _judge(options.limits, options.readings, options.out)
    except BadInput as refusal:
        print(refusal, file=sys.stderr)
        return BAD_INPUT
    except OSError as error:
        print(f"the answer is incomplete: {_words(error)}", file=sys.stderr)
        return BAD_INPUT
    except Exception:  # or Python would leave with 1, which says that every reading was judged
        traceback.print_exc()
        return OWN_FAULT
    finally:
        gc.enable()
    return ALL_GOOD if counts.keys() <= GOOD else SOME_NOT_GOOD


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="manage.py judge",
        description="Judge readings by a limit table.",
        epilog="Exit 0: all within new limits or serviceable; 1: some are not; 2: bad input, named by file and line.",
        allow_abbrev=False,
    )
    parser.add_argument("--limits", required=True, type=Path, metavar="L.csv", help="the limit table")
    parser.add_argument("--readings", required=True, type=Path, metavar="R.csv", help="the sheet of readings")
    parser.add_argument("--out", type=Path, metavar="O.csv", help="where the answer goes; standard output if left out")
    return parser


def _judge(limits: Path, readings: Path, out: Path | None) -> Counts:
    with _reading(limits) as limits_file, _reading(readings) as readings_file:
        if out is None:
            return _to_standard_output(limits_file, readings_file, limits, readings)
        _check_out(out, limits, readings)
        with _beside(out) as out_file:
            return judge_files(limits_file, readings_file, out_file, str(limits), str(readings), _warn)


def _warn(sentence: str) -> None:
    print(sentence, file=sys.stderr)


@contextmanager
def _reading(path: Path) -> Iterator[TextIO]:
    try:
        file = path.open(encoding="utf-8-sig", newline="")
    except (OSError, ValueError) as error:
        raise BadInput(str(path), None, f"cannot be read: {_words(error)}") from error
    with file:
        yield file


def _to_standard_output(limits_file: TextIO, readings_file: TextIO, limits: Path, readings: Path) -> Counts:
    with open(os.dup(1), "w", encoding="utf-8", newline="") as out_file:
        return judge_files(limits_file, readings_file, out_file, str(limits), str(readings), _warn)


def _check_out(out: Path, *inputs: Path) -> None:
    """The answer is renamed onto `out`, so `out` must not be an input, a folder or a device."""
    if not out.exists():
        return
    if not out.is_file():
        raise BadInput(str(out), None, "is not a file: name a file for the answer, or leave --out away for standard output")
    if any(out.samefile(each) for each in inputs):
        raise BadInput(str(out), None, "is an input: name another file for the answer")


@contextmanager
def _beside(out: Path) -> Iterator[TextIO]:
    """A file beside `out` that takes its name when all went well, and goes away when not; an older answer stays till then."""
    answer = out.resolve()
    draft = answer.with_name(f".{answer.name}.{os.getpid()}.draft")
    try:
        with draft.open("x", encoding="utf-8", newline="") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        draft.replace(answer)
    except OSError as error:
        raise BadInput(str(out), None, f"cannot be written: {_words(error)}") from error
    finally:
        draft.unlink(missing_ok=True)


def _words(error: OSError | ValueError) -> str:
    return getattr(error, "strerror", None) or str(error)
