"""Takes out of `known.toml` what was mended: `python tests/understanding/known.py`.

It only ever takes out; a fault goes in by hand, with its reason. Those of the outside talk are
taken out by hand as well.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "grammar"))

from cells import TESTS, capabilities, cell
from matrix_rows import KNOWN, known_faults
from safety_net import misses
from test_nine_properties import CELLS, tried


def failing() -> set[tuple[str, str, str]]:
    """Every trial that fails now: the kind of test, of what, and its name."""
    of_rows = [(test, one, cell(one, test)) for one in capabilities() for test in TESTS]
    of_properties = [(name, voice, tried(name, voice)) for name, voice in CELLS]
    found = {
        (test, of, trial.name)
        for test, of, trials in (*of_rows, *of_properties)
        for trial in trials
        if trial.fault
    }
    return found | {("belief", "table", name) for name in misses()}


def main() -> None:
    """Rewrite the file without the trials that hold now."""
    now, before, after = failing(), 0, 0
    grouped: dict[tuple[str, str, str], list[str]] = {}
    for (test, of), faults in known_faults().items():
        for name, reason in faults.items():
            before += 1
            if test == "outside" or (test, of, name) in now:
                after += 1
                grouped.setdefault((test, of, reason), []).append(name)
    head = [line for line in KNOWN.read_text(encoding="utf-8").splitlines() if line[:1] == "#"]
    blocks = [_block(*key, names) for key, names in grouped.items()]
    KNOWN.write_text("\n\n".join(["\n".join(head), *blocks]) + "\n", encoding="utf-8")
    print(f"{before - after} taken out, {after} are left")  # noqa: T201


def _block(test: str, of: str, reason: str, names: list[str]) -> str:
    told = (json.dumps(one, ensure_ascii=False) for one in (test, of, reason))
    test_, of_, reason_ = told
    said = [f"  {json.dumps(name, ensure_ascii=False)}," for name in names]
    lines = ["[[fault]]", f"test = {test_}", f"capability = {of_}", f"reason = {reason_}"]
    return "\n".join([*lines, "says = [", *said, "]"])


if __name__ == "__main__":
    main()
