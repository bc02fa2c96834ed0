"""Any input at all, at length: `python tests/fuzz/fuzz.py TARGET [--runs N] [--seed S] [--guided]`.

TARGET is `understand`, `fold`, `batch`, `wav`, `job` or `frame`, or `talk`: whole talks, utterance
by utterance, typed and heard. Every input that breaks a promise is kept in `seeds/`, where the
tests try it again for ever. `--guided` lets a coverage-guided fuzzer choose the inputs (`pip
install atheris`).
"""

from __future__ import annotations

import argparse
import hashlib
import random
import sys
import tempfile
import time
import traceback
from pathlib import Path

HERE = Path(__file__).parent
sys.path += [str(HERE), str(HERE.parent / "grammar")]

if __name__ == "__main__" and "--guided" in sys.argv:  # what is to guide it is read with marks
    import atheris

    with atheris.instrument_imports(include=["boxaloud"]):
        import targets
else:
    import targets
import mixing  # noqa: E402
from boxaloud.assistant.dialogue import Conversation  # noqa: E402

SEEDS = HERE / "seeds"
TALK = 25
"""Utterances of one talk."""


def keep(target: str, data: bytes) -> Path:
    """Keep an input that broke a promise."""
    folder = SEEDS / target
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / hashlib.sha256(data).hexdigest()[:12]
    path.write_bytes(data)
    return path


def at_random(target: str, runs: int, seed: int) -> int:
    """Try inputs at random; how many broke a promise."""
    broken = 0
    for number in range(runs):
        data = targets.sample(target, random.Random(f"{seed} {number}"))
        try:
            targets.TARGETS[target](data)
        except Exception:
            broken += 1
            sys.stdout.write(f"{keep(target, data)}\n{traceback.format_exc(limit=-3)}\n")
    return broken


def talks(runs: int, seed: int) -> int:
    """Hear utterances at random, typed and heard; how many met a fault."""
    broken = 0
    slowest, words = 0.0, ""
    with targets.raising(True):
        for begun in range(0, runs, TALK):
            chance = random.Random(f"talk {seed} {begun}")
            talking, lines = Conversation(), list[str]()
            for _ in range(min(TALK, runs - begun)):
                said = mixing.utterance(chance)
                if chance.random() < 0.1:
                    said = targets.HEARD + said
                lines.append(said.replace("\n", " "))
                given = targets.given(lines[-1])
                since = time.process_time()
                try:
                    assert talking.hear(given).said
                except Exception:
                    broken += 1
                    path = keep("fold", "\n".join(lines).encode("utf-8", "replace"))
                    sys.stdout.write(f"{path}\n{traceback.format_exc(limit=-3)}\n")
                    talking, lines = Conversation(), []
                took = time.process_time() - since
                if took > slowest:
                    slowest, words = took, said
            if begun % 20_000 == 0:
                sys.stdout.write(f"{begun} tried, {broken} broken\n")
                sys.stdout.flush()
    sys.stdout.write(f"the slowest took {slowest * 1000:.0f} ms: {words[:80]!r}\n")
    return broken


def guided(target: str, runs: int, seed: int) -> None:
    """Let a coverage-guided fuzzer choose the inputs; it ends at the first broken promise."""
    import atheris

    def tried(data: bytes) -> None:
        try:
            targets.TARGETS[target](data)
        except Exception:
            sys.stdout.write(f"{keep(target, data)}\n")
            raise

    longest = {"wav": 4000, "job": 100_000}.get(target, 400)
    kept = SEEDS / target
    with tempfile.TemporaryDirectory() as begins:
        for number in range(40):
            data = targets.sample(target, random.Random(f"guided {number}"))
            Path(begins, str(number)).write_bytes(data)
        known = [begins, *([str(kept)] if kept.is_dir() else [])]
        limits = [f"-atheris_runs={runs}", f"-max_len={longest}", f"-seed={seed}"]
        atheris.Setup([sys.argv[0], *limits, *known], tried)
        atheris.Fuzz()


def main() -> int:
    """Run what the command line asks for; 1 where a promise was broken."""
    read = argparse.ArgumentParser(description=__doc__)
    read.add_argument("target", choices=[*targets.TARGETS, "talk"])
    read.add_argument("--runs", type=int, default=100_000)
    read.add_argument("--seed", type=int, default=1)
    read.add_argument("--guided", action="store_true")
    asked = read.parse_args()
    if asked.guided:
        guided(asked.target, asked.runs, asked.seed)
        return 0
    since = time.perf_counter()
    run = talks if asked.target == "talk" else None
    broken = run(asked.runs, asked.seed) if run else at_random(asked.target, asked.runs, asked.seed)
    took = time.perf_counter() - since
    sys.stdout.write(f"{asked.target}: {asked.runs} tried in {took:.0f} s, {broken} broken\n")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
