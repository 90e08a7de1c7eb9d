"""Carries out cut plans, cut by cut, and tells every fault; integers only."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

Document = dict[str, Any]

Block = tuple[int, int, int, int]
"""Left, right, lower and upper edge [mm]."""

Need = tuple[int, int, str]
"""Length and width [mm] of a piece and the side its face grain must run along, or ``any``."""


def sheet_faults(
    sheets: list[Document], parts: list[Need], stock: dict[str, Document], kerf_mm: int
) -> Iterator[str]:
    """Yield what is wrong with sheets that are to yield just these parts.

    Every cut runs from edge to edge of a block that is there, and takes one kerf; the parts are
    blocks in the end, with their face grain as asked; there are as many sheets as are used.
    """
    laid: Counter[tuple[int, int]] = Counter()
    for number, sheet in enumerate(sheets, 1):
        row = stock[sheet["sku"]]
        where = f"sheet {number} ({sheet['sku']})"
        size = row["length_mm"], row["width_mm"]
        if (sheet["length_mm"], sheet["width_mm"]) != size or sheet["kerf_mm"] != kerf_mm:
            yield f"{where} is not drawn as the stock and the saw are"
        blocks: Counter[Block] = Counter([(0, size[0], 0, size[1])])
        for cut in sheet["cuts"]:
            if not _sawn(blocks, cut, kerf_mm):
                yield f"{where}: the cut at {cut['axis']} = {cut['at_mm']} parts no block"
        for part in sheet["parts"]:
            x, y, length, width = (part[k] for k in ("x_mm", "y_mm", "length_mm", "width_mm"))
            block = x, x + length, y, y + width
            if blocks[block] < 1:
                yield f"{where}: {part['name']} is not a block that the cuts leave"
            blocks[block] -= 1
            laid[(length, width) if row["face_grain"] == "length" else (width, length)] += 1
    used = Counter(sheet["sku"] for sheet in sheets)
    for sku, times in used.items():
        limit = stock[sku]["limit"]
        if limit is not None and times > limit:
            yield f"{times} of {sku} are used, there are {limit}"
    yield from _left_over(laid, parts)


def _sawn(blocks: Counter[Block], cut: Document, kerf_mm: int) -> bool:
    block = *cut["x_mm"], *cut["y_mm"]
    left, right, low, high = block
    start, end = (left, right) if cut["axis"] == "x" else (low, high)
    at = cut["at_mm"]
    if blocks[block] < 1 or not start < at < end:
        return False
    blocks[block] -= 1
    if cut["axis"] == "x":
        halves = [(left, at, low, high), (at + kerf_mm, right, low, high)]
    else:
        halves = [(left, right, low, at), (left, right, at + kerf_mm, high)]
    blocks.update(halves if at + kerf_mm < end else halves[:1])
    return True


def _left_over(laid: Counter[tuple[int, int]], parts: list[Need]) -> Iterator[str]:
    """Compare what is laid, by size along and across the face grain, with what is asked for."""
    rest = Counter(laid)
    for length, width, grain in sorted(parts, key=lambda p: p[2] == "any"):
        ways = [(width, length)] if grain == "width" else [(length, width)]
        if grain == "any":
            ways.append((width, length))
        way = next((w for w in ways if rest[w] > 0), None)
        if way is None:
            yield f"a piece of {length} x {width} mm (face grain: {grain}) is missing"
        else:
            rest[way] -= 1
    for (along, across), count in rest.items():
        if count > 0:
            yield f"{count} pieces of {along} x {across} mm are not asked for"


def bar_faults(
    bars: list[Document], pieces: Counter[int], stock: dict[str, Document], kerf_mm: int
) -> Iterator[str]:
    """Yield what is wrong with bars that are to yield just these lengths."""
    cut: Counter[int] = Counter()
    for number, bar in enumerate(bars, 1):
        row = stock.get(bar["sku"])
        where = f"bar {number} ({bar['sku']})"
        if row is None or row["length_mm"] != bar["stock_mm"] or bar["kerf_mm"] != kerf_mm:
            yield f"{where} is not drawn as the stock and the saw are"
            continue
        lengths = bar["pieces_mm"]
        if sum(lengths) + kerf_mm * (len(lengths) - 1) > row["length_mm"]:
            yield f"{where} is too short for {lengths}"
        cut.update(lengths)
    for sku, times in Counter(bar["sku"] for bar in bars).items():
        limit = stock[sku]["limit"] if sku in stock else None
        if limit is not None and times > limit:
            yield f"{times} of {sku} are used, there are {limit}"
    if cut != pieces:
        yield f"the bars yield {dict(cut)}, needed are {dict(pieces)}"
