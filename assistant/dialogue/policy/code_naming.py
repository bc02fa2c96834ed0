"""Under which code a verdict stands, as it is told: with the verdict, or with the caution."""

from __future__ import annotations

from functools import cache

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.nlg.sentences import Told, say, sentences
from boxaloud.rules import counted_under, is_canadian, provisional


def short_caution(found: Assessment) -> str:
    """The short caution. To the ear it names section and edition, once, of verdicts that do
    not."""
    edition = found.sheet.edition
    if not left_to_caution(edition):
        return say("caution_named")
    key = "caution_short" if found.body is None else "caution_body"
    return say("caution_pull" if found.pull_alone else key, edition=edition)


def code_named(edition: str) -> str:
    """The code of Canada or of an edition that was not read, in a sentence; empty for others."""
    if left_to_caution(edition):
        return ""
    return section_aloud(say("counted_under", under=counted_under(edition)))


def section_aloud(text: str) -> Told:
    """A text that is said whole, with the numbers of its sections as they are read aloud."""
    ear = text
    for written, said in sentences()["aloud"].items():
        ear = ear.replace(written, said)
    return Told(text, ear)


def names_edition(edition: str, cautioned: bool) -> bool:
    """True where the ear is told the edition in the reply of a verdict anyway."""
    return cautioned or not left_to_caution(edition)


@cache
def left_to_caution(edition: str) -> bool:
    """Whether a verdict for the ear may leave its edition to the caution behind it: one of Canada
    or under a provisional edition says its code each time."""
    return not is_canadian(edition) and provisional(edition) is None
