"""The engine behind the page: requests in, documents out, over a job that is kept.

The same on a laptop, behind its server, and on a phone, in a worker of the page. `stored` says
whether what was said is kept; where the keeper is the page's own storage, it says so afterwards.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from typing import Any, ClassVar

from boxaloud.assistant.dialogue import Conversation, Reply, faults
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.tui.presenters import key_acts
from boxaloud.assistant.web import page_requests as requests
from boxaloud.assistant.web.page_documents import (
    Help,
    HelpTopic,
    JobList,
    JobRow,
    PageView,
    Refused,
    SharedText,
    Stored,
    Told,
)
from boxaloud.assistant.web.page_presenter import answers_of, box_list, page_view, stand
from boxaloud.assistant.web.web_messages import say
from boxaloud.grammar import acts, help_topics
from boxaloud.grammar.lexer.heard_words import Word


class PageEngine:
    """Answers the requests of one page, or of all the pages of one server, one at a time."""

    def __init__(self) -> None:
        """Opens the job last spoken to, or begins the first one. Raises Problem."""
        self.session = Session.open() if repository.places() else Session.start(say("first_job"))
        self._reply: Reply | None = None

    @property
    def conversation(self) -> Conversation:
        """The conversation as it stands."""
        return self.session.conversation

    def answer(self, request: requests.Request) -> Told:
        """What a request comes to. Whatever goes wrong is told in one sentence."""
        return self._guarded(lambda: self._WAYS[type(request)](self, request))

    def answer_heard(self, statements: Sequence[Sequence[Word]]) -> Told:
        """What statements that an ear heard come to, each with its doubts, one after another."""
        return self._guarded(lambda: self._heard(statements))

    def _heard(self, statements: Sequence[Sequence[Word]]) -> Told:
        told: Told = Refused(say("request.nothing_heard"))
        for words in statements:
            told = self._shown(self.session.hear(words))
        return told

    def _guarded(self, answer: Callable[[], Told]) -> Told:
        try:
            self.session.refresh()  # what is tapped is held against how the box stands now
            return answer()
        except Problem as problem:
            return Refused(str(problem))
        except Exception as fault:
            if faults.raised:
                raise
            return Refused(say("request.fault", why=faults.named(fault)))

    def reopen(self, session: Session) -> None:
        """Go on in another session."""
        self.session.close()
        self.session, self._reply = session, None

    def close(self) -> None:
        """Let go of the job."""
        self.session.close()

    def _look(self, request: requests.Look) -> PageView:
        if request.first or self._reply is None:
            return self._shown(self.session.resume())
        return self._shown(self._reply)

    def _hear(self, request: requests.Hear) -> Told:
        if not request.words.strip():
            return Refused(say("request.no_words"))
        return self._shown(self.session.hear(request.words))

    def _choose(self, request: requests.Choose) -> Told:
        answers = answers_of(self.conversation.talk)
        if request.stand != self._stand or not 0 <= request.answer < len(answers):
            return self._moved()
        taken = answers[request.answer]
        if not taken.acts:
            return Refused(say("request.none"))
        return self._enter(taken.acts, taken.label)

    def _press(self, request: requests.Press) -> Told:
        if request.key not in (*key_acts.PLAIN, *key_acts.ASKED):
            return Refused(say("request.unknown"))
        saying = key_acts.plain(request.key)
        return self._enter(saying.acts, saying.heard)

    def _recount(self, request: requests.Recount) -> Told:
        saying = key_acts.recount(self.conversation, request.key, request.count, 0)
        if request.stand != self._stand or saying is None:
            return self._moved()
        return self._enter(saying.acts, saying.heard)

    def _open_box(self, request: requests.OpenBox) -> Told:
        saying = key_acts.opened(request.name)
        return self._enter(saying.acts, saying.heard)

    def _list_boxes(self, request: requests.ListBoxes) -> Told:
        return box_list(self.conversation, request.first, max(0, min(request.most, 200)))

    def _find_boxes(self, request: requests.FindBoxes) -> Told:
        from boxaloud.assistant.web.standard_boxes import found

        return found(self.conversation, request.query, request.gangs)

    def _pick_box(self, request: requests.PickBox) -> Told:
        from boxaloud.assistant.web.standard_boxes import picked

        pick = picked(request.row, request.gangs, request.volume)
        return self._enter((pick.act,), pick.words) if pick else Refused(say("request.no_box"))

    def _try_out(self, request: requests.TryOut) -> Told:
        from boxaloud.assistant.web.trying_out import comparison

        return comparison(self.conversation, request.words)

    def _share(self, request: requests.Share) -> Told:
        from boxaloud.assistant.reports import box_report
        from boxaloud.assistant.reports.text_renderer import plain_text

        talk = self.conversation.talk
        title = say("share.title", job=self.session.name, box=talk.name)
        return SharedText(title, "\n".join([title, *plain_text(box_report(talk))]))

    def _examples(self, request: requests.Examples) -> Told:
        return Help(tuple(HelpTopic(topic, said) for topic, said in help_topics().items()))

    def _list_jobs(self, request: requests.ListJobs) -> Told:
        rows = [
            JobRow(place.name, place.path.name, _day(place.written), place.name == self._name)
            for place in repository.places()
        ]
        return JobList(tuple(rows))

    def _open_job(self, request: requests.OpenJob) -> Told:
        place = next((one for one in repository.places() if one.path.name == request.file), None)
        if place is None:
            return Refused(say("request.no_job"))
        return self._take(Session.open_at(place))

    def _start_job(self, request: requests.StartJob) -> Told:
        return self._take(Session.start(request.name))

    def _take(self, session: Session) -> Told:
        self.reopen(session)
        return self._shown(session.resume())

    def _enter(self, told: Sequence[acts.Act], heard: str) -> PageView:
        return self._shown(self.session.enter(told, heard))

    def _moved(self) -> PageView:
        """What was tapped belongs to an earlier state: nothing is entered, and that is told."""
        return self._shown(self.conversation.talk.standing(say("request.moved")))

    def _shown(self, reply: Reply) -> PageView:
        self._reply = reply
        kept = self.session.kept
        stored = Stored(kept, "" if kept else say("stored.not"))
        return page_view(self.conversation, reply, self._name, stored)

    @property
    def _name(self) -> str:
        return self.session.name

    @property
    def _stand(self) -> str:
        return stand(self.conversation, self._name)

    _WAYS: ClassVar[dict[type, Callable[[PageEngine, Any], Told]]] = {
        requests.Look: _look,
        requests.Hear: _hear,
        requests.Choose: _choose,
        requests.Press: _press,
        requests.Recount: _recount,
        requests.OpenBox: _open_box,
        requests.ListBoxes: _list_boxes,
        requests.FindBoxes: _find_boxes,
        requests.PickBox: _pick_box,
        requests.TryOut: _try_out,
        requests.Share: _share,
        requests.Examples: _examples,
        requests.ListJobs: _list_jobs,
        requests.OpenJob: _open_job,
        requests.StartJob: _start_job,
    }


def _day(written: float) -> str:
    return datetime.fromtimestamp(written, UTC).date().isoformat()
