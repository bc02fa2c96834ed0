"""What is read off a regular expression never keeps a line from it that it matches."""

from __future__ import annotations

import re

import pytest
from boxaloud.grammar import understand
from boxaloud.grammar.clauses.clause_splitter import clauses
from boxaloud.grammar.patterns.pattern_index import Sieve
from boxaloud.grammar.patterns.pattern_requirements import may_match, needs, telling_needs
from boxaloud.grammar.patterns.patterns import compiled, expressions
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from spoken_cases import cases

#: Python's own documentation of `re` says what each of these matches.
READ = {
    "red": [["red"]],
    "red|blue": [["red", "blue"]],
    "(?:red|blue) wire": [[" wire"], ["red", "blue"]],
    "(?:red |blue )?wire": [["wire"]],
    "(?:red|)wire": [["wire"]],
    "(?:two )*wires?": [["wire"]],
    "(?:two )+wires": [["wires"], ["two "]],
    "hot+ wires": [[" wires"], ["ho"], ["t"]],
    "a{0,2}b{2}c": [["c"]],
    "(?P<which>red|blue)": [["red", "blue"]],
    r"<n:[^>]*> left\b": [["> left"], ["<n:"]],
    r"^[]a\]]x$": [["x"]],
    r"14\.2": [["14.2"]],
    r"\d+ in": [[" in"]],
    "take (?!off)(?=out)(?:off|out)": [["take "], ["off", "out"]],
    "(?<!not )fit": [["fit"]],
}
NOT_READ = ["(?i)red", "(?P<a>red)(?P=a)", r"(red)\1", "(?#note)red", "(?>red)", r"\N{DIGIT ONE}"]


@pytest.mark.parametrize(("expression", "found"), READ.items())
def test_what_an_expression_needs(expression: str, found: list[list[str]]) -> None:
    assert sorted(needs(expression)) == sorted(found)


def test_what_is_looked_for_and_referred_to_is_read_off_as_well() -> None:
    """Python's own documentation of `re` says what each of these matches."""
    assert telling_needs(r"(?P<a>red|blue)(?<=d) wire(?= OUT)(?P=a)(?!not)") == [
        [" wire"], [" out"], ["red", "blue"],
    ]  # fmt: skip
    assert telling_needs(r"\(?=blue") == [["=blue"]]  # a bracket that may be left out
    assert telling_needs(r"(?m)it\x27s s?") == [["it's "]]


@pytest.mark.parametrize("expression", NOT_READ)
def test_strange_syntax_keeps_nothing_back(expression: str) -> None:
    assert needs(expression) == []


@pytest.mark.parametrize("expression", ["red(", "red)", "[red", "red\\", "*red"])
def test_what_is_no_expression_keeps_nothing_back(expression: str) -> None:
    assert needs(expression) == []


@pytest.mark.parametrize("expression", [*READ, *NOT_READ[:3]])
@given(data=st.data())
def test_a_line_made_from_an_expression_holds_what_it_needs(
    expression: str, data: st.DataObject
) -> None:
    assert may_match(data.draw(st.from_regex(expression)), needs(expression))


@pytest.mark.parametrize("expression", expressions(), ids=range(len(expressions())))
@settings(max_examples=10, suppress_health_check=list(HealthCheck), deadline=None)
@given(data=st.data())
def test_a_line_made_from_a_pattern_holds_what_it_needs(
    expression: str, data: st.DataObject
) -> None:
    line = data.draw(st.from_regex(expression))
    assert may_match(line, needs(expression)), line


def test_no_clause_of_the_corpus_is_kept_from_a_pattern_that_it_matches() -> None:
    lines = {
        clause.line
        for case in cases()
        for clause in clauses(case.say, understand(case.say).statements)
    }
    matched = 0
    for expression in expressions():
        needed = needs(expression)
        assert needed, "a pattern of which nothing can be read off is compiled for every clause"
        for line in lines:
            if compiled(expression).search(line):
                matched += 1
                assert may_match(line, needed), (expression, line)
    assert matched > 50


SIEVE = Sieve([needs(expression) for expression in expressions()])


@given(data=st.data(), place=st.integers(0, len(expressions()) - 1))
@settings(max_examples=300, deadline=None)
def test_a_line_made_from_a_pattern_passes_the_sieve(data: st.DataObject, place: int) -> None:
    line = data.draw(st.from_regex(expressions()[place]))
    assert place in set(SIEVE.passing(line)), line


def test_the_sieve_lets_pass_all_that_the_lines_of_the_corpus_may_match() -> None:
    """`may_match` looks for the texts themselves."""
    passed = 0
    needed = [needs(expression) for expression in expressions()]
    for case in cases():
        for clause in clauses(case.say, understand(case.say).statements):
            may = [at for at, texts in enumerate(needed) if may_match(clause.line, texts)]
            passing = list(SIEVE.passing(clause.line))
            assert passing == sorted(passing)
            assert set(may) <= set(passing), clause.line
            passed += len(passing)
    assert passed


def test_most_patterns_need_not_be_compiled_for_a_clause() -> None:
    line = "<cable:2:> and a <device:1:> in the kitchen"
    tried = [expression for expression in expressions() if may_match(line, needs(expression))]
    assert len(tried) < len(expressions()) / 4
    assert not any(re.search(expression, line) for expression in set(expressions()) - set(tried))
