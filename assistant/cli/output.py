"""What the line front ends share: starting a conversation, printing a reply, the exit status."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import cast, get_args

from boxaloud.assistant.cli.exit_codes import faulted
from boxaloud.assistant.dialogue import Reply, faults
from boxaloud.assistant.storage.memory_session import DialogueSession
from boxaloud.assistant.text import printing
from boxaloud.assistant.text.problem import Problem
from boxaloud.grammar.acts import SendReport
from boxaloud.rules.units import VolumeUnit

if os.environ.get("BOXALOUD_TRACEBACK"):
    faults.raised = True


@contextmanager
def one_utterance() -> Iterator[None]:
    """A fault of ours over one utterance is told in a sentence, and the talk goes on.

    The conversation guards its own part; this is for what is around it: choosing what was
    heard, keeping it, showing the reply. What the user or the system did is handed through.
    """
    try:
        yield
    except (Problem, OSError, printing.Unprintable):
        raise
    except Exception as fault:
        faulted(fault)


def report_to_write(
    reply: Reply, session: DialogueSession
) -> tuple[int, Callable[[Callable[[], None]], Reply]] | None:
    """How many steps the reports take that a reply asks for, and what writes them, which a
    thread may do; None where it asks for none."""
    if not _asks_for_report(reply):
        return None
    from boxaloud.assistant.reports.report_delivery import ordered, written_out
    from boxaloud.assistant.storage.session import Session

    if not isinstance(session, Session):
        return None
    orders = ordered(reply, session)
    steps = sum(len(order.report.boxes) for order in orders if order.report is not None)
    return steps, partial(written_out, reply, orders)


def with_report(reply: Reply, session: DialogueSession) -> Reply:
    """The reply with each report that it asks for written, where the session keeps a job."""
    if not _asks_for_report(reply):
        return reply
    from boxaloud.assistant.reports.report_delivery import delivered  # a talk seldom needs it
    from boxaloud.assistant.storage.session import Session

    return delivered(reply, session) if isinstance(session, Session) else reply


def _asks_for_report(reply: Reply) -> bool:
    return any(isinstance(act, SendReport) for act in reply.outside)


def shown_in(units: str) -> VolumeUnit:
    """The units to show volumes in: `in3`, or `cm3` for cubic centimetres beside them."""
    for known in get_args(VolumeUnit):
        if units == known:
            return cast("VolumeUnit", known)
    raise Problem(f"I show volumes in in3 or cm3, not in “{units}”: say one of the two.")


def put(text: str) -> None:
    """One line on standard output, at once."""
    printing.put(text)


def put_json(reply: Reply) -> None:
    """A reply as one JSON object on a line."""
    import json

    from boxaloud.assistant.contract.reply_document import ReplyDocument

    as_ascii = not printing.takes_all_letters()
    told = json.dumps(ReplyDocument.of(reply).to_json(), ensure_ascii=as_ascii)
    printing.put(printing.clean_json(told))
