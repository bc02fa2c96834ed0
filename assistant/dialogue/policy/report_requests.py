"""A report that is asked for, and what it is to say of the project."""

from __future__ import annotations

from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts


def send_report(turn: Turn, act: acts.SendReport) -> None:
    """ "Send the worksheet": a talk by itself keeps no job and writes no file, and says what to
    do; whoever keeps the job puts what it did in place of that."""
    turn.reports.append(say("report.no_job"))
    turn.understood.append(act.words)


def tell_project(turn: Turn, act: acts.TellProject) -> None:
    """ "Permit number E-2041": echoed, for whoever keeps the job to keep it."""
    label = say(f"project.field.{act.field}")
    turn.reports.append(say("project.no_job", label=label, words=act.text))
    turn.understood.append(act.words)
