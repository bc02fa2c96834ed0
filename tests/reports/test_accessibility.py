"""The page judged by axe-core, an independent checker of WCAG, in a real browser.

It comes from the npm registry (`npm install --no-save --prefix .ci axe-core`), as CI installs it;
where it or Chromium is missing, these tests are skipped and say so.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.reports import JobReport
from boxaloud.assistant.reports.report_export import write
from test_html_page import CHROMIUM, FLAGS

ROOT = Path(__file__).parents[2]
AXE = Path(
    os.environ.get("BOXALOUD_AXE", ROOT / ".ci" / "node_modules" / "axe-core" / "axe.min.js")
)
pytestmark = [
    pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed"),
    pytest.mark.skipif(
        not AXE.is_file(),
        reason="axe-core is not installed: npm install --no-save --prefix .ci axe-core",
    ),
]
SCHEMES = {"dark": "0", "light": "1"}
WIDTHS = (360, 700, 1200)

#: The whole page by every rule for WCAG A and AA and good practice; the verdicts and the totals by
#: 1.4.6 (AAA: 7 to 1) as well.
ASK = """
<script src="axe.min.js"></script><script>
const told = r => r.map(v => v.id + ': ' + v.nodes.map(n => n.html + ' ' +
  n.any.map(a => a.message).join(' ')).join(' | '));
addEventListener('load', async () => {
  const all = await axe.run(document, {resultTypes: ['violations']});
  const tall = await axe.run({include: [['.verdict'], ['.counts strong'], ['.standing'], ['.told'],
    ['.fill tbody tr:last-child strong']]}, {runOnly: ['color-contrast-enhanced']});
  document.title = JSON.stringify({rules: all.passes.length, violations: told(all.violations),
    checked: tall.passes.reduce((n, p) => n + p.nodes.length, 0),
    faint: told(tall.violations), unsure: told(tall.incomplete)});
});
</script></body>"""
FRAME = """<!doctype html><body><iframe id=f src="axe.html" style="width:{width}px;height:900px">
</iframe><script>
const look = () => {{
  const title = document.getElementById('f').contentDocument?.title || '';
  if (title.startsWith('{{')) document.body.dataset.found = title; else setTimeout(look, 100);
}};
look();</script></body>"""


@pytest.fixture(scope="module")
def folder(page: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("axe")
    shutil.copy(AXE, made / "axe.min.js")
    text = page.read_text(encoding="utf-8")
    (made / "axe.html").write_text(text.replace("</body>", ASK), encoding="utf-8")
    return made


def judged(folder: Path, scheme: str, width: int) -> dict[str, Any]:
    frame = folder / f"frame-{scheme}-{width}.html"
    frame.write_text(FRAME.format(width=width), encoding="utf-8")
    done = subprocess.run(
        [str(CHROMIUM), *FLAGS, f"--user-data-dir={folder / scheme}-{width}",
         "--allow-file-access-from-files",
         f"--blink-settings=preferredColorScheme={SCHEMES[scheme]}",
         "--virtual-time-budget=60000", f"--window-size={width + 40},1000", "--dump-dom",
         frame.as_uri()],
        capture_output=True, text=True, timeout=180,
    )  # fmt: skip
    _, _, found = done.stdout.partition('data-found="')
    assert found, done.stdout[:500] + done.stderr[-500:]
    told: dict[str, Any] = json.loads(unescape(found.partition('"')[0]))
    return told


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_page_has_no_violation(scheme: str, width: int, folder: Path) -> None:
    found = judged(folder, scheme, width)
    assert found["rules"] > 20
    assert found["violations"] == []
    assert found["checked"] > 40
    assert found["faint"] == []
    assert found["unsure"] == []


def test_the_checker_sees_what_is_wrong(report: JobReport, tmp_path: Path) -> None:
    """A test that cannot fail would hold nothing."""
    write(report, tmp_path / "page.html")
    shutil.copy(AXE, tmp_path / "axe.min.js")
    text = (tmp_path / "page.html").read_text(encoding="utf-8")
    text = text.replace('<html lang="en">', "<html>")
    for name, colour in (("deep", "#3d6c6a"), ("faint", "#cccccc")):
        text = re.sub(rf"--{name}: #\w+", f"--{name}: {colour}", text, count=1)
    (tmp_path / "axe.html").write_text(text.replace("</body>", ASK), encoding="utf-8")
    found = judged(tmp_path, "light", 700)
    assert any("html-has-lang" in one for one in found["violations"])
    assert any("color-contrast" in one for one in found["violations"])
    assert found["faint"]
