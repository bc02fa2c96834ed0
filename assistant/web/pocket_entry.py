"""What the page's worker calls: text in, text out. The worker keeps in the browser what stands
under `unsaved`, and only then shows what was told.
"""

from __future__ import annotations

import json
import os
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.storage import repository
from boxaloud.assistant.storage.data_folders import SUFFIX, data_folder, jobs_folder
from boxaloud.assistant.storage.session import Session
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.journal_rows import Row
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web import page_json, page_requests
from boxaloud.assistant.web.page_documents import Refused, Stored, Told
from boxaloud.assistant.web.page_engine import PageEngine
from boxaloud.assistant.web.page_presenter import page_view
from boxaloud.assistant.web.pocket_shelf import (
    PocketShelf,
    StoredJob,
    about_json,
    about_of,
    rows_json,
)
from boxaloud.assistant.web.web_messages import say

if TYPE_CHECKING:
    from boxaloud.assistant.web.pocket_microphone import PocketMicrophone

DATA = "/boxaloud"
MOST_IMPORTED = 50_000_000
"""Bytes of a job file that is taken in."""


class Pocket:
    """The engine of a page that stands alone, and the shelf of its jobs."""

    def __init__(self, folder: str = DATA) -> None:
        os.environ["BOXALOUD_DATA"] = folder
        self._shelf = PocketShelf()
        self._engine: PageEngine | None = None
        self.microphone: PocketMicrophone | None = None
        """Once the ear is there."""

    def take_in(self, text: str) -> None:
        """Take in jobs as the browser has stored them, the one last written at the end."""
        found = json.loads(text)
        if found.get("words") is not None:
            self._shelf.take_in_words(found["words"])
        for job in found["jobs"]:
            rows = tuple(Row(*values) for values in job["rows"])
            stored = StoredJob(job["file"], about_of(job["about"]), rows, job["written"])
            engine = self._engine
            if engine is None or engine.session.path.name != stored.file:
                self._shelf.take_in(stored)
                continue
            engine.session.close()
            self._shelf.take_in(stored)
            place = next(one for one in repository.places() if one.path.name == stored.file)
            engine.reopen(Session.open_at(place))

    def answer(self, text: str) -> str:
        """What a request comes to, and what the browser is to store before it is shown."""
        try:
            told: Told = self._answered(page_requests.read(text))
        except (page_requests.NoRequest, Problem) as refusal:
            told = Refused(str(refusal))
        return self._handed(told)

    def learn(self, models: bytes) -> None:
        """Get the ear ready with its archive of language models. Raises Problem."""
        from boxaloud.assistant.web.pocket_microphone import PocketMicrophone

        self.microphone = PocketMicrophone(models)

    def hear(self, letters: Sequence[bytes], pause: bool = False) -> str:
        """What the sound that was listened to comes to, by the letters of its stretches; at a
        pause null where the statement goes on."""
        engine, microphone = self._opened(), self.microphone
        expect = engine.conversation.asks
        if microphone is None or (pause and not microphone.stands(letters, expect)):
            return '{"told":null,"unsaved":{"jobs":[],"words":null}}'
        return self._handed(engine.answer_heard(microphone.words(letters, expect)))

    def saved(self) -> None:
        """The browser has stored all that was handed out."""
        self._shelf.saved()

    def export(self) -> str:
        """Write the job at hand as one file; gives its path, whose name it may be given."""
        session = self._opened().session
        path = data_folder() / "exported" / session.path.name
        path.parent.mkdir(exist_ok=True)
        path.unlink(missing_ok=True)
        file = JobFile.open(session.path)
        try:
            file.copy_to(path, {})
        finally:
            file.close()
        return str(path)

    def take_in_file(self, path: str) -> str:
        """A job file that was brought: its job is opened under a name that no job here has."""
        try:
            told = self._brought(Path(path))
        except Problem as refusal:
            told = Refused(str(refusal))
        return self._handed(told)

    def close(self) -> None:
        """Let go of the job."""
        if self._engine is not None:
            self._engine.close()

    def _opened(self) -> PageEngine:
        if self._engine is None:
            self._engine = PageEngine()
        return self._engine

    def _answered(self, request: page_requests.Request) -> Told:
        engine = self._opened()
        if isinstance(request, page_requests.OpenJob | page_requests.StartJob):
            self._shelf.note(engine.session)
        return engine.answer(request)

    def _brought(self, path: Path) -> Told:
        if path.stat().st_size > MOST_IMPORTED:
            raise Problem(say("request.too_large"))
        brought, damage = repository.open_file(repository.Place(path.stem, path, 0.0))
        try:
            name = repository.unused_name(brought.about.name)
            target = jobs_folder() / self._shelf.unused_file(path.name.removesuffix(SUFFIX))
            brought.copy_to(target, {"name": name})
        finally:
            brought.close()
        place = next(one for one in repository.places() if one.path == target)
        engine = self._opened()
        self._shelf.note(engine.session)
        engine.reopen(Session.open_at(place))
        reply = engine.session.resume()
        if damage:
            reply = engine.conversation.talk.standing(damage)
        return page_view(engine.conversation, reply, engine.session.name, Stored(True))

    def _handed(self, told: Told) -> str:
        if self._engine is not None:
            self._shelf.note(self._engine.session)
        jobs: list[dict[str, Any]] = [
            {"file": job.file, "about": about_json(job.about), "rows": rows_json(job.rows)}
            for job in self._shelf.unsaved()
        ]
        words = self._shelf.own_words() if self._shelf.words_changed else None
        unsaved = json.dumps({"jobs": jobs, "words": words}, separators=(",", ":"))
        return f'{{"told":{page_json.written(told)},"unsaved":{unsaved}}}'


