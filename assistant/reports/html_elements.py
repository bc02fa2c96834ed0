"""Small pieces of HTML: everything that is said is escaped here, in one place."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape


def text(words: object) -> str:
    """Words as HTML text. Characters that no document may hold are dropped."""
    kept = "".join(c for c in str(words) if c in "\n\t" or c.isprintable())
    return escape(kept, quote=True)


def element(name: str, inner: str, /, **attributes: str) -> str:
    """An element around HTML. An attribute's trailing underscore is dropped (`class_`)."""
    told = "".join(f' {key.rstrip("_").replace("_", "-")}="{text(value)}"'
                   for key, value in attributes.items())  # fmt: skip
    return f"<{name}{told}>{inner}</{name}>"


def listing(items: Iterable[str], kind: str = "") -> str:
    """A list of words."""
    inner = "".join(element("li", text(item)) for item in items)
    return element("ul", inner, class_=kind) if kind else element("ul", inner)


def table(caption: str, heads: Sequence[str], rows: Iterable[Sequence[str]], kind: str) -> str:
    """A table whose first cell of each row is that row's heading. Cells are HTML.

    `kind` is its class. Each cell carries its column's name, for a narrow screen.
    """
    head = "".join(element("th", text(name), scope="col") for name in heads)
    body = "".join(_row(heads, cells) for cells in rows)
    inner = (
        element("caption", text(caption))
        + element("thead", element("tr", head))
        + element("tbody", body)
    )
    return element("div", element("table", inner, class_=kind), class_="across")


def _row(heads: Sequence[str], cells: Sequence[str]) -> str:
    first = element("th", cells[0], scope="row", data_name=heads[0])
    rest = "".join(
        element("td", cell, data_name=name) for name, cell in zip(heads[1:], cells[1:], strict=True)
    )
    return element("tr", first + rest)
