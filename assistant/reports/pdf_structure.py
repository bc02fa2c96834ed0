"""The tags of a PDF: what each piece of a page is, in the order of reading (ISO 32000-1, 14.8).

The library has elements for figures only, all of one level. This builder takes the place of its
own, with headings, paragraphs, and tables of rows of cells; it rests on names inside the library,
which `tests/reports/test_pdf_archive.py` holds.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Literal, TypeAlias

from fpdf import FPDF
from fpdf.structure_tree import StructElem, StructureTreeBuilder
from fpdf.syntax import PDFObject

Kind: TypeAlias = Literal["H1", "H2", "H3", "P", "Table", "TR", "TH", "TD", "Figure"]


class _Element(StructElem):
    """An element that may have attributes."""

    a: str | None = None


class Structure(StructureTreeBuilder):
    """The tags of one document."""

    def __init__(self, pdf: FPDF) -> None:
        super().__init__()
        self._pdf = pdf
        self._every: list[StructElem] = []
        self._marked: dict[int, int] = {}
        """How many stretches each page has."""

    def element(self, kind: Kind, parent: StructElem | None = None, alt: str = "") -> StructElem:
        """A new element, the last of its parent or of the document."""
        above = parent or self.doc_struct_elem
        made = _Element(f"/{kind}", above, [], self._pdf.page, alt=alt or None)
        made.pg = self._pdf.pages[self._pdf.page]  # type: ignore[assignment]  # None to it at first
        if kind == "TH":
            made.a = "<</O /Table /Scope /Column>>"
        above.k.append(made)
        self._every.append(made)
        return made

    @contextmanager
    def content(self, element: StructElem) -> Iterator[None]:
        """What is drawn meanwhile, on the page that the element began on, belongs to it."""
        page = self._pdf.page
        number = self._marked.get(page, 0)
        self._marked[page] = number + 1
        element.k.append(number)
        place = self.spid_per_page_number.setdefault(page, len(self.spid_per_page_number))
        self._pdf.pages[page].struct_parents = place
        self.struct_tree_root.parent_tree.nums[place].append(element)
        self._pdf._out(f"{element.s} <</MCID {number}>> BDC")
        yield
        self._pdf._out("EMC")

    @contextmanager
    def decoration(self) -> Iterator[None]:
        """What is drawn meanwhile says nothing: a rule, or the line at the foot of a page."""
        self._pdf._out("/Artifact BMC")
        yield
        self._pdf._out("EMC")

    def __iter__(self) -> Iterator[PDFObject]:
        """Every object of the tree, the root first, as the library writes them."""
        yield self.struct_tree_root
        yield self.doc_struct_elem
        yield self.struct_tree_root.parent_tree
        yield from self._every
