"""The command `boxaloud`: each subcommand a thin front end, imported only when it is used."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from assistant import sound_commands
from assistant.jobs import commands as job_commands
from assistant.screen import commands as screen_commands

app = typer.Typer(
    name="boxaloud",
    help="Say what is in an electrical box and hear whether it fits, section by section.",
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

Edition = Annotated[str, typer.Option(help="Code edition to count by, such as 2020.")]
Units = Annotated[str, typer.Option(help="cm3 shows cubic centimetres beside cubic inches.")]
Job = Annotated[str, typer.Option(help="Keep what is said in this job, and go on where it was.")]
Json = Annotated[bool, typer.Option("--json", help="One JSON object a line instead of text.")]


@app.command()
def check(
    statements: Annotated[list[str], typer.Argument(help="What is in the box, in words.")],
    edition: Edition = "",
    json: Json = False,
    units: Units = "in3",
) -> None:
    """Work out one box. Exit status: 0 fits, 1 over, 3 incomplete, 2 not understood."""
    from assistant import check as front

    raise typer.Exit(front.run(statements, edition, json, units))


@app.command()
def chat(job: Job = "", edition: Edition = "", json: Json = False, units: Units = "in3") -> None:
    """Talk boxes through line by line, on standard input and output."""
    from assistant import chat as front

    raise typer.Exit(front.run(sys.stdin, job, edition, json, units))


@app.command()
def hear(
    recordings: Annotated[list[Path], typer.Argument(help="WAV files, heard in this order.")],
    job: Job = "",
    edition: Edition = "",
    json: Json = False,
) -> None:
    """Talk a box through by recordings. Exit status as for check."""
    from assistant import hear as front

    raise typer.Exit(front.run(recordings, job, edition, json))


screen_commands.add_to(app)
job_commands.add_to(app)
sound_commands.add_to(app)


def main() -> None:
    """Run the command; an error is one sentence on standard error, never a traceback."""
    from assistant.problems import guarded

    sys.exit(guarded(lambda: app(standalone_mode=False)))
