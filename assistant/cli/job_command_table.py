"""The commands about jobs, reports and many boxes."""

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

NAME = argument("name", "The job, or a part of its name.", names="job")
BOX = option("box", "One box of the job.", names="box")


def _start(name: str, edition: str, units: str) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.start(name, edition, units)


def _listed() -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.listed()


def _show(name: str) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.show(name)


def _about(
    name: str,
    site: str | None,
    address: str | None,
    permit: str | None,
    contractor: str | None,
    prepared_by: str | None,
    licence: str | None,
    date: str | None,
) -> int:
    from boxaloud.assistant.cli.commands import project_command

    return project_command.about(
        name, site, address, permit, contractor, prepared_by, licence, date
    )


def _picture(name: str, files: list[Path], box: str, says: str, drop: int) -> int:
    from boxaloud.assistant.cli.commands import picture_command

    return picture_command.picture(name, files, box, says, drop)


def _rename(name: str, new: str) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.rename(name, new)


def _copy(name: str, new: str) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.copy(name, new)


def _remove(name: str, box: str) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.remove(name, box)


def _restore(name: str, box: str) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.restore(name, box)


def _check(name: str) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.check(name)


def _back_up(archive: Path) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.back_up(archive)


def _demo(name: str) -> int:
    from boxaloud.assistant.cli.commands import job_command

    return job_command.build_demo(name)


def _report(name: str, out: Path) -> int:
    from boxaloud.assistant.cli.commands import report_command

    return report_command.report(name, out)


def _share(box: str, name: str, markdown: bool) -> int:
    from boxaloud.assistant.cli.commands import report_command

    return report_command.share(name, box, markdown)


def _batch(rows: Path, out: Path | None) -> int:
    from boxaloud.assistant.cli.commands import batch_command

    return batch_command.run(rows, out)


def _schema(of: str) -> int:
    from boxaloud.assistant.cli.commands import schema_command

    return schema_command.run(of)


_JOB = (
    Command("start", "Start a job.", _start, (
        argument("name", "What the job is called."),
        option("edition", "Code edition that its boxes begin under.", choices=EDITIONS,
               default_shown=DEFAULT_EDITION),
        option("units", "cm3 shows cubic centimetres beside cubic inches.", default="in3",
               choices=("in3", "cm3")),
    ), example='boxaloud job start "Heron Street" --edition 2020'),
    Command("list", "List all jobs, the one last spoken to first.", _listed,
            example="boxaloud job list"),
    Command("show", "Show a job box by box.", _show, (
        argument("name", "The job; else the one last spoken to.", required=False, names="job"),
    ), example='boxaloud job show "Quillback House"'),
    Command("about", "Tell or show what the reports of a job say of its project. An option given "
            "as '' is dropped.", _about, (
        argument("name", "The job; else the one last spoken to.", required=False, names="job"),
        option("site", "What the site is called.", default=None),
        option("address", "Where it is.", default=None),
        option("permit", "The number of the permit.", default=None),
        option("contractor", "Who does the work.", default=None),
        option("prepared_by", "Who prepares the report.", default=None),
        option("licence", "The number of their licence.", "--licence", "--license", default=None),
        option("date", "The day the work was seen, YYYY-MM-DD.", default=None),
    ), example='boxaloud job about "Quillback House" --permit B-12'),
    Command("picture", "Attach photographs or sketches to a box, for the report; without a file, "
            "list them.", _picture, (
        NAME,
        argument("files", "JPEG, PNG or another picture; what the camera wrote into it, such as "
                 "the place, is left out.", kind="path", many=True, required=False),
        option("box", "The box; else the one at hand.", names="box"),
        option("says", "What it shows, in a few words."),
        option("drop", "Take out the picture of this number.", kind="number", default=0,
               least=1, most=1_000_000),
    ), example='boxaloud job picture "Quillback House" photo.jpg --box pantry --says "before"'),
    Command("rename", "Give a job another name.", _rename, (
        NAME,
        argument("new", "The new name."),
    ), example='boxaloud job rename heron "Heron Street 12"'),
    Command("copy", "Copy a job with all its boxes.", _copy, (
        NAME,
        argument("new", "The copy's name.", required=False),
    ), example='boxaloud job copy "Heron Street" "Heron Street as built"'),
    Command("remove", "Remove a job, or one of its boxes; `restore` brings it back.", _remove,
            (NAME, BOX), example='boxaloud job remove "Heron Street" --box pantry'),
    Command("restore", "Bring back a removed job, or a removed box of a job.", _restore,
            (NAME._replace(names=""), BOX._replace(names="")),
            example='boxaloud job restore "Heron Street" --box pantry'),
    Command("check", "Look whether every job is sound. Exit status: 0 all are, 3 something is "
            "lost or cannot be read.", _check, (
        argument("name", "One job; else all.", required=False, names="job"),
    ), example="boxaloud job check"),
    Command("backup", "Put all jobs, and those removed, into one archive.", _back_up, (
        argument("archive", "FILE.zip; unpacked in the data folder it brings all back.",
                 kind="path"),
    ), example="boxaloud job backup jobs.zip"),
)  # fmt: skip

COMMANDS = (
    Command("demo", "Build a demonstration job: a made-up house of over a dozen boxes.", _demo, (
        option("name", "Its name.", "--job"),
    ), example="boxaloud demo"),
    Command("report", "Write the worksheets of a job, for an inspector who was not there.",
            _report, (
        NAME,
        option("out", "FILE.html, .pdf, .csv or .json.", "-o", "--out", kind="path",
               required=True),
    ), example='boxaloud report "Quillback House" -o report.html'),
    Command("share", "Print the worksheet of one box, to be sent from the ladder.", _share, (
        argument("box", "The box; else the one at hand.", required=False, names="box"),
        option("name", "The job; else the one last spoken to.", "--job", names="job"),
        switch("markdown", "With a table."),
    ), example='boxaloud share "kitchen island" --job "Quillback House" --markdown'),
    Command("batch", "Work out many boxes. Exit status: 1 some over, 3 some incomplete or bad, "
            "0 none.", _batch, (
        argument("rows", "FILE.csv, .yaml or .jsonl, a box a row; - for input.", kind="path"),
        option("out", "Where the results go; else standard output.", "-o", "--out", kind="path",
               default=None),
    ), example="boxaloud batch boxes.csv -o results.csv"),
    Command("schema", "Print the JSON Schema of what is read and written.", _schema, (
        argument("of", "What is to be described; else all of them.", required=False,
                 choices=("reply", "worksheet", "box", "row", "result", "report")),
    ), example="boxaloud schema worksheet"),
    group("job", "Start, list, show, describe, rename, copy, remove, restore, check and back up "
          "jobs.", _JOB, example='boxaloud job start "Heron Street"'),
)  # fmt: skip
