"""How the trade says it: words in, dialogue acts out.

`recognise` gives the acts of an utterance and what was not read. `understand` is the step before
it: the noun groups, values and commands that the phrases found, as flat statements, which no other
room reads. `sample` and `vocabulary` feed a recogniser's language model, and `help_topics` the help
text, from the same data files. `digest` names their state.

>>> from boxaloud.grammar import recognise, understand
>>> read = recognise("two 14-2 cables and a switch")
>>> [type(act).__name__ for act in read.acts]
['AddCable', 'AddDevice']
>>> heard = understand("uh two 14-2 cables and a switch, flurb 9")
>>> [(statement.kind, statement.get("count")) for statement in heard.statements]
[('cable', 2), ('device', 1)]
>>> heard.left_over
('flurb 9',)
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from boxaloud.grammar.grammar_data import digest
from boxaloud.grammar.phrases.statement_parser import understand
from boxaloud.grammar.utterance.read_before import recognise

if TYPE_CHECKING:
    from boxaloud.grammar.phrases.help_examples import help_topics
    from boxaloud.grammar.phrases.sampling import sample, vocabulary

__all__ = ["digest", "help_topics", "recognise", "sample", "understand", "vocabulary"]

#: Imported when first asked for: a text turn needs none of them.
_LATER = {
    "help_topics": "phrases.help_examples",
    "sample": "phrases.sampling",
    "vocabulary": "phrases.sampling",
}


def __getattr__(name: str) -> Any:
    if name not in _LATER:
        raise AttributeError(f"module 'boxaloud.grammar' has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"boxaloud.grammar.{_LATER[name]}"), name)
