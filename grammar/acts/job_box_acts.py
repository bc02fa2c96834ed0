"""Acts about the boxes of a job, and a person's own words."""

from __future__ import annotations

from typing import Literal

from boxaloud.grammar.acts.act_base import Act
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class NextBox(Act):
    """A new box begins."""

    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenBox(Act):
    """Back to a box by name or number, or to the `previous` or `first` one."""

    name: str = ""
    which: Literal["", "previous", "first", "last"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CopyBox(Act):
    """A new box, the same as this one or as the one named."""

    name: str = ""
    like: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NameBox(Act):
    """This box's name, or that of another: "call the first box pantry"."""

    name: str = ""
    of: str = ""
    """The box that is named, in the words that were said; empty for the one at hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeleteBox(Act):
    """A box is taken out of the job; undo brings it back."""

    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListBoxes(Act):
    """The boxes of the job; `only` the ones over, or those not finished."""

    only: Literal["", "over", "incomplete", "fits"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SendReport(Act):
    """ "Send the worksheet", "print it out": a file of the job, or of the box at hand, is to be
    written. It changes no box, and takes whoever keeps the jobs."""

    of: Literal["job", "box"] = "job"
    form: Literal["", "pdf", "html", "csv", "json"] = ""
    """The form that was asked for; empty where none was."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TellProject(Act):
    """ "Permit number E-2041": what the job's report is to say of the project. It changes no box,
    and takes whoever keeps the jobs."""

    field: str = ""
    """`site`, `address`, `permit`, `contractor`, `prepared_by`, `licence` or `date`."""
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewJob(Act):
    """A new job: outside this talk."""

    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alias(Act):
    """A person's own words, and what they mean."""

    say: str = ""
    mean: str = ""
