"""`boxaloud` with no subcommand: the app; and `boxaloud serve`, the same in a browser."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from assistant.screen.wording import text

Job = Annotated[str, typer.Option(help="The job to open, begun where there is none.")]
Colours = Annotated[str, typer.Option(help="dark, light or contrast.")]
Still = Annotated[bool, typer.Option("--still", help="Nothing on the screen moves by itself.")]
Trial = Annotated[bool, typer.Option("--trial", help="Try it out: nothing said is kept.")]
Silent = Annotated[bool, typer.Option("--silent", help="Speak no reply.")]
Host = Annotated[str, typer.Option(help="Address to listen on; leave it for this machine alone.")]
Port = Annotated[int, typer.Option(min=1, max=65535, help="Port to listen on.")]


def add_to(app: typer.Typer) -> None:
    """Add the app and its server to the command."""

    @app.callback(invoke_without_command=True)
    def screen(
        context: typer.Context,
        job: Job = "",
        colours: Colours = "",
        still: Still = False,
        trial: Trial = False,
        silent: Silent = False,
    ) -> None:
        """Say what is in an electrical box and hear whether it fits, section by section."""
        if context.invoked_subcommand is not None:
            return
        if not (sys.stdin.isatty() and sys.stderr.isatty()):
            typer.echo(text("start.pointer"))
            return
        from assistant.screen.running import run

        run(job, colours, still, trial, silent)

    @app.command()
    def serve(host: Host = "127.0.0.1", port: Port = 8000) -> None:
        """Show the app in a browser on this machine. Anyone who can reach it can use it."""
        from assistant.screen.serving import serve as start

        start(host, port)
