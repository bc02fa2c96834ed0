"""How well an ear hears voices and noises that nothing here was made or fitted with.

    BOXALOUD_VOICES=FOLDER python tests/asr/bench_ears.py [--ear ctc] [--sample N]
        [--conditions clean,10] [--digits FOLDER] [--log FILE] [--each woman,child]

Every statement is heard in a conversation of its own: entered as said, asked back with the right
words (both are “right”), entered wrongly and not asked back, or not understood. What was measured
is written to FILE as it comes; a run that finds some there goes on behind it, and `--sample 0`
only prints the table. The voices are those of `held_out_voices`. `--digits` names a folder of
human digits (`7_speaker_take.wav`). With `--each` every one of these voices says all statements,
in quiet, a row each, and nothing else is heard.
"""

from __future__ import annotations

import argparse
import json
import statistics
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from synthetic_voices import other_sentences, other_talk  # first: it leads to the electrician

# isort: split
import conditions
import ear_cases
from boxaloud.assistant.asr.asr_types import Recogniser, Sound
from boxaloud.assistant.asr.audio.wav import read_wav
from calibration import calibration_error, diagram
from conditions import Condition
from ear_cases import Found
from held_out_voices import installed, spoken
from which_recogniser import EARS, the_ear

#: A seed that neither the ears' models nor the fitting of thresholds use.
SEED = 7001
STATEMENTS = 71
DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
HEAD = (
    "| condition | right | at once | wrong, not asked | not understood | of | seconds a sound |\n"
    + "| --- " * 7 + "|"
)  # fmt: skip
RIGHT = ("same", "asked, rightly heard")


@dataclass(frozen=True, slots=True)
class Case:
    """One sound to be heard: what kind of row it counts in, who says what, and how it is judged."""

    condition: str
    voice: str
    text: str
    sound: Callable[[], Sound]
    heard: Callable[[Recogniser, Sound], Found]

    @property
    def key(self) -> tuple[str, str, str]:
        return self.condition, self.voice, self.text


def known_conditions(voices: list[str]) -> dict[str, Condition]:
    """The conditions by the names of their rows."""
    others = [spoken(text, voices[at % len(voices)]) for at, text in enumerate(other_talk())]
    levels = {f"noise {level} dB": conditions.noise(level) for level in (20, 15, 10, 5)}
    return {
        "clean": conditions.clean,
        **levels,
        "one talker 10 dB": conditions.talker(10, others),
        "reverberant": conditions.reverberant,
        "far": conditions.far,
        "telephone": conditions.telephone,
        "clipped": conditions.clipped,
        "packet loss": conditions.packet_loss,
    }


def cases(sample: int, chosen: str, digits: Path | None) -> Iterator[Case]:
    """All that is to be heard, a sample of each row."""
    voices = installed()
    known = known_conditions(voices) if sample else {}
    for name, condition in known.items():
        if not chosen or any(part in name for part in chosen.split(",")):
            yield from _statements(name, condition, voices, sample)
    if chosen and "stray" not in chosen:
        return
    if sample:
        yield from _stray(voices, sample)
        yield from _other(voices, sample)
    for path in sorted(digits.glob("[0-9]_*.wav")) if digits and sample else ():
        word, speaker = DIGITS[int(path.name[0])], path.stem
        yield Case("human digits", speaker, word, _read(path), _answered(word))


def _statements(name: str, condition: Condition, voices: list[str], sample: int) -> Iterator[Case]:
    texts = ear_cases.statements(STATEMENTS, SEED)
    every = [
        (text, voices[(at + step) % len(voices)], at * 5 + step)
        for step in range(len(voices))
        for at, text in enumerate(texts)
    ]
    for text, voice, seed in every[:sample]:
        yield Case(name, voice, text, _made(text, voice, condition, seed), _stated(text))


def each_voice(voices: Sequence[str], sample: int) -> Iterator[Case]:
    """The same statements by every voice, in quiet."""
    for voice in voices:
        yield from _statements(f"clean, {voice}", conditions.clean, [voice], sample)


def _stray(voices: list[str], sample: int) -> Iterator[Case]:
    """Single words that are no answers, where something is asked back or a number is due; each by
    another voice where the sample is greater than there are words."""
    for word, voice, at in _in_turn(ear_cases.STRAY, voices)[:sample]:
        for kind, before in (
            ("confirmation", ear_cases.ASKED_BACK),
            ("number", ear_cases.NUMBER_ASKED),
        ):
            sound = _made(word, voice, conditions.clean, at)
            yield Case(f"stray words, {kind}", voice, word, sound, _strayed(before))


