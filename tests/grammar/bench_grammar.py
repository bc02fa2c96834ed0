"""How long understanding takes, and beside a public sentence-template recogniser.

Run by hand: python tests/grammar/bench_grammar.py     (the comparison needs `pip install hassil`)
"""

from __future__ import annotations

import itertools
import os
import random
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from time import perf_counter_ns

sys.path.insert(0, str(Path(__file__).parents[2] / ".package"))
sys.path.insert(0, str(Path(__file__).parent))

from boxaloud.grammar import sample, understand
from spoken_cases import cases

NUMBERS = ["one", "two", "three", "four", "five", "six", "eight"]
SIZES = ("fourteen", "twelve", "ten")
#: The same sentences as templates of the public recogniser.
TEMPLATES = """
language: en
intents:
  Cable:
    data:
      - sentences: ["{count} {awg} {wires} (cable|cables) [with ground]"]
  Device:
    data:
      - sentences: ["{count} (switch|switches|receptacle|receptacles|dimmer|dimmers)"]
  Clamps:
    data:
      - sentences:
          - "no clamps [inside]"
          - "the clamps are (inside|outside)"
          - "two cable clamps inside"
  Box:
    data:
      - sentences: ["[the box is] {volume} cubic inches", "[a] {volume} cubic inch box"]
  Control:
    data:
      - sentences: ["undo", "scratch that", "read it back", "what's the margin", "start over"]
lists:
  count: {values: [one, two, three, four, five, six, eight]}
  awg: {values: [fourteen, twelve, ten]}
  wires: {values: [two, three]}
  volume: {range: {from: 3, to: 60}}
"""
#: Said as the first words of a new process.
FIRST = (
    "two 14-2 cables, one switch, no clamps inside, 18 cubic inch box",
    "change the first cable to 12 2 and add a dimmer",
    "what if I swap the 14-2 for a 12-2",
    "two swiches in the bedroom",
)
#: Imports, then one utterance; prints the milliseconds of both.
NEW_PROCESS = """
import sys
from time import perf_counter
began = perf_counter()
from boxaloud.grammar.recognition import recognise
from boxaloud.grammar import understand
imported = perf_counter()
(understand if sys.argv[1] == "understand" else recognise)(sys.argv[2])
print(1000 * (imported - began), 1000 * (perf_counter() - imported))
"""


def shared_sentences() -> list[str]:
    """Sentences that both recognisers accept."""
    cables = [
        f"{count} {size} {wires} cables{ground}"
        for count, size, wires, ground in itertools.product(
            NUMBERS[1:], SIZES, ("two", "three"), ("", " with ground")
        )
    ]
    devices = [
        f"{count} {device}"
        for count in NUMBERS[1:]
        for device in ("switches", "receptacles", "dimmers")
    ]
    boxes = [f"a {volume} cubic inch box" for volume in range(6, 50)]
    return [
        *cables, *devices, *boxes, "no clamps inside", "the clamps are outside",
        "two cable clamps inside", "undo", "scratch that", "read it back", "what's the margin",
    ]  # fmt: skip


def spread(times: Sequence[int]) -> str:
    """Median and tails of nanoseconds, in microseconds."""
    ordered = sorted(times)
    p50, p95, p99 = (ordered[int(len(ordered) * share)] / 1000 for share in (0.5, 0.95, 0.99))
    return f"median {p50:6.1f} us   95 % {p95:6.1f}   99 % {p99:6.1f}"


def timed(act: Callable[[str], object], said: Iterable[str], rounds: int = 1) -> list[int]:
    """Nanoseconds of every call."""
    found = []
    for _ in range(rounds):
        for sentence in said:
            began = perf_counter_ns()
            act(sentence)
            found.append(perf_counter_ns() - began)
    return found


def show(line: str) -> None:
    """One line of the report."""
    sys.stdout.write(line + "\n")


def compare() -> None:
    """Beside the public recogniser, on the sentences that both accept."""
    try:
        from io import StringIO

        from hassil import Intents, recognize
    except ImportError:
        show("hassil is not installed: no comparison")
        return
    intents = Intents.from_yaml(StringIO(TEMPLATES))
    both = shared_sentences()
    random.Random(1).shuffle(both)
    refused = [said for said in both if recognize(said, intents) is None]
    strange = [said for said in both if understand(said).left_over]
    odd = f"refused by hassil {len(refused)}, by the grammar {len(strange)}"
    show(f"{len(both)} shared sentences; {odd}")
    show(f"  hassil recognize   {spread(timed(lambda said: recognize(said, intents), both, 5))}")
    show(f"  grammar understand {spread(timed(understand, both, 5))}")


def first_turns(runs: int = 15) -> None:
    """The first turn of a new process: compiled grammar not yet kept, and kept."""
    with tempfile.TemporaryDirectory() as folder:
        place = {
            **os.environ,
            "XDG_CACHE_HOME": folder,
            "PYTHONPATH": str(Path(__file__).parents[2] / ".package"),
        }
        place.pop("PYTHONDONTWRITEBYTECODE", None)  # users' modules are kept compiled
        new_process("understand", FIRST[0], place)
        for path in Path(folder).rglob("*.grammar"):
            path.unlink()
        imported, took = new_process("understand", FIRST[0], place)
        show(f"grammar not yet compiled: imports {imported:.0f} ms, first turn {took:.0f} ms")
        for what, words in itertools.product(("understand", "recognise"), FIRST):
            times = [new_process(what, words, place) for _ in range(runs)]
            imported, took = (statistics.median(part) for part in zip(*times, strict=True))
            most = max(took for _, took in times)
            show(
                f"compiled and kept: imports {imported:3.0f} ms, first turn median {took:4.1f} ms, "
                f"most {most:4.1f}: {what} {words!r}"
            )


def new_process(what: str, words: str, place: dict[str, str]) -> tuple[float, float]:
    """Milliseconds of the imports and of the first turn."""
    done = subprocess.run(
        [sys.executable, "-c", NEW_PROCESS, what, words],
        env=place, capture_output=True, text=True, check=True,
    )  # fmt: skip
    imported, took = map(float, done.stdout.split())
    return imported, took


def main() -> None:
    """All figures."""
    first_turns()
    understand("two 14-2 cables")
    ordinary = [said for said in sample(16_000, 21) if 8 <= len(said.split()) <= 12]
    show("1000 sentences of 8 to 12 words each:")
    show(f"  new, in a new process     {spread(timed(understand, ordinary[:1000]))}")
    timed(understand, ordinary[1000:3000])
    show(f"  new, after 3000 others    {spread(timed(understand, ordinary[3000:4000]))}")
    show(f"  said before               {spread(timed(understand, ordinary[3000:4000]))}")
    corpus = [case.say for case in cases()]
    timed(understand, corpus)
    show(f"{len(corpus)} utterances of the corpus, said before:")
    show(f"                            {spread(timed(understand, corpus))}")
    words = " ".join(ordinary).split()
    for count in (10, 100, 1000, 2000, 10_000):
        said = " ".join(words[:count])
        understand(said)
        best = min(timed(understand, [said], 5)) / 1000
        show(f"{count:6} words: {best:9.0f} us, {best / count:5.2f} us a word")
    compare()


if __name__ == "__main__":
    main()
