"""Every row of data/rewrites*.toml does what it says of itself, and nothing that costs too much.

English usage of the trade, common practice: the examples of the rows. What each conductor, device
and clamp counts is by 314.16(B), as the rows name it; here only words become other words.
"""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from boxaloud.grammar import grammar_data, package_files
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.patterns.pattern_requirements import may_match, needs
from boxaloud.grammar.rewriting.heard_rewriting import HeardText
from boxaloud.grammar.rewriting.paraphrases import paraphrase
from boxaloud.grammar.rewriting.replacement_template import replacement_template
from boxaloud.grammar.rewriting.rewrite_rules import RewriteRule, rewrite_rules
from boxaloud.grammar.rewriting.rewriter import rewritten, rewritten_words
from boxaloud.grammar.rewriting.rule_requirements import FILES
from boxaloud.grammar.rewriting.worked_out import WORKED_OUT

ROWS = Path(__file__).parents[1] / "understanding" / "rows"
RULES = rewrite_rules()
BY_NAME = [pytest.param(rule, id=f"{rule.subject}-{rule.row['example'][0]}") for rule in RULES]
FIELDS = {
    "said", "plain", "by", "behind", "not_behind", "beside", "not_beside", "in_text", "not_in_text",
    "needs", "side", "asked", "not_asked", "first", "example", "not", "why",
}  # fmt: skip
#: As many characters as a long paragraph has.
LONG = 1500


def applied(rule: RewriteRule, text: str) -> str:
    for start, end, told in rule.replacements(text, rule.asked):
        text = text[:start] + told + text[end:]
    return text


@pytest.mark.parametrize("rule", BY_NAME)
def test_a_row_does_what_its_example_says(rule: RewriteRule) -> None:
    said, plain = rule.row["example"]
    assert applied(rule, said) == plain
    assert said != plain
    assert len(said) == len(plain)
    for other in rule.row.get("not", ()):
        assert applied(rule, other) == other
    assert rule.row["why"]
    assert set(rule.row) <= FIELDS
    assert ("by" in rule.row) + ("plain" in rule.row) < 2


@pytest.mark.parametrize("rule", BY_NAME)
def test_its_words_call_for_a_row(rule: RewriteRule) -> None:
    """The index tries a rule only where one of its pieces stands: every match must hold one, and
    those that it leaves alone should be left alone for another reason."""
    for said in (rule.row["example"][0], *rule.row.get("not", ())):
        assert any(piece in said.lower() for piece in rule.needs), said
    assert may_match(rule.row["example"][0].lower(), rule.lacking)
    said = [_without_references(one) for one in (rule.said, *_in_text(rule))]
    around = [one.replace("(?=", "(?:").replace("(?<=", "(?:") for one in said]
    read = [texts for one in (*said, *around) for texts in needs(one) if all(map(str.strip, texts))]
    digits = all(map(str.isdigit, rule.needs))  # which are read off no expression
    if read and rule.by is None and not digits:
        assert any(
            all(any(piece in text.lower() for piece in rule.needs) for text in texts)
            for texts in read
        ), read


def _example(row: dict[str, Any]) -> str:
    return str(row["example"][0])


def _in_text(rule: RewriteRule) -> Sequence[str]:
    return rule.around.in_text if rule.around else ()


def _without_references(said: str) -> str:
    """An expression in the syntax that is read for what it needs: without references to groups,
    flags, and signs that stand for themselves."""
    said = re.sub(r"\(\?P=\w+\)", "(?:)", said)
    said = re.sub(r"^\(\?[a-z]+\)|(?<=\(\?)-?[a-z]+(?=:)", "", said)
    return re.sub(r"\\u2019|\\x27", " ", said.replace(r"\t", "\t"))


