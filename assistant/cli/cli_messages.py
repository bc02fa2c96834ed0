"""The sentences of the command line, from data."""

from __future__ import annotations

from boxaloud.assistant.text.catalogue import Catalogue

_CATALOGUE = Catalogue("boxaloud.assistant.cli")
say = _CATALOGUE.say
