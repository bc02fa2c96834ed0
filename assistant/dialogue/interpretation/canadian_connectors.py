"""Connectors told under the Canadian rule, where those on splices count and others do not."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

_CONNECTORS = re.compile(r"(?:[a-z]+|\d+) connectors")


def which(act: acts.SetClamps) -> Act:
    """ "Two connectors" in Canada: those on splices count in pairs, Rule 12-3034(2)(b), those that
    hold cables do not. Which they are is asked."""
    if act.count is None or not _CONNECTORS.fullmatch(act.words.lower()):
        return act
    doubts = (acts.Doubt("name", "confusable"),)
    return acts.AddUncounted(
        count=act.count, name="wire connector", words=act.words, span=act.span, doubts=doubts
    )
