"""The socket of a page's microphone: sound comes in, what it is heard as and comes to goes out.

Held by a key, it takes one holding and answers it. Open, for hands-free talk, it parts what is
said at its pauses and answers each statement, until the page says “end”, leaves, or nobody has
spoken for long. One page is listened to at a time.
"""

from __future__ import annotations

import asyncio
import json
from collections.abc import Callable, Sequence
from concurrent.futures import Executor
from typing import TypeVar, TypeVarTuple

from aiohttp import WSMsgType, web
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web import admission, page_json
from boxaloud.assistant.web.open_microphone import Heard, OpenMicrophone, Partial, Unclear
from boxaloud.assistant.web.page_documents import Refused, Told
from boxaloud.assistant.web.page_ear import PageEar
from boxaloud.assistant.web.page_engine import PageEngine
from boxaloud.assistant.web.web_messages import say

T = TypeVar("T")
Ts = TypeVarTuple("Ts")


class MicrophoneSocket:
    """Listens for the engine that `opened` gives, all in the thread of `worker`."""

    def __init__(self, worker: Executor, opened: Callable[[], PageEngine]) -> None:
        self._worker = worker
        self._opened = opened
        self._ear = PageEar()
        self._hearing = False

    async def answer(self, request: web.Request) -> web.StreamResponse:
        """One page's microphone, `?free=yes` where it stays open."""
        if request.headers.get("Origin") is None:
            raise web.HTTPForbidden(text=say("serve.other_site"))
        socket = web.WebSocketResponse(heartbeat=15, max_msg_size=admission.MOST_BYTES)
        await socket.prepare(request)
        if self._hearing:
            await socket.send_str(_told(Refused(say("serve.hears_another"))))
            await socket.close()
            return socket
        self._hearing = True
        try:
            attend = self._open if request.query.get("free") == "yes" else self._held
            told = await attend(socket)
            if told is not None:
                await socket.send_str(_told(told))
        except (ConnectionError, RuntimeError):
            pass  # the page has gone; what it had said and not ended is not entered
        finally:
            self._hearing = False
            await socket.close()
        return socket

    async def _run(self, work: Callable[[*Ts], T], *given: *Ts) -> T:
        return await asyncio.get_running_loop().run_in_executor(self._worker, work, *given)

    async def _held(self, socket: web.WebSocketResponse) -> Told | None:
        """What was heard until the page says that it ends; None where it went before."""
        loop = asyncio.get_running_loop()

        def tell(words: str) -> None:
            said = socket.send_str(json.dumps({"partial": words}))
            asyncio.run_coroutine_threadsafe(said, loop)

        try:
            engine = await self._run(self._opened)
            asks = engine.conversation.asks
            await self._run(self._ear.begin, asks, tell)
        except Problem as problem:
            return Refused(str(problem))
        async for message in socket:
            if message.type is WSMsgType.BINARY:
                if not await self._run(self._ear.feed, message.data):
                    return Refused(say("serve.too_much"))
            elif message.type is WSMsgType.TEXT and message.data == "end":
                words = await self._run(self._ear.end)
                return await self._run(engine.answer_heard, words)
        return None

    async def _open(self, socket: web.WebSocketResponse) -> Told | None:
        """Answer statement by statement. What ends it by itself is told as `over`."""
        try:
            engine = await self._run(self._opened)
            live = await self._run(self._ear.live, lambda: engine.conversation.asks)
        except Problem as problem:
            return Refused(str(problem))
        microphone = OpenMicrophone(live)
        await socket.send_str(json.dumps({"open": True}))
        async for message in socket:
            if message.type is WSMsgType.BINARY:
                heard = await self._run(microphone.feed, message.data)
                await self._bring(socket, engine, heard)
                if microphone.idle:
                    await socket.send_str(json.dumps({"over": say("serve.idle")}))
                    return None
            elif message.type is WSMsgType.TEXT and message.data in ("speaks", "spoke"):
                await self._run(microphone.voice, message.data == "speaks")
            elif message.type is WSMsgType.TEXT and message.data == "end":
                await self._bring(socket, engine, await self._run(microphone.end))
                return None
        return None

    async def _bring(
        self, socket: web.WebSocketResponse, engine: PageEngine, outcomes: Sequence[Heard]
    ) -> None:
        for outcome in outcomes:
            if isinstance(outcome, Partial):
                await socket.send_str(json.dumps({"partial": outcome.words}))
            elif isinstance(outcome, Unclear):
                await socket.send_str(json.dumps({"unclear": say("request.nothing_heard")}))
            else:
                told = await self._run(engine.answer_heard, [outcome.words])
                await socket.send_str(_told(told))


def _told(told: Told) -> str:
    return f'{{"told":{page_json.written(told)}}}'
