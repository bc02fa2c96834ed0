"""How the trade says it: words in, flat statements out.

`understand` is the parser, `sample` and `vocabulary` feed a recogniser's language model, and
`help_topics` the help text: all three from the same data files. `digest` names their state.
"""

from __future__ import annotations

from grammar.guide import help_topics
from grammar.sampling import sample, vocabulary
from grammar.store import digest
from grammar.understanding import understand

__all__ = ["digest", "help_topics", "sample", "understand", "vocabulary"]