WARMING: tuple[dict[str, str | int | bool], ...] = (
    {"kind": "look", "first": True},
    {
        "kind": "hear",
        "words": "two 14-2 cables and one switch in a 10 cubic inch box, clamps inside",
    },
    {"kind": "press", "key": "advice"},
    {"kind": "hear", "words": "no, three 14-2 cables"},
    {"kind": "hear", "words": "what if the clamps were outside"},
    {"kind": "hear", "words": "how do I make it fit"},
    {"kind": "press", "key": "undo"},
    {"kind": "try_out", "words": "no clamps"},
    {"kind": "find_boxes", "query": "square", "gangs": 1},
    {"kind": "list_boxes", "first": 0, "most": 10},
    {"kind": "share"},
)
"""What is asked for once, so that whatever it loads and compiles is there afterwards."""
REHEARSED = (
    "three 14-2 cables and a receptacle in an 18 cubic inch box, clamps inside",
    "no, two receptacles",
)


def warm() -> None:
    """Load and compile what the first turns take, so that it need not be waited for: a job is
    talked through, stored and taken up again in folders that are gone afterwards."""
    told: list[str] = []
    for _ in range(2):
        with tempfile.TemporaryDirectory() as folder:
            pocket = Pocket(folder)
            stored = [json.loads(each)["unsaved"]["jobs"] for each in told]
            pocket.take_in(json.dumps({"jobs": _joined(stored), "words": None}))
            for request in WARMING:
                told.append(pocket.answer(json.dumps(request)))
                pocket.saved()
            pocket.close()


def rehearse() -> None:
    """Take turns that are kept nowhere, so that the browser has its code ready for the next."""
    talk = Conversation()
    for words in REHEARSED:
        page_view(talk, talk.hear(words), "", Stored(True))


def _joined(stored: list[list[dict[str, Any]]]) -> list[dict[str, Any]]:
    """What was stored turn by turn, as the jobs that a browser holds afterwards."""
    jobs: dict[str, dict[str, Any]] = {}
    for job in (one for jobs_ in stored for one in jobs_):
        held = jobs.setdefault(job["file"], {**job, "rows": [], "written": 1.0})
        held["rows"].extend(job["rows"])
    return list(jobs.values())
