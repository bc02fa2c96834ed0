"""The sentences of speech synthesis, from data."""

from __future__ import annotations

from boxaloud.assistant.text.catalogue import Catalogue

_CATALOGUE = Catalogue("boxaloud.assistant.tts")
say = _CATALOGUE.say
