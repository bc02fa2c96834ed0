"""Which words of the grammar sound alike: writes close_words.json beside this file.

Distance: edits between the phonemes of the bundled pronouncing dictionary of the `pocketsphinx`
package (CMU form), over the longer of the two words; exchanging two vowels, or two consonants
of one manner (stops, fricatives, nasals, glides), costs half an edit. Each word gets its
nearest words, with the distance; a number word its nearest number words too, since a recogniser
that expects a number mostly gives a wrong number.

Run: python -m electrician.close_words (in tests/dialogue).
"""

from __future__ import annotations

import json
from pathlib import Path

import pocketsphinx
from boxaloud.grammar import vocabulary

OUT = Path(__file__).with_name("close_words.json")
NEAREST = 6
FURTHEST = 0.7
UNITS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven"]
TEENS = ["thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
NUMBERS = {*UNITS, "twelve", *TEENS, *TENS, "twos", "threes", "tens", "twelves", "fourteens"}
MANNERS = [
    {"AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW"},
    {"B", "D", "G", "K", "P", "T", "CH", "JH"},
    {"F", "V", "S", "Z", "SH", "ZH", "TH", "DH", "HH"},
    {"M", "N", "NG"},
    {"L", "R", "W", "Y"},
]


def pronunciations() -> dict[str, list[str]]:
    path = Path(pocketsphinx.get_model_path()) / "en-us" / "cmudict-en-us.dict"
    wanted = vocabulary()
    found = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        word, *phonemes = line.split()
        if word in wanted and len(word) > 1:
            found[word] = phonemes
    return found


def exchange(one: str, other: str) -> float:
    if one == other:
        return 0.0
    return 0.5 if any(one in manner and other in manner for manner in MANNERS) else 1.0


def distance(one: list[str], other: list[str]) -> float:
    row = [float(place) for place in range(len(other) + 1)]
    for at, phoneme in enumerate(one, 1):
        before, row = row, [float(at)]
        for to, against in enumerate(other, 1):
            row.append(
                min(before[to] + 1, row[-1] + 1, before[to - 1] + exchange(phoneme, against))
            )
    return row[-1] / max(len(one), len(other))


def main() -> None:
    said = pronunciations()
    table = {}
    for word, phonemes in sorted(said.items()):
        every = sorted(
            (round(distance(phonemes, others), 3), other)
            for other, others in said.items()
            if other != word
        )
        near = every[:NEAREST]
        if word in NUMBERS:
            near += [pair for pair in every[NEAREST:] if pair[1] in NUMBERS][:4]
        table[word] = [[other, far] for far, other in near if far <= FURTHEST]
    lines = [f"{json.dumps(word)}: {json.dumps(near)}" for word, near in table.items()]
    OUT.write_text("{\n" + ",\n".join(lines) + "\n}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
