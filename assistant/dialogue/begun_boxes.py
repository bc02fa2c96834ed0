"""A box that has no name of its own, by the words that it was begun with: "Nursery, two gang …"."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_names import first_words, named


def begun_so(name: str, names: Sequence[str], talk_of: Callable[[str], Talk]) -> str | None:
    """The one of `names` whose first words are that name; None where a box is called so, or where
    none or several were begun so."""
    wanted = named(name.lower().strip())
    if wanted in names:
        return None
    begun = [
        box
        for box in names
        if box.startswith("box ")
        and (journal := talk_of(box).journal)
        and named(first_words(journal[0].heard)) == wanted
    ]
    return begun[0] if len(begun) == 1 else None
