"""Reading and recording the dialogues of `dialogues/*.txt` (the format is told in describing.txt).

`python talks.py` writes what is said now into `wording.txt`, for a person to read: the one file
that holds how replies sound. What stands behind `=` is never written by it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import groupby
from pathlib import Path

from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.grammar.lexer.heard_words import Word

FOLDER = Path(__file__).with_name("dialogues")
WORDING = FOLDER / "wording.txt"
SURE = 0.95


@dataclass
class Said:
    """One utterance: how it came, what is expected, and, where its wording is held, its reply."""

    line: str
    expected: dict[str, str] = field(default_factory=dict)
    reply: str | None = None
    spoken: str | None = None

    @property
    def words(self) -> str | list[Word]:
        text = self.line[1:].strip()
        if self.line.startswith(">"):
            return text
        return [_word(token) for token in text.split()]


@dataclass
class Dialogue:
    """A talk about boxes."""

    name: str
    file: str
    source: str = ""
    edition: str = ""
    fails: str = ""
    """Why the program does not get it right yet, where it does not."""
    says: list[Said] = field(default_factory=list)


def _word(token: str) -> Word:
    text, _, sure = token.partition("/")
    return Word(text, float(sure) if sure else SURE)


def dialogues() -> Iterator[Dialogue]:
    for path in sorted(FOLDER.glob("*.txt")):
        yield from _parsed(path)


def _parsed(path: Path) -> Iterator[Dialogue]:
    now: Dialogue | None = None
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.startswith("## "):
            if now:
                yield now
            now = Dialogue(line[3:].strip(), path.stem)
        elif now is None or not line.strip():
            continue
        elif line.startswith(("source:", "edition:", "fails:")):
            key, _, text = line.partition(":")
            setattr(now, key, text.strip())
        elif line[0] in ">*":
            now.says.append(Said(line))
        else:
            _note(now.says[-1], line)
    if now:
        yield now


def _note(said: Said, line: str) -> None:
    mark, text = line[0], line[1:].strip()
    if mark == "=":
        pairs = (pair.strip().partition(" ") for pair in text.split(";"))
        said.expected = {key: value for key, _, value in pairs}
    elif mark == "<":
        said.reply = text
    elif mark == "~":
        said.spoken = text
    else:
        raise ValueError(f"no such line: {line}")


def played(dialogue: Dialogue) -> Iterator[tuple[Said, Reply]]:
    conversation = Conversation(dialogue.edition) if dialogue.edition else Conversation()
    for said in dialogue.says:
        yield said, conversation.hear(said.words)


def found(reply: Reply) -> dict[str, str]:
    """What a dialogue may expect of a reply. `acts` are its acts, several of one kind as one."""
    out = ReplyDocument.of(reply)
    return {
        "acts": " ".join(kind for kind, _ in groupby(act.act for act in out.acts)) or "-",
        "asks": out.asks or "-",
        "total": out.total_in3,
        "ml": out.total_ml or "-",
        "left_ml": out.margin_ml or "-",
        "capacity": out.capacity_in3 or "-",
        "margin": out.margin_in3 or "-",
        "verdict": out.verdict,
        "assumed": " | ".join(out.assumed) or "-",
        "understood": " | ".join(out.understood),
        "left": " | ".join(out.left_over) or "-",
    }


def record() -> None:
    """Write what is said now after each utterance of `wording.txt`."""
    replies = iter([reply for talk in _parsed(WORDING) for _, reply in played(talk)])
    lines: list[str] = []
    for line in WORDING.read_text(encoding="utf-8").splitlines():
        if line.startswith(("<", "~")):
            continue
        lines.append(line)
        if line[:1] in (">", "*"):
            reply = next(replies)
            lines += [f"< {reply.said}", f"~ {' / '.join(reply.spoken.splitlines())}"]
    WORDING.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    record()