def _other(voices: list[str], sample: int) -> Iterator[Case]:
    """Sentences of other talk, where contents or a number are due."""
    texts = (*other_talk(), *other_sentences())
    for text, voice, at in _in_turn(texts, voices)[: min(sample, len(texts))]:
        before = ear_cases.NUMBER_ASKED if at % 2 else ()
        sound = _made(text, voice, conditions.clean, at)
        yield Case("other sentences", voice, text, sound, _strayed(before))


def _in_turn(texts: Sequence[str], voices: list[str]) -> list[tuple[str, str, int]]:
    """All texts by voices in turn, and again until every voice has said each; with the place."""
    return [
        (text, voices[(at + step) % len(voices)], at)
        for step in range(len(voices))
        for at, text in enumerate(texts)
    ]


def _made(text: str, voice: str, condition: Condition, seed: int) -> Callable[[], Sound]:
    return lambda: condition(spoken(text, voice), seed)


def _read(path: Path) -> Callable[[], Sound]:
    return lambda: read_wav(path)


def _stated(text: str) -> Callable[[Recogniser, Sound], Found]:
    return lambda ear, sound: ear_cases.statement(ear, text, sound)


def _strayed(before: tuple[str, ...]) -> Callable[[Recogniser, Sound], Found]:
    return lambda ear, sound: ear_cases.stray(ear, sound, before)


def _answered(word: str) -> Callable[[Recogniser, Sound], Found]:
    return lambda ear, sound: ear_cases.answer(ear, word, sound, ear_cases.NUMBER_ASKED)


def report(rows: list[dict[str, object]]) -> str:
    """The table, and how far the probabilities are what they say."""
    lines = [HEAD]
    for name in dict.fromkeys(str(row["condition"]) for row in rows):
        lines.append(_row(name, [row for row in rows if row["condition"] == name]))
    told = [
        (float(str(row["probability"])), bool(row["right"]))
        for row in rows
        if row["probability"] is not None
    ]
    if told:
        lines += [
            "",
            diagram(told),
            "",
            f"expected calibration error {calibration_error(told):.3f}",
        ]
    return "\n".join(lines)


def _row(name: str, rows: list[dict[str, object]]) -> str:
    seconds = statistics.mean(float(str(row["seconds"])) for row in rows)
    outcomes = [str(row["outcome"]) for row in rows]
    whole = len(outcomes)
    if not any(outcome in (*RIGHT, "wrong", "nothing", "less") for outcome in outcomes):
        entered, asked = outcomes.count("entered"), outcomes.count("asked")
        return f"| {name} | entered {entered} | asked {asked} | | | {whole} | {seconds:.2f} |"
    right = sum(outcome in RIGHT for outcome in outcomes)
    cells = (
        f"{100 * right / whole:.0f} %", f"{100 * outcomes.count('same') / whole:.0f} %",
        str(outcomes.count("wrong")), str(outcomes.count("nothing")), str(whole), f"{seconds:.2f}",
    )  # fmt: skip
    return f"| {name} | {' | '.join(cells)} |"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--ear", choices=EARS, default="ctc")
    parser.add_argument("--sample", type=int, default=71)
    parser.add_argument("--conditions", default="", help="parts of their names; all unless told")
    parser.add_argument("--digits", type=Path)
    parser.add_argument("--each", default="", help="names of voices")
    parser.add_argument("--log", type=Path, default=Path("bench_ears.jsonl"))
    parser.add_argument("--denoiser", action="store_true")
    parser.add_argument("--show", action="store_true", help="every one that was not as said")
    asked = parser.parse_args()
    rows = [json.loads(line) for line in asked.log.open()] if asked.log.exists() else []
    rows = [row for row in rows if row["ear"] == asked.ear]
    done = {(row["condition"], row["voice"], row["text"]) for row in rows}
    ear = the_ear(asked.ear, asked.denoiser) if asked.sample else None
    with asked.log.open("a") as log:
        said = (
            each_voice(asked.each.split(","), asked.sample)
            if asked.each
            else cases(asked.sample, asked.conditions, asked.digits)
        )
        for case in said:
            if case.key in done or ear is None:
                continue
            found = case.heard(ear, case.sound())
            row = {"ear": asked.ear, "condition": case.condition, "voice": case.voice,
                   "text": case.text, **asdict(found)}  # fmt: skip
            rows.append(row)
            log.write(json.dumps(row) + "\n")
            log.flush()
    if asked.show:
        for row in rows:
            if row["outcome"] not in ("same", ""):
                sys.stdout.write(f"{row['condition']}, {row['voice']}: {row['outcome']}: "
                                 f"{row['text']} -> {row['heard']}\n")  # fmt: skip
    sys.stdout.write(report(rows) + "\n")


if __name__ == "__main__":
    main()
