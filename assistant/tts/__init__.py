"""Words in, speech out: one voice with one owner, stopped at any moment.

`default_speech_output` gives a mouth that speaks aloud, or into a folder. A mouth that cannot speak
says so once, in a sentence, and is silent from then on: what it would have said is on the screen.
"""

from __future__ import annotations

from boxaloud.assistant.tts.audio_playback import the_player
from boxaloud.assistant.tts.speech_output import SpeechOutput
from boxaloud.assistant.tts.speech_output_factory import default_speech_output, muted_speech_output
from boxaloud.assistant.tts.tts_errors import TtsError
from boxaloud.assistant.tts.tts_types import Player, Speech, Synthesiser, Voice

__all__ = [
    "Player",
    "Speech",
    "SpeechOutput",
    "Synthesiser",
    "TtsError",
    "Voice",
    "default_speech_output",
    "muted_speech_output",
    "the_player",
]
