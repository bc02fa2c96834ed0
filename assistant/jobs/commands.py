"""The commands about jobs, reports and many boxes, added to `boxaloud` by `add_to`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Name = Annotated[str, typer.Argument(help="The job, or a part of its name.")]
MaybeName = Annotated[str, typer.Option("--job", help="The job; else the one last spoken to.")]
New = Annotated[str, typer.Argument(help="The new name.")]
Edition = Annotated[str, typer.Option(help="Code edition that its boxes begin under.")]
Units = Annotated[str, typer.Option(help="in3, or cm3 to show cubic centimetres too.")]
Box = Annotated[str, typer.Option("--box", help="One box of the job.")]
Out = Annotated[Path, typer.Option("-o", "--out", help="FILE.html, .pdf, .csv or .json.")]
Rows = Annotated[Path, typer.Argument(help="FILE.csv, .yaml or .jsonl, a box a row; - for input.")]
RowsOut = Annotated[
    Path | None, typer.Option("-o", "--out", help="Where the results go; else standard output.")
]

job = typer.Typer(help="Start, list, show, rename, copy, remove and restore jobs.",
                  no_args_is_help=True, rich_markup_mode=None)  # fmt: skip


@job.command()
def start(name: Name, edition: Edition = "", units: Units = "in3") -> None:
    """Start a job."""
    from assistant.jobs import front

    raise typer.Exit(front.start(name, edition, units))


@job.command("list")
def list_jobs() -> None:
    """List all jobs, the one last spoken to first."""
    from assistant.jobs import front

    raise typer.Exit(front.listed())


@job.command()
def show(name: Annotated[str, typer.Argument(help="The job; else the one last spoken to.")] = "",
         ) -> None:  # fmt: skip
    """Show a job box by box."""
    from assistant.jobs import front

    raise typer.Exit(front.show(name))


@job.command()
def rename(name: Name, new: New) -> None:
    """Give a job another name."""
    from assistant.jobs import front

    raise typer.Exit(front.rename(name, new))


@job.command()
def copy(name: Name, new: Annotated[str, typer.Argument(help="The copy's name.")] = "") -> None:
    """Copy a job with all its boxes."""
    from assistant.jobs import front

    raise typer.Exit(front.copy(name, new))


@job.command()
def remove(name: Name, box: Box = "") -> None:
    """Remove a job, or one of its boxes; `restore` brings it back."""
    from assistant.jobs import front

    raise typer.Exit(front.remove(name, box))


@job.command()
def restore(name: Name, box: Box = "") -> None:
    """Bring back a removed job, or a removed box of a job."""
    from assistant.jobs import front

    raise typer.Exit(front.restore(name, box))


def add_to(app: typer.Typer) -> None:
    """Add `job`, `demo`, `report`, `share`, `batch` and `schema` to the command."""
    app.add_typer(job, name="job")

    @app.command()
    def demo(name: Annotated[str, typer.Option("--job", help="Its name.")] = "") -> None:
        """Build a demonstration job: a made-up house of over a dozen boxes."""
        from assistant.jobs import front

        raise typer.Exit(front.build_demo(name))

    @app.command()
    def report(name: Name, out: Out) -> None:
        """Write the worksheets of a job, for an inspector who was not there."""
        from assistant.report import front

        raise typer.Exit(front.report(name, out))

    @app.command()
    def share(
        box: Annotated[str, typer.Argument(help="The box; else the one at hand.")] = "",
        name: MaybeName = "",
        markdown: Annotated[bool, typer.Option("--markdown", help="With a table.")] = False,
    ) -> None:
        """Print the worksheet of one box, to be sent from the ladder."""
        from assistant.report import front

        raise typer.Exit(front.share(name, box, markdown))

    @app.command()
    def batch(rows: Rows, out: RowsOut = None) -> None:
        """Work out many boxes. Exit status: 1 some over, 3 some incomplete or bad, 0 none."""
        from assistant.batch import front

        raise typer.Exit(front.run(rows, out))

    @app.command()
    def schema(
        of: Annotated[str, typer.Argument(help="box, worksheet, row, result or report.")] = "",
    ) -> None:
        """Print the JSON Schema of what is read and written."""
        from assistant import schema as front

        raise typer.Exit(front.run(of))
