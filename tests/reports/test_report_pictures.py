"""Pictures of a box are in its report whole: in the page, in the PDF, and named in the data."""

from __future__ import annotations

import base64
import io
import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from boxaloud.assistant.cli.main import app
from boxaloud.assistant.reports import JobReport, html_renderer, json_renderer
from boxaloud.assistant.reports.report_export import write
from boxaloud.assistant.reports.report_model import Picture
from PIL import Image
from test_pdf_archive import JARS, JAVA, elements, judged

pypdf = pytest.importorskip("pypdf", reason="pypdf reads back what was written")


def drawn(kind: str, wide: int, high: int) -> Picture:
    image = Image.new("RGB", (wide, high), (30, 120, 200))
    image.paste((250, 240, 20), (10, 10, wide // 2, high // 2))
    out = io.BytesIO()
    image.save(out, kind.upper())
    return Picture('before "the" change <1>', kind, wide, high, out.getvalue())


@pytest.fixture(scope="module")
def told(report: JobReport) -> JobReport:
    shown = (drawn("png", 400, 300), drawn("jpeg", 900, 1600), drawn("jpeg", 1600, 200))
    first, *rest = report.boxes
    return replace(report, boxes=(replace(first, pictures=shown), *rest))


def test_the_page_holds_each_picture_whole(told: JobReport) -> None:
    page = "".join(html_renderer.pieces(told))
    found = re.findall(r'<img src="data:image/(\w+);base64,([^"]*)"', page)
    due = [(one.kind, one.data) for one in told.boxes[0].pictures]
    assert [(kind, base64.b64decode(data)) for kind, data in found] == due
    assert page.count("before &#34;the&#34; change &lt;1&gt;") == 6
    assert "change <1>" not in page


def test_the_pdf_holds_each_picture_whole_with_its_words(told: JobReport, tmp_path: Path) -> None:
    path = tmp_path / "told.pdf"
    write(told, path)
    read = pypdf.PdfReader(path)
    sizes = [image.image.size for page in read.pages for image in page.images]
    assert sorted(sizes) == [(400, 300), (900, 1600), (1600, 200)]
    for page in read.pages:
        words = page.extract_text()
        assert len(page.images) == len(re.findall(r"picture \d: before", words))
    root = read.trailer["/Root"]["/StructTreeRoot"]["/K"][0].get_object()
    said = [str(one["/Alt"]) for one in elements(root) if one["/S"] == "/Figure"]
    assert sum("picture" in words for words in said) == 3
    if JAVA and all(jar.exists() for jar in JARS):
        assert "is a valid PDF/A-1b file" in judged(path)


def test_the_data_names_them(told: JobReport) -> None:
    data = json.loads("".join(json_renderer.pieces(told)))
    assert [one["wide"] for one in data["boxes"][0]["pictures"]] == [400, 900, 1600]
    assert data["boxes"][1]["pictures"] == []


def test_from_the_command_to_the_report(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path / "data"))
    picture = tmp_path / "panel.png"
    picture.write_bytes(drawn("png", 400, 300).data)
    app(["demo"])
    app(["job", "picture", "Quillback", str(picture), "--box", "kitchen island", "--says", "now"])
    app(["job", "picture", "Quillback"])
    assert "1: kitchen island, now" in capsys.readouterr().out
    app(["report", "Quillback", "-o", str(tmp_path / "r.html")])
    page = (tmp_path / "r.html").read_text(encoding="utf-8")
    article = page.partition(">3. Kitchen island<")[2].partition("</article>")[0]
    assert "Kitchen island, picture 1: now" in article
    app(["job", "picture", "Quillback", "--drop", "1"])
    app(["job", "picture", "Quillback"])
    assert "has no pictures" in capsys.readouterr().out
