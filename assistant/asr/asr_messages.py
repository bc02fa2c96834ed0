"""The sentences of speech recognition, from data."""

from __future__ import annotations

from boxaloud.assistant.text.catalogue import Catalogue

_CATALOGUE = Catalogue("boxaloud.assistant.asr")
say = _CATALOGUE.say
