"""`boxaloud batch`: rows in, results out, a bar on a terminal, and an exit status that tells."""

from __future__ import annotations

import contextlib
import io
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import TextIO

from boxaloud.assistant.cli.exit_codes import FITS, INCOMPLETE, OVER, UNUSABLE, complain
from boxaloud.assistant.contract.batch_documents import RowResult
from boxaloud.assistant.reports.batch.csv_records import LONGEST
from boxaloud.assistant.reports.batch.result_writer import writer
from boxaloud.assistant.reports.batch.row_evaluator import work
from boxaloud.assistant.reports.batch.row_reader import FileFormat, kind_of, opened, rows
from boxaloud.assistant.text import printing
from boxaloud.assistant.text.output_file import output
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.text.progress import progress


def run(path: Path, out: Path | None) -> int:
    """Work out every row. 1 where a box is over, else 3 where one is incomplete or a row bad,
    else 0; 2 where no row could be used."""
    stream = _standard_input() if str(path) == "-" else opened(path)
    with stream:
        first = stream.readline(LONGEST)
        kind = kind_of(path, first)
        lines = _Lines(first, stream)
        with _target(path, out) as target, _progress(path, lines, out) as step:
            put = writer(_kind_out(kind, out), target)
            counts = _work(kind, lines, put, path, step)
    _tell(counts)
    return status(counts)


def status(counts: Counter[str]) -> int:
    """The exit status that the counts of verdicts come to."""
    if counts["over"]:
        return OVER
    if not counts["fits"] and not counts["incomplete"]:
        return UNUSABLE
    return INCOMPLETE if counts["incomplete"] or counts["bad"] else FITS


def _work(
    kind: FileFormat,
    lines: _Lines,
    put: Callable[[RowResult], None],
    path: Path,
    step: Callable[[], None],
) -> Counter[str]:
    counts: Counter[str] = Counter()
    for result in work(rows(kind, lines)):
        put(result)
        counts[result.verdict or "bad"] += 1
        if result.problem:
            complain(f"{path}, line {result.line}, {result.name}: {result.problem}")
        step()
    return counts


def _tell(counts: Counter[str]) -> None:
    total = sum(counts.values())
    complain(
        f"{total} boxes: {counts['fits']} fit, {counts['over']} over, "
        f"{counts['incomplete']} not finished, {counts['bad']} could not be used."
    )


def _standard_input() -> TextIO:
    """Standard input, with a mark for each byte that is no letter, as a file is read."""
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")
    return sys.stdin


class _Lines(Iterable[str]):
    """The lines of a stream with the first put back, and how many characters were read.

    A line of more than LONGEST characters is cut there, so that none fills the memory.
    """

    def __init__(self, first: str, stream: TextIO) -> None:
        self._first = first
        self._stream = stream
        self.read = 0

    def __iter__(self) -> Iterator[str]:
        line = self._first
        while line:
            self.read += len(line)
            yield line
            while len(line) == LONGEST and not line.endswith("\n"):
                line = self._stream.readline(LONGEST)
                self.read += len(line)
            line = self._stream.readline(LONGEST)


def _kind_out(kind: FileFormat, out: Path | None) -> FileFormat:
    return kind if out is None else kind_of(out, {"csv": "", "yaml": "-", "jsonl": "{"}[kind])


class _Printed(io.StringIO):
    """Standard output as a stream to write results to."""

    def write(self, text: str) -> int:
        """Print it."""
        printing.write(text)
        return len(text)


@contextlib.contextmanager
def _target(path: Path, out: Path | None) -> Iterator[TextIO]:
    """Standard output, or the file, which is there whole or not at all."""
    if out is None:
        yield _Printed()
        printing.flush()
        return
    with contextlib.suppress(OSError):
        if out.samefile(path):
            raise Problem(f"{out} is the file being read: name another for the results.")
    with (
        output(out) as draft,
        draft.open("w", encoding="utf-8", errors="replace", newline="") as target,
    ):
        yield target


@contextlib.contextmanager
def _progress(path: Path, lines: _Lines, out: Path | None) -> Iterator[Callable[[], None]]:
    """A bar, unless the size of what is read is not known or the results go to the terminal."""
    piped = str(path) == "-"
    quiet = piped or (out is None and sys.stdout.isatty())
    with progress(path.name, 0 if piped else path.stat().st_size, quiet) as shown:
        yield lambda: shown.at(lines.read)
