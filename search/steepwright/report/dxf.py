"""The cut plan as a DXF drawing for a machine or a CAD program; needs the extra ``dxf``."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from steepwright.errors import UsageError
from steepwright.report.finished import Chosen
from steepwright.report.views.cuts import BarCuts, SheetCuts

if TYPE_CHECKING:
    from ezdxf.layouts import Modelspace

STOCK, NOTES = "STOCK", "NOTES"
"""Layers of what is bought, and of what goes for the whole drawing."""

GAP_MM, TEXT_MM = 250, 40
"""Room between two sheets or bars, and the largest letters; of the drawing, not of the wall."""

GREY = 8
"""AutoCAD colour index of the stock; DXF reference, group code 62."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on its stock [mm] and what is written on it."""

    x_mm: int
    y_mm: int
    length_mm: int
    width_mm: int
    label: str


@dataclass(frozen=True, slots=True)
class Stock:
    """One sheet or bar to be cut: its layer, its title, its size and its pieces."""

    layer: str
    title: str
    length_mm: int
    width_mm: int
    pieces: tuple[Box, ...]


def dxf_text(chosen: Chosen) -> str:
    """Return the design's cut plan as a DXF file in millimetres, the same bytes every time.

    Every sheet and bar has a layer of its own with its pieces as closed outlines, each once and
    at its finished size, and a label in the middle of each. The stock's outlines lie on ``STOCK``.

    Raises
    ------
    UsageError
        When the library that writes DXF is not installed.
    """
    try:
        import ezdxf
    except ImportError:
        message = "DXF needs a library that is not installed: pip install 'steepwright[dxf]'"
        raise UsageError(message) from None
    kept = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True  # no time of day, no random names
    try:
        drawing = ezdxf.new("R2010", units=ezdxf.units.MM)
        drawing.layers.add(STOCK, color=GREY)
        drawing.layers.add(NOTES)
        stocks = tuple(_stocks(chosen))
        for stock in stocks:
            drawing.layers.add(stock.layer)
        _draw(drawing.modelspace(), chosen, stocks)
        out = io.StringIO()
        drawing.write(out)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = kept
    return out.getvalue()


def _stocks(chosen: Chosen) -> Iterator[Stock]:
    sheets = [sheet for sheet in chosen.sheets for _ in range(sheet.count)]
    bars = [bar for bar in chosen.bars for _ in range(bar.count)]
    yield from (_sheet(number, sheet) for number, sheet in enumerate(sheets, 1))
    yield from (_bar(number, bar, chosen.bar_face_mm) for number, bar in enumerate(bars, 1))


def _sheet(number: int, sheet: SheetCuts) -> Stock:
    pieces = tuple(
        Box(
            part.x_mm,
            part.y_mm,
            part.length_mm,
            part.width_mm,
            f"{part.mark} {part.length_mm} x {part.width_mm} mm".strip(),
        )
        for part in sheet.parts
    )
    title = f"Sheet {number}: {sheet.what}, kerf {sheet.kerf_mm} mm"
    return Stock(f"SHEET-{number:02d}", title, sheet.length_mm, sheet.width_mm, pieces)


def _bar(number: int, bar: BarCuts, face_mm: int) -> Stock:
    pieces = tuple(
        Box(
            piece.at_mm,
            0,
            piece.length_mm,
            face_mm,
            f"{piece.mark} {piece.name} {piece.length_mm} mm".strip(),
        )
        for piece in bar.pieces
    )
    title = f"Bar {number}: {bar.what}, kerf {bar.kerf_mm} mm"
    return Stock(f"BAR-{number:02d}", title, bar.stock_mm, face_mm, pieces)


def _draw(space: Modelspace, chosen: Chosen, stocks: tuple[Stock, ...]) -> None:
    """Draw all stock one above the other, the first on top."""
    notes = (
        f"{chosen.id}: finished sizes in mm; the kerf lies outside the pieces",
        "A plan, not an approval. Local codes and a licensed engineer come first.",
    )
    for line, note in enumerate(notes):
        _write(space, note, (0, GAP_MM + 2 * TEXT_MM * (len(notes) - line)), NOTES)
    top = 0
    for stock in stocks:
        low = top - stock.width_mm
        whole = Box(0, 0, stock.length_mm, stock.width_mm, "")
        _outline(space, whole, low, STOCK)
        _write(space, stock.title, (0, top + TEXT_MM), stock.layer)
        for piece in stock.pieces:
            _outline(space, piece, low, stock.layer)
            _label(space, piece, low, stock.layer)
        top = low - GAP_MM


def _outline(space: Modelspace, box: Box, low_mm: int, layer: str) -> None:
    left, right = box.x_mm, box.x_mm + box.length_mm
    bottom, top = low_mm + box.y_mm, low_mm + box.y_mm + box.width_mm
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def _label(space: Modelspace, box: Box, low_mm: int, layer: str) -> None:
    """Write along the longer side, small enough to stay inside."""
    from ezdxf.enums import TextEntityAlignment

    longer, shorter = max(box.length_mm, box.width_mm), min(box.length_mm, box.width_mm)
    text = _plain(box.label)
    height = min(TEXT_MM, shorter / 2, longer / len(text))  # a letter is narrower than high
    attributes: dict[str, Any] = {
        "layer": layer,
        "rotation": 90 if box.width_mm > box.length_mm else 0,
    }
    middle = box.x_mm + box.length_mm / 2, low_mm + box.y_mm + box.width_mm / 2
    written = space.add_text(text, height=height, dxfattribs=attributes)
    written.set_placement(middle, align=TextEntityAlignment.MIDDLE_CENTER)


def _write(space: Modelspace, text: str, at_mm: tuple[int, int], layer: str) -> None:
    space.add_text(_plain(text), height=TEXT_MM, dxfattribs={"layer": layer, "insert": at_mm})


def _plain(text: str) -> str:
    """Return text in one row: a line break would end a DXF value, ``%%`` and ``^`` begin codes."""
    return re.sub(r"[\x00-\x1f\x7f-\x9f\u2028\u2029^]|%%", " ", text)
