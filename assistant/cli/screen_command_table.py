"""`boxaloud` with no subcommand: the app; and `boxaloud serve`, the same in a browser."""

from __future__ import annotations

import sys

from boxaloud.assistant.cli.command_rows import Command, option, switch

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
    from boxaloud.assistant.tui.launch import run

    run(job, colours, still, trial, silent)
    return 0


def _serve(host: str, port: int) -> int:
    from boxaloud.assistant.cli.exit_codes import complain
    from boxaloud.assistant.web.endpoint import serve

    serve(host, port, complain)
    return 0


SERVE = Command(
    "serve",
    "Show the app in a browser on this machine. Whoever has the address it prints can use it.",
    _serve,
    (
        option("host", "Address to listen on; leave it for this machine alone.",
               default="127.0.0.1"),
        option("port", "Port to listen on.", kind="number", default=8000, least=1, most=65535),
    ),
    example="boxaloud serve --port 8080",
)  # fmt: skip
