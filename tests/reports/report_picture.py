"""Make `.pictures/report.png`, the picture of the demonstration report that the README shows.

`python tests/reports/report_picture.py` needs Chromium and Pillow (which fpdf2 brings). Left the
head of the page in the light theme, right a box that is over in the dark one.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from boxaloud.assistant.reports import job_report
from boxaloud.assistant.reports.report_export import write
from boxaloud.assistant.storage.demo_job import build
from PIL import Image

FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--hide-scrollbars", "--allow-file-access-from-files", "--virtual-time-budget=4000",
)  # fmt: skip
WIDTH, HEIGHT = 760, 1040
FRAME = """<body style="margin:0;overflow:hidden"><iframe src="demo.html"
style="width:{width}px;height:{height}px;border:0" onload="
this.contentDocument.defaultView.scrollTo(0,
this.contentDocument.getElementById('{part}')?.closest('article').offsetTop - 24 || 0)"></iframe>"""


def shot(folder: Path, part: str, theme: str) -> Image.Image:
    frame, picture = folder / f"{theme}.html", folder / f"{theme}.png"
    frame.write_text(FRAME.format(width=WIDTH, height=HEIGHT, part=part), encoding="utf-8")
    subprocess.run(
        [shutil.which("chromium") or "chromium", *FLAGS, f"--user-data-dir={folder / theme}",
         f"--blink-settings=preferredColorScheme={theme}", f"--screenshot={picture}",
         f"--window-size={WIDTH},{HEIGHT}", frame.as_uri()],
        check=True, capture_output=True,
    )  # fmt: skip
    return Image.open(picture)


def main() -> None:
    target = Path(__file__).parents[2] / ".pictures" / "report.png"
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        os.environ["BOXALOUD_DATA"] = made
        session = build()
        write(job_report(session.conversation, session.name), folder / "demo.html")
        session.close()
        both = Image.new("RGB", (WIDTH * 2, HEIGHT))
        both.paste(shot(folder, "none", "1"), (0, 0))
        both.paste(shot(folder, "box-3", "0"), (WIDTH, 0))
    both.quantize(48).save(target, optimize=True)
    sys.stdout.write(f"{target}: {target.stat().st_size:,} bytes\n")


if __name__ == "__main__":
    main()
