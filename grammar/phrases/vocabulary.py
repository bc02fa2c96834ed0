"""Every word that the grammar knows."""

from __future__ import annotations

from functools import lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lexer.numbers import word_classes
from boxaloud.grammar.lexer.shortenings import Shortenings


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


@lru_cache(maxsize=4096)
def written_out(text: str) -> str:
    """A word of the trade that is written short, in full ("pigtls"); any other word as it is."""
    if not text.isalpha() or text in known_words() or word_classes(text):
        return text
    return _shortenings().word(text) or text


@lru_cache(maxsize=1)
def _shortenings() -> Shortenings:
    from boxaloud.grammar.lexer.symbols import Lexicon

    return Shortenings(Lexicon().plural)
