"""The commands about sound: talk, doctor and ears."""

from __future__ import annotations

from pathlib import Path

from boxaloud.assistant.cli.command_rows import (
    DEFAULT_EDITION,
    EDITIONS,
    Command,
    argument,
    group,
    option,
    switch,
)

MICROPHONE = option("microphone", "A part of the microphone's name.")
SAVE = option("save_speech", "Write speech as WAV files in this folder.", kind="path", default=None)
RECORDINGS = option(
    "recordings", "A WAV file in place of a microphone; may be repeated.", "--device-file",
    kind="path", many=True,
)  # fmt: skip


def _list_ears() -> int:
    from boxaloud.assistant.cli.commands import ears_command

    return ears_command.listed()


def _add(folder: Path) -> int:
    from boxaloud.assistant.cli.commands import ears_command

    return ears_command.add(folder)


def _remove(name: str) -> int:
    from boxaloud.assistant.cli.commands import ears_command

    return ears_command.remove(name)


def _doctor(microphone: str, save_speech: Path | None, recordings: list[Path]) -> int:
    from boxaloud.assistant.cli.commands import doctor_command as front

    return front.run(microphone, save_speech, recordings)


def _talk(
    job: str,
    edition: str,
    listen: str,
    headset: bool,
    microphone: str,
    rate: int,
    voice: str,
    silent: bool,
    save_speech: Path | None,
    recordings: list[Path],
) -> int:
    from boxaloud.assistant.cli.commands import talk_command as front
    from boxaloud.assistant.tts import Voice

    wishes = front.Wishes(
        job, edition, listen, headset, microphone, Voice(rate, voice), silent, save_speech,
        tuple(recordings),
    )  # fmt: skip
    return front.run(wishes)


TALK = Command(
    "talk",
    "Talk boxes through by microphone and loudspeaker, hands free.",
    _talk,
    (
        option("job", "The job to talk about; else the one last spoken to.", names="job"),
        option("edition", "Code edition that a new job begins under.", choices=EDITIONS,
               default_shown=DEFAULT_EDITION),
        option("listen", "key: push to talk. open: always. wake: by its name.", default="key",
               choices=("key", "open", "wake")),
        switch("headset", "The microphone does not hear the voice: talk over it."),
        MICROPHONE,
        option("rate", "How fast it speaks, words a minute.",
               kind="number", default=165, least=80, most=450),
        option("voice", "A part of a voice's name."),
        switch("silent", "Print the replies, do not speak them."),
        SAVE,
        RECORDINGS,
    ),
    example="boxaloud talk --listen wake --headset",
)  # fmt: skip
DOCTOR = Command(
    "doctor",
    "Look at microphone, loudspeaker, voices and engines, and say how to mend each.",
    _doctor,
    (MICROPHONE, SAVE, RECORDINGS),
    example="boxaloud doctor --microphone USB",
)
EARS = group(
    "ears",
    "What hears you: list it, add a better one.",
    (
        Command(
            "add",
            "Add a Vosk model: it is checked, tried, and used from then on.",
            _add,
            (argument("folder", "The folder that the model's archive unpacked to.", kind="path"),),
            example="boxaloud ears add ~/models/small-en",
        ),
        Command(
            "remove",
            "Take a Vosk model off the list; its folder stays.",
            _remove,
            (argument("name", "The model's name or folder."),),
            example="boxaloud ears remove small-en",
        ),
    ),
    _list_ears,
    example="boxaloud ears",
)
COMMANDS = (TALK, DOCTOR, EARS)
