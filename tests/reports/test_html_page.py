"""The page as a browser and a screen reader have it: structure by parsing, layout by Chromium."""

from __future__ import annotations

import itertools
import re
import shutil
import subprocess
from html.parser import HTMLParser
from pathlib import Path

import pytest
from boxaloud.assistant.reports import JobReport
from boxaloud.assistant.reports.report_export import write

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--hide-scrollbars",
)  # fmt: skip
VOID = {"meta", "link", "br", "img", "input", "hr", "rect", "line", "col"}


class Outline(HTMLParser):
    """Every element with its attributes, and a check that all are closed in order."""

    def __init__(self) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag, f"</{tag}> at {self.getpos()}"

    def all(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.elements if name == tag]


@pytest.fixture(scope="module")
def outline(page: Path) -> Outline:
    found = Outline()
    found.feed(page.read_text(encoding="utf-8"))
    assert found._open == []
    return found


def test_the_page_needs_no_network_and_no_script(page: Path, outline: Outline) -> None:
    text = page.read_text(encoding="utf-8")
    assert not re.search(r"(src|href)=\"(?!#)|url\((?!#)|@import|https?://", text)
    assert outline.all("script") == []


def test_headings_are_in_order(outline: Outline) -> None:
    levels = [int(tag[1]) for tag, _ in outline.elements if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in itertools.pairwise(levels))


def test_every_table_is_captioned_and_its_headings_have_a_scope(outline: Outline) -> None:
    assert len(outline.all("caption")) == len(outline.all("table")) > 12
    assert all(heading.get("scope") in ("row", "col") for heading in outline.all("th"))


def test_every_gauge_is_an_image_with_a_text(outline: Outline) -> None:
    names = {attributes.get("id") for _, attributes in outline.elements}
    gauges = [svg for svg in outline.all("svg") if "aria-hidden" not in svg]
    assert len(gauges) == len(outline.all("article")) >= 12
    for gauge in gauges:
        assert gauge["role"] == "img"
        assert gauge["aria-labelledby"] in names


def test_ids_are_unique_and_links_lead_somewhere(outline: Outline) -> None:
    names = [a["id"] for _, a in outline.elements if "id" in a]
    assert len(names) == len(set(names))
    assert {(link["href"] or "")[1:] for link in outline.all("a")} <= set(names)


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_what_stands_first_is_reached_first(outline: Outline) -> None:
    """The order of the Tab key is that of the page, and nothing else takes it."""
    assert [tag for tag, a in outline.elements if "tabindex" in a] == []
    assert {tag for tag, a in outline.elements if "href" in a} == {"a"}


@pytest.mark.parametrize("theme", [0, 1])
def test_text_has_the_contrast_of_wcag(theme: int, page: Path) -> None:
    """WCAG 2.2, 1.4.3: at least 4.5 to 1 for text."""
    blocks = re.findall(r":root \{(.*?)\}", page.read_text(encoding="utf-8"), re.DOTALL)
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", blocks[theme]))
    pairs = [(ink, paper) for ink in ("ink", "faint", "deep", "copper", "slate")
             for paper in ("paper", "sheet")]  # fmt: skip
    for ink, paper in [*pairs, ("ink", "part0"), ("ink", "part1"), ("ink", "track")]:
        light, dark = sorted((luminance(colours[ink]), luminance(colours[paper])), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= 4.5, (ink, paper)


# -- in a real browser -----------------------------------------------------------------------

needs_chromium = pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")

MEASURE = """<!doctype html><body><iframe id=f src="{page}" style="width:{width}px;height:900px">
</iframe><script>
document.getElementById('f').onload = () => {{
  const d = document.getElementById('f').contentDocument;
  const out = {{
    over: d.documentElement.scrollWidth - d.documentElement.clientWidth,
    boxes: d.querySelectorAll('article').length,
    lost: [...d.querySelectorAll('article *')].filter(e => e.tagName !== 'TH' &&
      !e.closest('thead') && !e.closest('svg') &&
      e.getBoundingClientRect().right > d.documentElement.clientWidth + 1).length,
  }};
  document.body.dataset.found = JSON.stringify(out);
}};</script></body>"""


@needs_chromium
@pytest.mark.parametrize("width", [360, 700, 1200])
def test_nothing_runs_off_the_side(width: int, page: Path, tmp_path: Path) -> None:
    frame = page.with_name(f"frame-{width}.html")
    frame.write_text(MEASURE.format(page=page.name, width=width), encoding="utf-8")
    done = subprocess.run(
        [str(CHROMIUM), *FLAGS, f"--user-data-dir={tmp_path}", "--allow-file-access-from-files",
         "--virtual-time-budget=5000", "--dump-dom", frame.as_uri()],
        capture_output=True, text=True, timeout=120,
    )  # fmt: skip
    found = re.search(r"data-found=\"(.*?)\"", done.stdout)
    assert found is not None, done.stdout[:500]
    measured = found[1].replace("&quot;", '"')
    assert '"over":0' in measured
    assert '"lost":0' in measured
    assert '"boxes":14' in measured


@needs_chromium
def test_light_and_dark_are_two_pictures(page: Path, tmp_path: Path) -> None:
    pictures = []
    for scheme in ("0", "1"):
        shot = tmp_path / f"{scheme}.png"
        subprocess.run(
            [str(CHROMIUM), *FLAGS, f"--user-data-dir={tmp_path / scheme}",
             f"--blink-settings=preferredColorScheme={scheme}", "--window-size=800,600",
             f"--screenshot={shot}", page.as_uri()],
            capture_output=True, timeout=120, check=True,
        )  # fmt: skip
        pictures.append(shot.read_bytes())
    assert len(pictures[0]) > 10_000
    assert pictures[0] != pictures[1]


@needs_chromium
def test_on_paper_it_is_no_longer_than_the_pdf(
    page: Path, report: JobReport, tmp_path: Path
) -> None:
    pypdf = pytest.importorskip("pypdf", reason="pypdf counts the pages")
    paper = tmp_path / "printed.pdf"
    subprocess.run(
        [str(CHROMIUM), *FLAGS, f"--user-data-dir={tmp_path / 'user'}", "--no-pdf-header-footer",
         f"--print-to-pdf={paper}", page.as_uri()],
        capture_output=True, timeout=120, check=True,
    )  # fmt: skip
    write(report, tmp_path / "report.pdf")
    printed, due = (pypdf.PdfReader(path).pages for path in (paper, tmp_path / "report.pdf"))
    assert 1 < len(printed) <= len(due)
    for sheet in printed:
        # no heading or caption at the foot, parted from what it heads
        last = sheet.extract_text().strip().splitlines()[-1]
        assert last not in ("Sections", "Summary", "Cautions", "Boxes", "Signatures")
        assert not last.startswith(("What each section", "None of these", "Every box"))