@pytest.mark.parametrize("rule", BY_NAME)
def test_no_row_is_exponential(rule: RewriteRule) -> None:
    """Words said over and over come to an end; a row that tried every way to part them would not.

    Common practice of those who attack servers: repeated beginnings of what almost matches.
    """
    said = rule.row["example"][0]
    half = said[: len(said) // 2]
    for piece in (said, half, said.split(" ")[0], *rule.needs[:3], "so ", "the one ", "no, "):
        text = f"{piece} " * (LONG // (len(piece) + 1))
        assert len(applied(rule, text)) == len(text)
        assert len(applied(rule, f"{text}{said}?")) == len(text) + len(said) + 1


@pytest.mark.parametrize("rule", BY_NAME)
def test_a_row_does_not_read_to_the_end_at_every_place(rule: RewriteRule) -> None:
    """Such a look ahead takes time that grows with the square of the length: what the whole text
    must hold, or must not, stands in the row's `in_text` and `not_in_text`."""
    assert re.match(r"\(\?[!=](?:\.[*+]|\[\^[^\]]*\][*+])", rule.said) is None


def test_no_two_rows_say_the_same() -> None:
    assert len({rule.said for rule in RULES}) == len(RULES)


def test_every_file_every_fragment_and_every_function_is_used() -> None:
    assert set(FILES) == {name for name in package_files.NAMES if name.startswith("rewrites_")}
    fragments = grammar_data.table("rewrites")["fragments"]
    told = [*fragments.values(), *map(grammar_data.table, (*FILES, "paraphrases"))]
    code = Path(package_files.__file__).with_name("rewriting").glob("*.py")
    whole = "".join([*map(str, told), *(path.read_text("utf-8") for path in code)])
    assert [name for name in fragments if "{" + name + "}" not in whole] == []
    assert {rule.row["by"] for rule in RULES if rule.by} == set(WORKED_OUT)
    assert not re.search(r"\{(?![\d,]+\}|-?\w*(:\w+)?\})", "".join(map(_said, RULES)))


def _said(rule: RewriteRule) -> str:
    return rule.said


def utterances() -> list[str]:
    """What the rows of the matrix say."""
    return [
        said
        for path in sorted(ROWS.glob("*.toml"))
        for row in tomllib.loads(path.read_text("utf-8"))["row"]
        for said in (*row.get("say", ()), ", ".join(row.get("parts", ())))
    ]


def test_the_index_leaves_out_nothing() -> None:
    """Every rule tried in its order gives what those give that the words call for; of every sixth
    sentence, since each is tried with every rule (`BOXALOUD_EVERY=1` takes them all)."""
    for said in utterances()[:: 1 if os.environ.get("BOXALOUD_EVERY") else 6]:
        plain = said
        for rule in RULES:
            if rule.subject != "called" and not rule.first and rule.side != "heard":
                for start, end, told in rule.replacements(plain, None):
                    plain = plain[:start] + told + plain[end:]
        assert rewritten(said) == plain
        assert len(plain) == len(said)


@pytest.mark.parametrize("row", grammar_data.table("paraphrases")["paraphrase"], ids=_example)
def test_a_paraphrase_is_what_its_example_says(row: dict[str, Any]) -> None:
    said, plain = row["example"]
    assert paraphrase(said) == plain
    assert row["why"]
    assert any(piece in said for piece in row["needs"])
    assert all(paraphrase(said, asked) is None for asked in row.get("not_asked", ()))
    assert set(row) <= {"said", "plain", "needs", "not_asked", "example", "why"}
    for piece in (said, said[: len(said) // 2], *row["needs"][:3], "so ", "no, "):
        text = f"{piece} " * (LONG // (len(piece) + 1))
        assert paraphrase(f"{text}!") != text


#: Ways to say it that no row has for its example, as an ear gives them, and what becomes of them.
HEARD = {
    "the clamps are not inside": "the clamps are outside",
    "swap it for a twenty two": "box is twenty two",
    "mine's an eighteen": "box eighteen",
    "a sixteen blue with two 14-2": "a sixteen box with two 14-2",
    "grounds three number ten": "three number ten gnd",
    "two cables one's a 12-3 the other one is a 12-2": "one 12-3 one 12-2",
    "lose the pair": "lose those 2",
    "the other 12-2 goes elsewhere take it out": "the other 12-2 is gone",
    "in a one 1-1/4 octagon": "in a one octagon 1-1/4",
    "receptacle on the 14 dimmer on the 12": "receptacle on the 14, dimmer on the 12",
}
#: What an ear's missing breaks leave open, so that it stays as it was heard.
LEFT_ALONE = [
    "do that twenty", "two gang thirty four 12-2", "blue twenty two 14-2",
    "i take that back it's a 20", "the clamps are inside", "swap it for two 14-2",
    "the ground is a 12",
]  # fmt: skip


@pytest.mark.parametrize(("said", "plain"), HEARD.items())
def test_what_is_heard_is_put_in_plain_words(said: str, plain: str) -> None:
    words = [Word(one, 0.9) for one in said.split(" ")]
    assert [word.text for word in rewritten_words(words)] == plain.split(" ")


@pytest.mark.parametrize("said", LEFT_ALONE)
def test_what_breaks_would_tell_is_left_as_it_was_heard(said: str) -> None:
    words = [Word(one, 0.9) for one in said.split(" ")]
    assert rewritten_words(words) == words


def test_blanked_words_are_dropped_and_others_stay_the_same() -> None:
    words = [Word(said, 0.9) for said in ["hot", "tub", "feed"]]
    assert rewritten_words(words) == words[1:]
    assert rewritten_words(words)[0] is words[1]
    assert rewritten_words(words[:1]) == words[:1]


def test_what_stands_in_place_of_words_is_as_sure_as_the_least_sure_of_them() -> None:
    heard = HeardText([Word("two", 0.9), Word("of", 0.4), Word("em", None), Word("switches", 0.8)])
    heard.replace(0, 9, "x2       ")
    assert heard.words() == [Word("x2", 0.4), Word("switches", 0.8)]


def test_a_break_put_in_parts_two_words() -> None:
    heard = HeardText([Word("three-way", 0.9), Word("so", 0.8)])
    heard.replace(9, 10, ",")
    assert heard.words() == [Word("three-way,", 0.9), Word("so", 0.8)]


def test_a_template_keeps_the_length_or_says_that_there_is_no_room() -> None:
    found = re.match(r"(?P<n>two) (?P<size>twelves)", "two twelves")
    assert found is not None
    filled = {
        "{n}": "two        ",
        "{}{n}": "        two",
        "{-n}{size}": "   twelves ",
        "{n:figure}-{size:one}": "2-twelve   ",
        "{n}{}{size}": "two twelves",
        "{size}, {n}.": None,
        "": "           ",
    }
    for plain, told in filled.items():
        assert replacement_template(plain).filled(found) == told
