"""Putting a reply together: verdict or answer first, then what was entered, then one question.

A reply is a list of system acts, each with its sentence; faces join, show or speak them.
"""

from __future__ import annotations

from typing import Literal

from boxaloud.assistant.dialogue.assessment import assess, exact
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import (
    Told,
    for_ear,
    joined,
    listed_doubts,
    lowered,
    say,
    sentence,
)
from boxaloud.assistant.dialogue.policy import remedy_questions
from boxaloud.assistant.dialogue.policy.box_status import assumed, eased, status
from boxaloud.assistant.dialogue.policy.code_naming import code_named, names_edition, short_caution
from boxaloud.assistant.dialogue.policy.inches_asked import inches_text
from boxaloud.assistant.dialogue.policy.question_wording import ask
from boxaloud.assistant.dialogue.reply import Reply, SystemAct, said_of
from boxaloud.assistant.dialogue.state import State, all_but
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules.contents import Marked

_TELLING = all_but(
    "pending", "rejected", "unread", "unread_with", "form", "last", "put_off",
    "clamps_mentioned", "proposed", "offered", "recalled", "added", "edition_choices", "edition_of",
    "named_by",
)  # fmt: skip
"""What of a state says something new of the box or of its total."""


class Composer:
    """Composes one reply from a finished turn."""

    def __init__(self, state: State, turn: Turn, entry: Entry) -> None:
        self.state = state
        self.turn = turn
        self.entry = entry
        self.found = assess(state)
        question = self.found.question
        self.asks = question.slot if question else None

    @property
    def changed(self) -> bool:
        """True where the box changed, or a step through its history was asked for."""
        return bool(self.turn.trail or self.turn.stepped)

    @property
    def answered(self) -> bool:
        """True where something that was asked or ordered was answered."""
        return bool(self.turn.answers or self.turn.reports)

    @property
    def nothing(self) -> bool:
        """True where nothing of the utterance was understood."""
        turn = self.turn
        return not (turn.understood or turn.refused or turn.social) and not self.answered

    @property
    def in_vain(self) -> bool:
        """True where the utterance neither changed nor asked anything."""
        turn = self.turn
        return not (self.changed or self.answered or turn.social or turn.refused or turn.replay)

    def compose(self, tries: int, told: str, last: Reply | None, cautioned: bool) -> Reply:
        """The reply. `told` is the verdict last said of this box, `last` the reply before;
        `cautioned`: the caution was said in this session."""
        made = [act for act in self._acts(tries, told, last, cautioned) if act.says]
        if not made:  # what was taken changed nothing that can be told: silence would be no reply
            made = [SystemAct("acknowledge", say("fine"))]
        said = said_of(made)
        sheet, verdict = self.found.sheet, self.found.verdict
        return Reply(
            heard=self.entry.heard,
            confidence=self.entry.confidence,
            understood=tuple(text for text in self.turn.understood if text),
            left_over=tuple(
                dict.fromkeys((*(run.words for run in self.entry.weighty), *self.turn.unplaced))
            ),
            acts=tuple(made),
            said=said,
            asks=self.asks,
            sheet=sheet,
            spaces=self.found.spaces,
            verdict=verdict,
            low=self.found.low,
            high=self.found.high,
            assumed=assumed(self.state),
            described=self.state if self.state.items or self.state.box else None,
            enclosure=self.state if self.state.pulls is not None or self.state.tags else None,
            changed=bool(self.changed or self.answered or self.turn.replay),
            refused=bool(self.turn.refused or self.entry.refusal),
            shows_sheet=self.turn.shows_sheet,
            slow=self.turn.replay == "slower",
        )

    def _acts(self, tries: int, told: str, last: Reply | None, cautioned: bool) -> list[SystemAct]:
        turn = self.turn
        if turn.replay:
            return [SystemAct("repeat", last.said if last else say("nothing_to_repeat"))]
        made = [SystemAct("refuse", text) for text in turn.refused]
        if self.entry.refusal:
            made.append(SystemAct("refuse", self.entry.refusal))
        made += [
            SystemAct("answer", text, figures=turn.figures.get(place, ()))
            for place, text in enumerate(turn.answers)
        ]
        made += [SystemAct("report", text) for text in turn.reports]
        told_it = self.changed or bool(turn.answers)
        caution = not cautioned and self.found.verdict != "incomplete" and told_it
        standing = self._standing(told, caution)
        answers = [act for act in made if act.act == "answer"]
        said = {act.says for act in standing}  # a total that is asked for and moved is said once
        made = [act for act in made if act.act != "answer" or act.figures or act.says not in said]
        made += standing
        if answers and (inches := inches_text(self.state, self.found, self.entry.heard)):
            made.append(SystemAct("answer", inches))
        made += self._code(made)
        made += [SystemAct("echo", text) for text in self._unread()]
        made += [SystemAct("echo", text) for text in self._repairs()]
        made += [SystemAct("echo", text) for text in self._echoed(made, caution)]
        made += self._pull()
        if not made:
            made += [SystemAct("acknowledge", text) for text in turn.social[:1]]
        if not made and self.nothing and self.asks != "unread":
            made.append(SystemAct("nonunderstanding", self._nothing(tries)))
        made += self._advice(told, aloud=not caution)
        if caution:
            made.append(SystemAct("caution", short_caution(self.found)))
        made += self._question(tries, last, bool(made) and made[0].act == "acknowledge")
        return made

    def _code(self, made: list[SystemAct]) -> list[SystemAct]:
        """The code behind an answer about a box of Canada or of an edition that was not read."""
        sheet = self.found.sheet
        named = any(sheet.edition in act.says for act in made)
        if not self.turn.answers or sheet.capacity is None or named:
            return []
        return [SystemAct("answer", code_named(sheet.edition))]

    def _pull(self) -> list[SystemAct]:
        """The pull box as it is now, where something new was said of it."""
        before, now = self.turn.began, self.state
        if now.pulls is None:
            return []
        same = now.pulls == before.pulls and now.assumed == before.assumed and now.box == before.box
        if same and (bool(now.unread) or not before.unread):
            return []
        from boxaloud.assistant.dialogue.enclosures import pull_standing, pull_telling

        text = pull_telling.told(now)
        known = before.pulls is not None and before.pulls.pulls == now.pulls.pulls
        if known and (held := pull_telling.holding(now)):
            text = Told(str(text), for_ear(held))  # the ear was told the rest before
        settled = self.found.pull_alone and self.found.verdict != "incomplete"
        found = [SystemAct("verdict" if settled else "echo", text)]
        if pull_standing.standing(now).compared and self.found.verdict == "incomplete":
            found.append(SystemAct("caution", short_caution(self.found)))
        return found

    def _nothing(self, tries: int) -> str:
        """Nothing understood: said anew each time, with choices, then with a way out."""
        if not self.entry.heard.strip():
            return say("nothing_heard")
        if tries < 2 and self.asks:
            return say("not_got")  # the question behind it, put anew, says how to go on
        keys = ("nothing_understood", "nothing_again", "nothing_way_out")
        return say(keys[min(max(tries - 1, 0), len(keys) - 1)])

    def _unread(self) -> list[str]:
        """What was left unread, unless that is just what is asked about."""
        if self.asks == "unread":
            return []
        left = [run.words for run in self.entry.weighty]
        pieces = [say("left_over", words=listed_doubts(left))] if left else []
        told = " ".join(self.turn.refused)
        for words in self.turn.unplaced:
            text = say("unplaced", words=words)
            # where it was told already why it was left out, the ear need not have it again
            pieces.append(Told(text, "") if f"“{words}”" in told else text)
        return pieces

    def _echoed(self, made: list[SystemAct], caution: bool) -> list[str]:
        """What was entered. What the reply tells the ear anyway is not said a second time."""
        echoes = list(dict.fromkeys(self.turn.echoes))  # "no clamps … none": said once
        edition = self.state.edition
        told = any(isinstance(act, acts.SetEdition) for act in self.entry.acts)
        verdict = told and any(act.act == "verdict" for act in made)
        if verdict and names_edition(edition, caution):
            named = say("echo.edition", year=edition)
            known = (named, joined((named, say("echo.canadian"))))
            echoes = [Told(text, "") if for_ear(text) in known else text for text in echoes]
        return self._but_capacity(made, echoes)

    def _but_capacity(self, made: list[SystemAct], echoes: list[str]) -> list[str]:
        """The echoes; a volume that is said as the capacity is not said a second time."""
        box = self.state.box
        said = self.state.form != "brief" and any(act.act in ("verdict", "total") for act in made)
        if not said or self.found.spaces or self.state.extras or not box:
            return echoes
        if not isinstance(box[0], Marked):
            return echoes
        name = sentence(item_names.part(box[0]))
        return [Told(text, "") if text == name else text for text in echoes]

    def _repairs(self) -> list[str]:
        """Mended spellings are announced: the user sees what a word was taken for."""
        said = []
        for act in self.entry.acts:
            for one in (act, getattr(act, "thing", None)):
                for doubt in one.doubts if isinstance(one, acts.Act) else ():
                    if doubt.reason == "repaired":
                        said.append(say("repaired", words=act.words, what=doubt.instead))
        return list(dict.fromkeys(said))

    def _standing(self, told: str, caution: bool) -> list[SystemAct]:
        """Where the box stands, if there is something new to say of it. Beside the caution the
        ear may have it eased."""
        if not (self.changed and self._moved(told)):
            return []
        text = self._qualified(status(self.state, self.found))
        kind: Literal["verdict", "total"] = (
            "verdict" if self.found.verdict != "incomplete" else "total"
        )
        return [SystemAct(kind, text, eased(self.state, self.found) if caution else "")]

    def _advice(self, told: str, aloud: bool) -> list[SystemAct]:
        """What would help, when a box has just turned out to be over; only to be read where the
        ear has the caution to take in already."""
        counted = self.found.by_volume and not self.found.small_alone
        new = counted and self.found.verdict == "over" and told != "over"
        if self.found.spaces:
            return []
        if not (new and self.changed and exact(self.found)) or self.state.form == "brief":
            return []
        text = remedy_questions.advice_text(self.state, most=1)
        return [SystemAct("advice", text if aloud else Told(text, ""))]

    def _moved(self, told: str) -> bool:
        """True where there is something new to say of the total, or something came in."""
        moved = _TELLING(self.state) != _TELLING(self.turn.began)
        if self.turn.stepped or self.turn.closes or moved:
            return True
        return self.found.verdict not in ("incomplete", told)

    def _qualified(self, text: str) -> str:
        """No total stands plainly over words that are not in it."""
        unread = self.entry.weighty or self.turn.unplaced or self.state.unread
        if not (text and unread):
            return text
        return say("without_that", text=lowered(text))

    def _question(self, tries: int, last: Reply | None, chatted: bool) -> list[SystemAct]:
        question = self.found.question
        if question is None:
            return []
        turn = self.turn
        if self.answered and self.found.verdict != "incomplete":
            return []
        before = last is not None and last.asks == self.asks
        if before and chatted:
            return []
        again = before and not turn.stepped and not self.in_vain
        text = ask(question, self.state, self.found, tries, again)
        if self.found.verdict != "incomplete" and not again:
            short = for_ear(ask(question, self.state, self.found, tries, True))
            text = sentence(say("for_margin", question=lowered(Told(text, short))))
        return [SystemAct("question", text)]
