"""Fit the weights of `assistant/dialogue/belief/relevance.py` on how people talk of boxes.

Run from the top of the project, with numpy: `python tests/understanding/fit_relevance.py`. A turn
of a conversation after which its author gives another total, volume or verdict, and every
description of a box, changes the box; other talk and a turn after which all is as before does
not: of the kept blind rounds and single turns, and of the whereabouts. The rows of the matrix are
taken by what each turn does, with these weights switched off. It says first what weights fitted
on four fifths of the rounds and all else make of the last fifth, in turn, and then writes weights
fitted on all. Seed 1.
"""

from __future__ import annotations

import json
import re
import sys
import tomllib
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple
from unittest import mock

import numpy as np
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.belief import belief_table
from boxaloud.assistant.dialogue.belief.relevance import SCALE, features
from matrix_rows import rows

HERE = Path(__file__).parent
ROUNDS = HERE / "rounds"
CHANGING = {"recount", "resize", "remove", "swap", "add", "clamps", "volume", "undo"}
"""Classes of single turns that change the box."""
TOP = Path(__file__).parents[2]
WEIGHTS = TOP / "assistant" / "dialogue" / "belief" / "data" / "relevance.txt"
HEAD = """; How much each run of words speaks for a change of the box, in twentieths of log odds.
; Fitted by tests/understanding/fit_relevance.py on the kept blind rounds: not to be edited by hand.
; @ is the size of a cable, $ a device, # a number, ^ the beginning or the end.
"""
FEWEST_ROUNDS, MOST, PASSES, FOLDS, SEED = 4, 6000, 6, 5, 1
#: Turns that leave the total as it is and are no other talk: they are left out.
ABOUT_BOXES = re.compile(r"(?i)clamp|connector|next box|back to|undo|edition|code")


class Said(NamedTuple):
    """An utterance: the round it is of, or none, whether it changes the box, its runs of words."""

    round: int | None
    changes: bool
    runs: tuple[str, ...]


def told(folder: Path) -> Iterator[tuple[bool, str]]:
    for line in (folder / "other.txt").read_text(encoding="utf-8").splitlines():
        if line.strip():
            yield False, line.strip()
    for line in (folder / "dialogues.jsonl").read_text(encoding="utf-8").splitlines():
        before = None
        for turn in json.loads(line)["turns"]:
            now = turn.get("total"), turn.get("capacity"), turn.get("verdict")
            if before is not None:
                if now != before:
                    yield True, turn["say"]
                elif now[0] is not None and not ABOUT_BOXES.search(turn["say"]):
                    yield False, turn["say"]
            before = now
    for line in (folder / "boxes.jsonl").read_text(encoding="utf-8").splitlines():
        said = json.loads(line)["say"]
        for one in [said] if isinstance(said, str) else said:
            yield True, one


def of_turns() -> Iterator[tuple[bool, str]]:
    for file in sorted((HERE / "turns").glob("*.jsonl")):
        for line in file.read_text(encoding="utf-8").splitlines():
            turn = json.loads(line)
            yield turn["class"] in CHANGING, turn["turn"]


def of_whereabouts() -> Iterator[tuple[bool, str]]:
    for name, table, changes in (("elsewhere", "kind", False), ("here", "here", True)):
        data = tomllib.loads((HERE / "whereabouts" / f"{name}.toml").read_text(encoding="utf-8"))
        for group in data[table]:
            for words in group["say"]:
                yield changes, words


def of_rows() -> Iterator[tuple[bool, str]]:
    """What each turn of a row of the matrix does to the box at hand."""
    net = belief_table.table()
    switched_off = replace(net, off_topic=-100_000, inert=-100_000, on_topic=100_000)
    for row in rows():
        with mock.patch.object(belief_table, "table", return_value=switched_off):
            talk = Conversation()
            for words in row.say:
                state, box = talk.talk.state, talk.talk.name
                talk.hear(words)
                if talk.talk.name == box:
                    now = talk.talk.state
                    held = now.unread == state.unread and now.pending == state.pending
                    changes = (now.items, now.box) != (state.items, state.box)
                    if changes or held:
                        yield changes, words


