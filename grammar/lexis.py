"""Every word that the grammar knows."""

from __future__ import annotations

from functools import lru_cache

from boxaloud.grammar import store


@lru_cache(maxsize=1)
def known_words() -> set[str]:
    """Every word that the grammar knows, in any way."""
    from boxaloud.grammar.engine import engine
    from boxaloud.grammar.symbols import Lexicon

    lexicon = Lexicon()
    known = {key.removeprefix("!") for key in engine().symbols.keys}
    known |= lexicon.fillers | lexicon.hesitations | set(lexicon.spelling) | set(lexicon.singular)
    table = store.table("clauses")
    for section in ("mood", "polarity", "correction", "other"):
        for words in table[section].values():
            for word in words:
                known.update(word.split())
    return known
