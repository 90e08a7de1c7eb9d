"""A web page's tables, which shop programs like to save under the name of a spreadsheet."""

from __future__ import annotations

from html.parser import HTMLParser

from steepwright.errors import InputError
from steepwright.pricelist.cells import Cell, Row, Sheet
from steepwright.pricelist.limits import limit

_MOST_SPAN = 100


class _Tables(HTMLParser):
    """Collects cells by row over all tables of a page; spanned cells repeat their text."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.rows: list[tuple[list[Cell], set[int]]] = []
        self.held: dict[int, tuple[str, int]] = {}
        self.text: list[str] | None = None
        self.span = (1, 1)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a row or a cell; a line break inside a cell is a blank."""
        if tag == "tr":
            self._close_cell()
            self._open_row()
        elif tag in ("td", "th"):
            self._close_cell()
            if not self.rows:
                self._open_row()
            values = dict(attrs)
            self.text = []
            self.span = (_count(values.get("colspan")), _count(values.get("rowspan")))
        elif tag == "br" and self.text is not None:
            self.text.append(" ")

    def handle_endtag(self, tag: str) -> None:
        """End a cell."""
        if tag in ("td", "th", "tr", "table"):
            self._close_cell()

    def handle_data(self, data: str) -> None:
        """Take a cell's text."""
        if self.text is not None:
            self.text.append(data)

    def _open_row(self) -> None:
        self.rows.append(([], set()))

    def _close_cell(self) -> None:
        if self.text is None:
            return
        cells, filled = self.rows[-1]
        self._fill_held(cells, filled)
        text = " ".join("".join(self.text).split())
        wide, tall = self.span
        for offset in range(wide):
            if offset:
                filled.add(len(cells))
            if tall > 1:
                self.held[len(cells)] = (text, tall - 1)
            cells.append(text)
        self.text = None

    def _fill_held(self, cells: list[Cell], filled: set[int]) -> None:
        """Repeat the cells that reach down from rows above."""
        while len(cells) in self.held:
            at = len(cells)
            text, left = self.held.pop(at)
            if left > 1:
                self.held[at] = (text, left - 1)
            filled.add(at)
            cells.append(text)


def _count(text: str | None) -> int:
    return min(int(text), _MOST_SPAN) if text and text.isdecimal() and int(text) > 0 else 1


def read_html(text: str, file: str) -> Sheet:
    """Return all tables of a page as one sheet; its rows are numbered as they come.

    Raises
    ------
    InputError
        When the page has no table, or one with too many rows.
    """
    page = _Tables()
    page.feed(text)
    page.close()
    if not any(cells for cells, _ in page.rows):
        message = f"{file}: is a web page without a table; save the list as XLSX or CSV"
        raise InputError(message)
    if len(page.rows) > limit("max_rows"):
        message = f"{file}: has more than {limit('max_rows')} rows; cut it down"
        raise InputError(message)
    return Sheet(
        "",
        tuple(
            Row(number, tuple(cells), frozenset(filled))
            for number, (cells, filled) in enumerate(page.rows, start=1)
        ),
    )
