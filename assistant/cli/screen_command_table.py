"""`boxaloud` with no subcommand: the app; and the page: `boxaloud serve`, `boxaloud web`."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from boxaloud.assistant.cli.command_rows import Command, group, option, switch

SCREEN = (
    option("job", "The job to open, begun where there is none.", names="job",
           default_shown="the one last spoken to"),
    option("colours", "The colours of the screen.", choices=("dark", "light", "contrast"),
           default_shown="dark"),
    switch("still", "Nothing on the screen moves by itself."),
    switch("trial", "Try it out: nothing said is kept."),
    switch("silent", "Speak no reply."),
)  # fmt: skip


def screen(job: str, colours: str, still: bool, trial: bool, silent: bool) -> int:
    """Run the app; where there is no terminal, say what to run instead."""
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        from boxaloud.assistant.cli.cli_messages import say
        from boxaloud.assistant.cli.output import put

        put(say("screen.pointer"))
        return 0
    from boxaloud.assistant.cli.output import report_to_write
    from boxaloud.assistant.tui.launch import run

    run(job, colours, still, trial, silent, report_to_write)
    return 0


def _serve(lan: bool, host: str, port: int) -> int:
    from boxaloud.assistant.cli.exit_codes import complain
    from boxaloud.assistant.web.endpoint import serve

    serve(host, port, lan, complain, _draw_code)
    return 0


def _draw_code(rows: Sequence[str]) -> None:
    """Light blocks on a dark ground, whatever the terminal's own colours are."""
    from boxaloud.assistant.text import printing

    light_on_dark, as_before = ("\x1b[97;40m", "\x1b[0m") if sys.stdout.isatty() else ("", "")
    for row in rows:
        printing.draw(light_on_dark, row)
        printing.draw(as_before, "\n")


SERVE = Command(
    "serve",
    "Open your jobs in a browser: on this machine, or on a phone in the same network.",
    _serve,
    (
        switch("lan", "For a phone in the same network: encrypted, with a code to scan."),
        option("host", "Address to listen on; leave it for this machine alone.",
               default="127.0.0.1"),
        option("port", "Port to listen on.", kind="number", default=8000, least=1, most=65535),
    ),
    example="boxaloud serve --lan",
)  # fmt: skip


def _build(out: Path) -> int:
    from boxaloud.assistant.cli.commands.web_command import build_folder

    return build_folder(out)


WEB = group("web", "The page for a phone that works alone, without a laptop or a network.", (
    Command("build", "Write the page as a folder for any web host; npm brings its runtime.",
            _build, (
        option("out", "The folder; an empty one, or one that was built before.", "-o", "--out",
               kind="path", required=True),
    ), example="boxaloud web build -o boxaloud-page"),
), example="boxaloud web build -o boxaloud-page")  # fmt: skip
