"""Numbers against num2words, a reference that we did not write."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from boxaloud.grammar import understand
from boxaloud.grammar.lexer.numbers import pair, run_on, value, year
from boxaloud.grammar.lexer.tokens import tokenise
from num2words import num2words


def worth(said: str) -> Decimal | None:
    """The value of a number through the whole grammar, as a bare answer."""
    understanding = understand(said)
    assert understanding.left_over == (), said
    (statement,) = understanding.statements
    if statement.kind == "number":
        return Decimal(str(statement.get("value")))
    return value(tuple(tokenise(said).texts))


@pytest.mark.parametrize("hundred", range(0, 301, 100))
def test_every_whole_number_to_three_hundred(hundred: int) -> None:
    for number in range(hundred, min(hundred + 100, 301)):
        assert value(tuple(tokenise(num2words(number)).texts)) == number
        assert value(tuple(tokenise(str(number)).texts)) == number
        assert worth(num2words(number)) == number


@pytest.mark.parametrize("hundred", [0, 100, 200])
def test_every_hundredth_to_three_hundred(hundred: int) -> None:
    """Decimals to hundredths, as num2words says them and as figures."""
    for hundredths in range(hundred * 100 + 1, (hundred + 100) * 100 + 1):
        number = Decimal(hundredths) / 100
        said = num2words(number)
        assert value(tuple(tokenise(said).texts)) == number, said
        assert value(tuple(tokenise(str(number)).texts)) == number


def test_every_decimal_to_three_hundred_through_the_grammar() -> None:
    for tenths in range(1, 3000, 7):
        number = Decimal(tenths) / 10
        if number != number.to_integral_value():
            assert worth(num2words(number)) == number


def test_every_half_quarter_eighth_and_sixteenth_to_twelve() -> None:
    """Said and written in every usual way; 16ths above twelve are not pulled from a shelf."""
    for sixteenths in range(1, 12 * 16 + 1):
        whole, rest = divmod(sixteenths, 16)
        if not rest:
            continue
        part = Fraction(rest, 16)
        exact = Decimal(sixteenths) / 16
        for said in _ways(whole, part):
            assert value(tuple(tokenise(said).texts)) == exact, said


def _ways(whole: int, part: Fraction) -> list[str]:
    top, bottom = part.numerator, part.denominator
    name = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth"}[bottom]
    name += "s" if top > 1 else ""
    parts = [f"{num2words(top)} {name}"]
    if top == 1:
        parts.append(f"an {name}" if name[0] == "e" else f"a {name}")
    figures = f"{top}/{bottom}"
    if not whole:
        return [*parts, figures]
    words = num2words(whole)
    return [
        *(f"{words} and {said}" for said in parts),
        f"{words} {parts[0]}",
        f"{whole} {figures}",
        f"{whole}-{figures}",
    ]


@pytest.mark.parametrize(
    ("said", "exact"),
    [
        ("a couple", "2"),
        ("half a dozen", "6"),
        ("a dozen", "12"),
        ("point five", "0.5"),
        ("eighteen point oh", "18"),
        ("twenty-two and a half", "22.5"),
        ("twenty point twenty five", "20.25"),
        ("four eleven sixteenths", "4.6875"),
        ("an inch and a half", "1.5"),
        ("inch and a quarter", "1.25"),
        ("2½", "2.5"),
        ("⅛", "0.125"),
        ("2-1/8", "2.125"),
        ("3,000", "3000"),
        ("٣", "3"),
        ("minus three", "-3"),
        ("negative two", "-2"),
        ("-18", "-18"),
    ],
)
def test_other_ways_of_saying_a_number(said: str, exact: str) -> None:
    assert value(tuple(tokenise(said).texts)) == Decimal(exact)


@pytest.mark.parametrize("said", ["", "switch", "one switch", "point", "and a", "14-2-x"])
def test_what_is_no_number(said: str) -> None:
    assert value(tuple(tokenise(said).texts)) is None


def test_pairs_years_and_run_on_volumes() -> None:
    assert pair("14-2") == pair("14/2s") == (14, 2)
    assert year(("twenty", "seventeen")) == year(("2017",)) == "2017"
    assert year(("two", "thousand", "twenty", "three")) == "2023"
    assert run_on(("twenty", "two", "five")) == Decimal("22.5")