def utterances() -> list[Said]:
    seen: dict[tuple[bool, str], int | None] = {}
    for folder in sorted(ROUNDS.glob("r*")):
        for said in told(folder):
            seen.setdefault(said, int(folder.name[1:]))
    for said in (*of_turns(), *of_whereabouts(), *of_rows()):
        seen.setdefault(said, None)
    return [Said(at, changes, tuple(features(words))) for (changes, words), at in seen.items()]


def known_runs(said: Sequence[Said]) -> list[str]:
    """Runs of words that several authors used."""
    rounds: dict[str, set[int | None]] = defaultdict(set)
    for one in said:
        for run in one.runs:
            rounds[run].add(one.round)
    return sorted(run for run, of in rounds.items() if len(of) >= FEWEST_ROUNDS)


def fitted(said: Sequence[Said], runs: Sequence[str]) -> tuple[np.ndarray, float]:
    """Weights and bias, by stochastic gradients with a step for each weight (AdaGrad)."""
    place = {run: at for at, run in enumerate(runs)}
    data = [
        (np.array([place[r] for r in one.runs if r in place], int), one.changes) for one in said
    ]
    weights, bias, squares = np.zeros(len(runs)), 0.0, np.full(len(runs), 1e-3)
    dice = np.random.default_rng(SEED)
    for _ in range(PASSES):
        for at in dice.permutation(len(data)):
            found, changes = data[at]
            if not len(found):
                continue
            share = 1 / np.sqrt(len(found))
            likely = 1 / (1 + np.exp(-(bias + weights[found].sum() * share)))
            step = (likely - changes) * share + 2e-5 * weights[found]
            squares[found] += step * step
            weights[found] -= 0.5 * step / np.sqrt(squares[found])
            bias -= 0.01 * (likely - changes)
    return weights, bias


def pruned(said: Sequence[Said]) -> tuple[list[str], np.ndarray, float]:
    """The runs that weigh most, fitted anew, in whole twentieths."""
    runs = known_runs(said)
    weights, _ = fitted(said, runs)
    often = Counter(run for one in said for run in one.runs)
    by_weight = sorted(
        zip(runs, weights, strict=True), key=lambda r: -abs(r[1]) * often[r[0]] ** 0.5
    )
    kept = sorted(run for run, _ in by_weight[:MOST])
    weights, bias = fitted(said, kept)
    return kept, np.round(weights * SCALE) / SCALE, round(bias * SCALE) / SCALE


def scores(
    said: Sequence[Said], kept: Sequence[str], weights: np.ndarray, bias: float
) -> np.ndarray:
    of = dict(zip(kept, weights, strict=True))
    found = ([of[run] for run in one.runs if run in of] for one in said)
    return np.array([bias + (sum(f) / len(f) ** 0.5 if f else 0) for f in found])


def show(held: np.ndarray, changes: np.ndarray) -> None:
    right = ((held > 0) == changes).mean()
    sys.stdout.write(f"{len(held)} utterances of rounds held out, right {right:.2%}\n")
    for low in (-1, -2, -3, -4):
        below = held < low
        wrong, share = (below & changes).sum(), below[~changes].mean()
        sys.stdout.write(f"below {low}: {share:.1%} of what changes nothing, {wrong} that change\n")
    for high in (1, 2, 3, 4):
        above = held > high
        wrong, share = (above & ~changes).sum(), above[changes].mean()
        sys.stdout.write(f"above {high}: {share:.1%} of what changes, {wrong} that do not\n")


def main() -> None:
    said = utterances()
    held, changes = [], []
    for fold in range(FOLDS):
        of_fold = [one for one in said if one.round is not None and one.round % FOLDS == fold]
        kept = pruned([one for one in said if one.round is None or one.round % FOLDS != fold])
        held.append(scores(of_fold, *kept))
        changes += [one.changes for one in of_fold]
    show(np.concatenate(held), np.array(changes))
    runs, weights, bias = pruned(said)
    rows = [f"{round(bias * SCALE)}\t"]
    rows += [f"{round(w * SCALE)}\t{run}" for run, w in zip(runs, weights, strict=True) if w]
    WEIGHTS.write_text(HEAD + "\n".join(rows) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
