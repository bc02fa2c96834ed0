"""What is tried with any input at all, and the promises that are held against what comes of it.

A target takes bytes, as a coverage-guided fuzzer gives them, and raises where a promise is
broken. Nothing here guards against a fault: it is raised where it is met.
"""

from __future__ import annotations

import contextlib
import io
import json
import random
from collections.abc import Callable, Iterator
from typing import Any

import file_targets
import mixing
from boxaloud.assistant.dialogue import Conversation, Entry, faults
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.reports.batch import work
from boxaloud.assistant.reports.batch.result_writer import writer
from boxaloud.assistant.reports.batch.row_reader import FileFormat, rows
from boxaloud.assistant.storage.sqlite.journal_rows import entry_of
from boxaloud.assistant.text.problem import Problem
from boxaloud.grammar.lexer.heard_words import Word
from fuzz_grammar import check


@contextlib.contextmanager
def raising(wanted: bool) -> Iterator[None]:
    """Faults are raised, or guarded as they are for everyone."""
    before, faults.raised = faults.raised, wanted
    try:
        yield
    finally:
        faults.raised = before


def understand(data: bytes) -> None:
    """One utterance: acts and unread words have places in it, and name what stands there."""
    asked = mixing.OPEN[data[0] % len(mixing.OPEN)] if data else None
    check(data[1:].decode("utf-8", "surrogatepass" if _even(data) else "replace"), asked)


def _even(data: bytes) -> bool:
    with contextlib.suppress(UnicodeDecodeError):
        data[1:].decode("utf-8", "surrogatepass")
        return True
    return False


def fold(data: bytes) -> None:
    """A talk, a line an utterance, heard where HEARD is before it: its journal gives the same box
    again, as it is and from JSON; and with values of the journal exchanged it still folds."""
    lines = data.decode("utf-8", "replace").split("\n")[:40]
    with raising(True):
        talking = Conversation()
        for line in lines:
            assert talking.hear(given(line)).said
        records = talking.take_records()
        kept = [record.entry for record in records if record.entry]
        if {record.box for record in records} <= {"box 1"}:  # of one box, and no other meanwhile
            again = Conversation(boxes={"box 1": kept})
            assert again.talk.state == talking.talk.state
    texts = [json.dumps(entry.to_json()) for entry in kept]
    assert [entry_of(text) for text in texts] == kept
    chance = random.Random(data)
    with raising(False):
        folded = Talk.fold([_strange(text, chance) for text in texts], "2023")
        assert folded.hear(Entry("two 14-2 cables", ())).said


def _strange(text: str, chance: random.Random) -> Entry:
    """An entry of JSON with some of its values exchanged for others."""
    made = json.loads(text)
    for _ in range(chance.randrange(3)):
        made = _exchanged(made, chance)
    return entry_of(json.dumps(made))


STRANGE: list[Any] = [
    None, "", "x", 0, -1, 10**30, 1.5, True, [], {}, [[]], {"act": "AddCable"}, "14", "\ud800",
    {"decimal": "NaN"}, {"decimal": "1e999"}, {"ref": {}},
]  # fmt: skip


def _exchanged(value: Any, chance: random.Random) -> Any:
    if chance.random() < 0.1 or not isinstance(value, (dict, list)) or not value:
        return chance.choice(STRANGE)
    if isinstance(value, dict):
        key = chance.choice(sorted(value))
        return {**value, key: _exchanged(value[key], chance)}
    place = chance.randrange(len(value))
    return [*value[:place], _exchanged(value[place], chance), *value[place + 1 :]]


SOUND = {"name": "sound", "volume": "18", "cables": "3 x 14-2", "devices": "receptacle",
         "clamps": "none"}  # fmt: skip
"""Three 14-2 and a receptacle in 18.0: NEC 2023 Table 314.16(B)(1), 9 allowances of 2.00."""
KINDS: tuple[FileFormat, ...] = ("csv", "jsonl", "yaml")


def batch(data: bytes) -> None:
    """A file: every row has a verdict or a reason, and a sound row behind it is worked out."""
    kind = KINDS[data[0] % 3] if data else "csv"
    text = data[1:].decode("utf-8", "replace")
    sound = json.dumps(SOUND)
    end = {"csv": ",".join(SOUND.values()), "jsonl": sound, "yaml": f"- {sound}"}[kind]
    head = ",".join(SOUND) + ",says,described\n" if kind == "csv" else ""
    with raising(True):
        found = list(work(rows(kind, io.StringIO(f"{head}{text}\n{end}\n", newline=""))))
        with contextlib.suppress(Problem):  # a file without columns
            list(work(rows(kind, io.StringIO(text, newline=""))))
    assert (found[-1].name, found[-1].verdict) == ("sound", "fits")
    for form in KINDS:
        out = io.StringIO()
        put = writer(form, out)
        for result in found:
            assert (result.verdict is None) == bool(result.problem)
            put(result)
        out.getvalue().encode("utf-8")


TARGETS: dict[str, Callable[[bytes], None]] = {
    "understand": understand, "fold": fold, "batch": batch, "wav": file_targets.wav,
    "job": file_targets.job, "frame": file_targets.frame,
}  # fmt: skip
_FILES: dict[str, Callable[[random.Random], bytes]] = {
    "wav": file_targets.sample_wav, "job": file_targets.sample_job,
    "frame": file_targets.sample_frame,
}  # fmt: skip


def sample(target: str, chance: random.Random) -> bytes:
    """An input of the kind that a target takes, at random."""
    if target in _FILES:
        return _FILES[target](chance)
    lead = bytes([chance.randrange(256)])
    if target == "understand":
        return lead + mixing.utterance(chance).encode("utf-8", "surrogatepass")
    lines = [mixing.utterance(chance) for _ in range(chance.randrange(1, 12))]
    if target == "fold":
        return "\n".join(lines).encode("utf-8", "replace")
    made = KINDS[lead[0] % 3]
    return lead + "".join(_row(made, chance) for _ in lines).encode("utf-8", "replace")


CELLS: list[str] = mixing.PIECES["cells"]


def _row(kind: str, chance: random.Random) -> str:
    """A row of a file, most often nearly right."""

    def cell() -> str:
        return chance.choice(CELLS) if chance.random() < 0.8 else mixing.utterance(chance)

    if kind == "csv":
        return ",".join([cell() for _ in range(chance.choice([1, 5, 6, 7, 8]))]) + "\n"
    from boxaloud.assistant.contract.batch_documents import BatchRow

    fields: dict[str, Any] = {
        chance.choice(list(BatchRow.model_fields)): cell() for _ in range(chance.randrange(6))
    }
    if chance.random() < 0.1:
        fields["described"] = chance.choice([*STRANGE, {"parts": [chance.choice(STRANGE)]}])
    text = json.dumps(fields)
    if chance.random() < 0.15:
        place = chance.randrange(len(text))
        text = text[:place] + chance.choice(mixing.ODD) + text[place + chance.randrange(3) :]
    return f"{'- ' if kind == 'yaml' else ''}{text}\n"


HEARD = "\x01"
"""Before an utterance that an ear gave, word by word, each with how sure it was."""


def given(line: str) -> str | list[Word]:
    """A line as it is typed or heard; how sure the ear was goes by the line alone."""
    if not line.startswith(HEARD):
        return line
    chance = random.Random(line.encode("utf-8", "surrogatepass"))
    return [Word(word, chance.random()) for word in line[1:].split()]
