"""The commands about sound, added to `boxaloud` by `add_to`: talk, ears and doctor."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Job = Annotated[str, typer.Option(help="The job to talk about; else the one last spoken to.")]
Edition = Annotated[str, typer.Option(help="Code edition that a new job begins under.")]
Listen = Annotated[str, typer.Option(help="key: push to talk. open: always. wake: by its name.")]
Headset = Annotated[
    bool, typer.Option("--headset", help="The microphone does not hear the voice: talk over it.")
]
Microphone = Annotated[str, typer.Option(help="A part of the microphone's name.")]
Rate = Annotated[int, typer.Option(min=80, max=450, help="How fast it speaks, words a minute.")]
VoiceName = Annotated[str, typer.Option("--voice", help="A part of a voice's name.")]
Silent = Annotated[bool, typer.Option("--silent", help="Print the replies, do not speak them.")]
Save = Annotated[
    Path | None, typer.Option("--save-speech", help="Write speech as WAV files in this folder.")
]
Recordings = Annotated[
    list[Path] | None,
    typer.Option("--device-file", help="A WAV file in place of a microphone; may be repeated."),
]
Folder = Annotated[Path, typer.Argument(help="The folder that the model's archive unpacked to.")]

ears = typer.Typer(help="What hears you: list it, add a better one.", rich_markup_mode=None)


@ears.callback(invoke_without_command=True)
def list_ears(context: typer.Context) -> None:
    """List what hears you, and say where a better ear comes from."""
    if context.invoked_subcommand is None:
        from assistant import ears_front

        raise typer.Exit(ears_front.listed())


@ears.command()
def add(folder: Folder) -> None:
    """Add a Vosk model: it is checked, tried, and used from then on."""
    from assistant import ears_front

    raise typer.Exit(ears_front.add(folder))


@ears.command()
def remove(name: Annotated[str, typer.Argument(help="The model's name or folder.")]) -> None:
    """Take a Vosk model off the list; its folder stays."""
    from assistant import ears_front

    raise typer.Exit(ears_front.remove(name))


def doctor(
    microphone: Microphone = "",
    save_speech: Save = None,
    recordings: Recordings = None,
) -> None:
    """Look at microphone, loudspeaker, voices and engines, and say how to mend each."""
    from assistant import doctor as front

    raise typer.Exit(front.run(microphone, save_speech, recordings or []))


def talk(
    job: Job = "",
    edition: Edition = "",
    listen: Listen = "key",
    headset: Headset = False,
    microphone: Microphone = "",
    rate: Rate = 165,
    voice: VoiceName = "",
    silent: Silent = False,
    save_speech: Save = None,
    recordings: Recordings = None,
) -> None:
    """Talk boxes through by microphone and loudspeaker, hands free."""
    from assistant import talk as front
    from assistant.mouth import Voice

    wishes = front.Wishes(
        job, edition, listen, headset, microphone, Voice(rate, voice), silent, save_speech,
        tuple(recordings or ()),
    )  # fmt: skip
    raise typer.Exit(front.run(wishes))


def add_to(app: typer.Typer) -> None:
    """Add the commands."""
    app.command()(talk)
    app.command()(doctor)
    app.add_typer(ears, name="ears")
