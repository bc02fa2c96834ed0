"""What a talk tells of the project, kept in the job."""

from __future__ import annotations

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.dialogue.reply import SystemAct
from boxaloud.assistant.storage.job_names import tidy
from boxaloud.assistant.storage.journal_writer import Keeper
from boxaloud.assistant.storage.project_details import is_date, kept_one
from boxaloud.assistant.storage.sqlite.storage_errors import NotKept
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.grammar.acts import TellProject


def described(keeper: Keeper, act: TellProject, reply: Reply) -> Reply:
    """The reply once it is kept, or why it is not, in place of the conversation's own word."""
    text = tidy(act.text)
    if act.field == "date" and not is_date(text):
        told = say("job.date", date=text)
    else:
        told = say("project.kept", words=act.words.rstrip(" ."))
        try:
            keeper.describe(kept_one(act.field, text))
        except NotKept as trouble:
            told = str(trouble)
    acts = (SystemAct("report", told) if one.act == "report" else one for one in reply.acts)
    return reply.saying(tuple(acts))
