"""The sentences of the browser's server, from data."""

from __future__ import annotations

from boxaloud.assistant.text.catalogue import Catalogue

_CATALOGUE = Catalogue("boxaloud.assistant.web")
say = _CATALOGUE.say
