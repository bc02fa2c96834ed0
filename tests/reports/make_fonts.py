"""Make the fonts that a PDF report embeds: some scripts out of DejaVu Sans Condensed.

`python tests/reports/make_fonts.py` needs fontTools (which fpdf2 brings) and the Debian package
`fonts-dejavu-extra`. Scripts that
must be shaped or are written from the right are left out: drawn letter by letter they are wrong.
"""

from __future__ import annotations

import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

SOURCE = Path("/usr/share/fonts/truetype/dejavu")
TARGET = Path(__file__).parents[2] / "assistant" / "reports" / "data" / "fonts"
BLOCKS = (
    (0x20, 0x24F), (0x2B0, 0x36F),  # Latin, marks
    (0x370, 0x52F),  # Greek, Cyrillic
    (0x530, 0x58F), (0x10A0, 0x10FF),  # Armenian, Georgian
    (0x1E00, 0x1FFF),  # Latin of Vietnamese, Greek with its old accents
    (0x2000, 0x209F), (0x20A0, 0x20BF), (0x2100, 0x218F),  # punctuation, money, numbers
    (0x2190, 0x22FF), (0x25A0, 0x25FF), (0x2713, 0x2718), (0xFFFD, 0xFFFD),  # signs
)  # fmt: skip


def main() -> None:
    options = Options()
    options.hinting = False
    options.layout_features = []
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "FFTM"]
    for style in ("", "-Bold"):
        font = TTFont(SOURCE / f"DejaVuSansCondensed{style}.ttf")
        maker = Subsetter(options)
        maker.populate(unicodes={c for first, last in BLOCKS for c in range(first, last + 1)})
        maker.subset(font)
        path = TARGET / f"DejaVuSansCondensed{style}.ttf"
        font.save(path)
        sys.stdout.write(f"{path.name}: {path.stat().st_size:,} bytes\n")


if __name__ == "__main__":
    main()
