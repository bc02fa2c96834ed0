"""`boxaloud hear`: the conversation fed by recordings, each an utterance or several."""

from __future__ import annotations

from pathlib import Path

from boxaloud.assistant.asr import AsrError, read_wav
from boxaloud.assistant.asr.asr_types import Recogniser, RecognitionResult
from boxaloud.assistant.asr.ear_choice import choice, made
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.cli.exit_codes import UNUSABLE, exit_status
from boxaloud.assistant.cli.output import one_utterance, put, put_json, with_report
from boxaloud.assistant.cli.worksheet_text import Showing
from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.dialogue.reply import SystemAct
from boxaloud.assistant.storage.memory_session import DialogueSession, listening
from boxaloud.assistant.text.printing import warn
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.text.progress import progress


def run(recordings: list[Path], job: str, edition: str, as_json: bool) -> int:
    """Hear each recording in turn and answer.

    All files are read before the first is heard, so that a bad one stops nothing half-way.
    """
    try:
        sounds = [read_wav(path) for path in recordings]
        ear = _ready()
    except AsrError as refusal:
        raise Problem(str(refusal)) from None
    showing = Showing()
    reply, entered = None, False
    with listening(job, edition) as (listener, first):
        if first and not as_json:
            put(first)
        with progress(say("hear.bar"), len(sounds)) as bar:
            for sound in sounds:
                for hearing in ear.hear(sound, listener.asks):
                    bar.hide()
                    with one_utterance():
                        reply = answer(hearing, listener)
                        entered = entered or reply.changed
                        _show(reply, showing, as_json)
                bar.step()
        for line in showing.at_the_end():
            put(line)
    return UNUSABLE if reply is None else exit_status(reply, entered)


def _ready() -> Recogniser:
    """The ear, after it was said that it takes a while where it does, and which it is."""
    chosen = choice()
    if chosen.preparing:
        warn(chosen.preparing)
    ear = made(chosen)
    warn(chosen.sentence)
    return ear


def _show(reply: Reply, showing: Showing, as_json: bool) -> None:
    if as_json:
        put_json(reply)
        return
    text, lines = showing.shown(reply)
    put(f"Heard: {reply.heard or '(nothing)'}")
    put(f"Reply: {text}")
    for line in lines:
        put(line)


def answer(hearing: RecognitionResult, listener: DialogueSession) -> Reply:
    """What is answered to an utterance; where nothing of it was understood, what to do."""
    words = choose(hearing, listener.asks)
    reply = with_report(listener.hear(words), listener)
    if words:
        return reply
    trouble = say(f"trouble.{hearing.trouble or 'unclear'}")
    return reply.saying((SystemAct("nonunderstanding", trouble),))
