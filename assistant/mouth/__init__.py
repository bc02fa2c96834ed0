"""Words in, speech out: one voice with one owner, stopped at any moment.

`the_mouth` gives a mouth that speaks aloud, or into a folder. A mouth that cannot speak says so
once, in a sentence, and is silent from then on: what it would have said is on the screen.
"""

from __future__ import annotations

from boxaloud.assistant.mouth.errors import MouthError
from boxaloud.assistant.mouth.loudspeaker import the_player
from boxaloud.assistant.mouth.mouth import Mouth
from boxaloud.assistant.mouth.speech import Player, Renderer, Speech, Voice
from boxaloud.assistant.mouth.start import silent_mouth, the_mouth

__all__ = [
    "Mouth",
    "MouthError",
    "Player",
    "Renderer",
    "Speech",
    "Voice",
    "silent_mouth",
    "the_mouth",
    "the_player",
]
