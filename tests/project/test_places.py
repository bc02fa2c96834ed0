"""The places and codes that can be said are those that the rules know, and the other way round."""

from __future__ import annotations

import tomllib
from pathlib import Path

from boxaloud import grammar
from boxaloud.rules import EditionUnsure, editions, read_edition
from boxaloud.rules.adoption import places
from boxaloud.rules.editions import CANADIAN

LEXICON = Path(grammar.__file__).parent / "data" / "lexicon.toml"
NAMES = tomllib.loads(LEXICON.read_text(encoding="utf-8"))["names"]


def test_every_place_can_be_said() -> None:
    assert set(NAMES["place"]) == {place.name for place in places()}


def leads_to(name: str) -> tuple[str, ...]:
    """The edition that a name leads to, or those that it may mean."""
    try:
        return (read_edition(name).edition,)
    except EditionUnsure as unsure:
        return unsure.choices


def test_every_place_leads_to_an_edition_or_to_a_question() -> None:
    for place in places():
        found = leads_to(place.name)
        assert found, place.name
        assert set(found) <= {*editions(), CANADIAN}


def test_every_code_that_can_be_said_is_known() -> None:
    assert all(leads_to(code) for code in NAMES["codename"])
