"""What is not looked for, because no word of it is there, would not have been found either.

Every utterance of the corpora and of the rows is read once more with every such look taken.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.enclosures import body_talk
from boxaloud.grammar.utterance import act_passes, act_recognizer
from boxaloud.grammar.utterance.running_passes import Passes

TESTS = Path(__file__).parents[1]
FOLDERS = (TESTS / "grammar" / "corpus", TESTS / "understanding" / "rows")
AROUND = ("{}", "hello, {}", "{}, a switch", "two 14-2s, {}")
#: Ways of saying that those folders may lack.
MORE = (
    "the runs are 12-2", "each cable is a 12-2", "hello, porch sw / 14/2 x2 / 18 cu in",
    "all three runs are 12-2", "both are 14-2", "1 sw box, 18 cubic inches",
)  # fmt: skip


def said(node: object) -> Iterator[str]:
    """Everything under a key `say`, however deep."""
    if isinstance(node, dict):
        for key, inner in node.items():
            if key == "say":
                yield from [inner] if isinstance(inner, str) else filter(_is_text, inner)
            else:
                yield from said(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from said(inner)


def _is_text(one: object) -> bool:
    return isinstance(one, str)


def utterances() -> list[str]:
    files = [path for folder in FOLDERS for path in sorted(folder.glob("*.toml"))]
    texts = {text for path in files for text in said(tomllib.loads(path.read_text("utf-8")))}
    return [AROUND[place % 4].format(text) for place, text in enumerate(sorted(texts))] + [*MORE]


def read(texts: list[str]) -> list[Utterance]:
    return [act_recognizer.recognise(text) for text in texts]


def test_nothing_is_passed_over_that_would_be_found(monkeypatch: pytest.MonkeyPatch) -> None:
    texts = utterances()
    assert len(texts) > 2000
    found = read(texts)
    for passes in (act_passes.FIRST, act_passes.THEN):
        always = [row._replace(pieces=()) for row in passes.rows]
        for name, value in vars(Passes(always)).items():
            monkeypatch.setattr(passes, name, value)
        monkeypatch.delattr(passes, "_sieve", raising=False)
    monkeypatch.setattr(act_recognizer, "_WORDLESS", frozenset())
    monkeypatch.setattr(act_recognizer, "_NAMELESS", frozenset())
    monkeypatch.setattr(body_talk, "_NAMING", re.compile(""))
    for text, one, other in zip(texts, found, read(texts), strict=True):
        assert one == other, text
