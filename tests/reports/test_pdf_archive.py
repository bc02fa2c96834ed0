"""The PDF keeps to PDF/A-1b (ISO 19005-1) and is tagged (ISO 32000-1, 14.8), as others see it.

A reader of PDF that is not the writer looks at the tags. Preflight, the checker of the PDFBox
library in Debian's packages, judges the file; where it or Java is missing, that test is skipped
and says so. It checks level B: what is asked of tags by level A, nobody here judges.
"""

from __future__ import annotations

import itertools
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.reports import JobReport
from boxaloud.assistant.reports.report_export import write

pypdf = pytest.importorskip("pypdf", reason="pypdf reads back what was written")

JAVA = shutil.which("java")
JARS = [
    Path("/usr/share/java") / f"{name}.jar"
    for name in ("preflight", "pdfbox2", "xmpbox", "fontbox2", "commons-logging", "commons-io",
                 "javax.activation", "jaxb-api")
]  # fmt: skip


@pytest.fixture(scope="module")
def paper(report: JobReport, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("paper") / "demo.pdf"
    write(report, path)
    return path


@pytest.fixture(scope="module")
def read(paper: Path) -> Any:
    return pypdf.PdfReader(paper)


def judged(path: Path) -> str:
    """What Preflight says of a file."""
    done = subprocess.run(
        [str(JAVA), "-cp", ":".join(map(str, JARS)),
         "org.apache.pdfbox.preflight.Validator_A1b", str(path)],
        capture_output=True, text=True, timeout=120,
    )  # fmt: skip
    return done.stdout


def elements(node: Any) -> Iterator[Any]:
    """An element of the tree and all below it, in the order of reading."""
    yield node
    for kid in node.get("/K", []):
        if not isinstance(kid, int):
            yield from elements(kid.get_object())


@pytest.fixture(scope="module")
def tree(read: Any) -> list[Any]:
    return list(elements(read.trailer["/Root"]["/StructTreeRoot"]["/K"][0].get_object()))


def test_headings_are_in_order(tree: list[Any], report: JobReport) -> None:
    found = [one["/S"] for one in tree if str(one["/S"]).startswith("/H")]
    assert found[0] == "/H1"
    assert found.count("/H1") == 1
    assert found.count("/H3") == len(report.boxes)
    levels = [int(name[2]) for name in found]
    assert all(after - before <= 1 for before, after in itertools.pairwise(levels))


def test_every_row_of_a_table_has_the_cells_of_its_heads(tree: list[Any]) -> None:
    tables = [one for one in tree if one["/S"] == "/Table"]
    assert len(tables) > 14
    for table in tables:
        heads, *rows = (kid.get_object() for kid in table["/K"])
        kinds = [[cell.get_object()["/S"] for cell in row["/K"]] for row in (heads, *rows)]
        assert set(kinds[0]) == {"/TH"}
        assert {tuple(row) for row in kinds[1:]} == {("/TD",) * len(kinds[0])}


def test_every_drawing_has_its_words(tree: list[Any], report: JobReport) -> None:
    said = [one["/Alt"] for one in tree if one["/S"] == "/Figure"]
    assert len(said) >= len(report.boxes)
    assert all(re.search(r"\d", words) for words in said)


def test_everything_drawn_is_tagged_or_decoration(read: Any) -> None:
    """No text stands outside the tags, and each stretch has one element in the parent tree."""
    numbers = read.trailer["/Root"]["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    parents = dict(zip(numbers[::2], numbers[1::2], strict=True))
    for page in read.pages:
        marked, inside = 0, 0
        for line in page.get_contents().get_data().decode("latin-1").splitlines():
            if line.endswith(("BDC", "BMC")):
                assert inside == 0
                inside, marked = 1, marked + line.endswith("BDC")
            elif line == "EMC":
                inside = 0
            elif " Tj" in line or " TJ" in line:
                assert inside == 1, line
        assert marked == len(parents[page["/StructParents"]].get_object())


def test_the_tags_hold_the_words_of_the_page(read: Any, paper: Path) -> None:
    tool = shutil.which("pdfinfo")
    if tool is None:
        pytest.skip("pdfinfo (Debian's poppler-utils) is not installed")
    told = subprocess.run(
        [tool, "-struct-text", paper], capture_output=True, text=True, check=True
    ).stdout
    words = Counter(re.findall(r"\w+", told))
    for page in read.pages:
        # the line at the foot and heads that stand again are decoration
        lines = page.extract_text().splitlines()[:-1]
        assert set(re.findall(r"\w{4,}", " ".join(lines))) <= set(words)


def test_the_file_says_what_it_is(read: Any) -> None:
    about = read.xmp_metadata.rdf_root.toxml()
    assert "<pdfaid:part>1<" in about
    assert "<pdfaid:conformance>B<" in about
    assert "Quillback House" in about
    assert read.trailer["/Root"]["/Lang"] == "en"
    assert read.trailer["/Root"]["/MarkInfo"]["/Marked"].value is True
    assert read.trailer["/Root"]["/OutputIntents"]


@pytest.mark.skipif(JAVA is None, reason="Java is not installed")
@pytest.mark.skipif(
    not all(jar.exists() for jar in JARS),
    reason="Preflight is not installed: apt-get install libpdfbox2-java libactivation-java "
    "libjaxb-api-java libcommons-io-java",
)
def test_an_independent_checker_finds_pdf_a(paper: Path, tmp_path: Path) -> None:
    assert "is a valid PDF/A-1b file" in judged(paper)
    spoilt = tmp_path / "spoilt.pdf"
    spoilt.write_bytes(paper.read_bytes().replace(b"/OutputIntents", b"/OutputIntentz"))
    assert "is not a valid PDF/A-1b file" in judged(spoilt)
