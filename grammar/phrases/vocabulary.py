"""Every word that the grammar knows."""

from __future__ import annotations

from functools import lru_cache

from boxaloud.grammar import grammar_data


@lru_cache(maxsize=1)
def known_words() -> set[str]:
    """Every word that the grammar knows, in any way."""
    from boxaloud.grammar.lexer.symbols import Lexicon
    from boxaloud.grammar.phrases.best_cover import engine

    lexicon = Lexicon()
    known = {key.removeprefix("!") for key in engine().symbols.keys}
    known |= lexicon.fillers | lexicon.hesitations | set(lexicon.spelling) | set(lexicon.singular)
    table = grammar_data.table("clauses")
    for section in ("mood", "polarity", "correction", "other"):
        for words in table[section].values():
            for word in words:
                known.update(word.split())
    for words in grammar_data.table("whereabouts")["leading_away"].values():
        for word in words:
            known.update(word.split())
    return known
