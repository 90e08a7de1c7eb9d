"""Cut plans as the shop reads them: every sheet and bar once, equal ones counted."""

from __future__ import annotations

import string
from dataclasses import dataclass
from typing import Any

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Part:
    """A piece on a sheet: its mark, name, lower left corner and size as laid [mm].

    `up` is the sheet's axis that will point up the wall, for pieces of the board; empty for the
    kicker's, and for a square, which may be turned as its grain allows.
    """

    mark: str
    name: str
    x_mm: int
    y_mm: int
    length_mm: int
    width_mm: int
    up: str


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut in the saw's order.

    The fence is set to `distance_mm` from the block's near edge; the kerf begins at `at_mm`
    and the blade runs through `along_mm` of the other axis. `across` cuts run square to the
    sheet's longer side, whichever its list names first; the others run along it. `home` cuts are
    not made by the shop.
    """

    axis: str
    distance_mm: int
    at_mm: int
    along_mm: Range
    block_mm: Range
    across: bool
    home: bool = False


@dataclass(frozen=True, slots=True)
class SheetCuts:
    """One way to cut a sheet, `count` times; `used` is the share that ends up in the wall."""

    sku: str
    what: str
    count: int
    length_mm: int
    width_mm: int
    kerf_mm: int
    used: float
    parts: tuple[Part, ...]
    cuts: tuple[Cut, ...]


@dataclass(frozen=True, slots=True)
class BarPiece:
    """A piece of a bar: where it begins and how long it is [mm]."""

    mark: str
    name: str
    at_mm: int
    length_mm: int


@dataclass(frozen=True, slots=True)
class BarCuts:
    """One way to cut a bar, `count` times; `rest_mm` is left over."""

    sku: str
    what: str
    count: int
    stock_mm: int
    kerf_mm: int
    rest_mm: int
    pieces: tuple[BarPiece, ...]


@dataclass(frozen=True, slots=True)
class Marks:
    """Letters for sheet pieces, numbers for timber, so that a plan fits on the piece itself.

    `board_up_mm` gives for the board's pieces, by name, the side that runs up the slope [mm].
    """

    sheet: dict[tuple[str, int, int], str]
    timber: dict[tuple[str, int], str]
    board_up_mm: dict[str, int]


def marks_of(design: dict[str, Any]) -> Marks:
    """Give every kind of piece its mark, in the order of the document's list of pieces."""
    sheet: dict[tuple[str, int, int], str] = {}
    timber: dict[tuple[str, int], str] = {}
    for piece in design["pieces"]:
        if piece["kind"] == "sheet":
            sheet.setdefault(_sides(piece), _letter(len(sheet)))
        else:
            timber.setdefault((piece["name"], piece["length_mm"]), str(len(timber) + 1))
    return Marks(sheet, timber, _board_up_mm(design))


def _board_up_mm(design: dict[str, Any]) -> dict[str, int]:
    """Return a row's length for its pieces: the list of pieces has the longer side first."""
    return {
        f"board {up} x {across}": up
        for up in design["row_lengths_mm"]
        for across in design["column_widths_mm"]
    }


def mark_of(marks: Marks, piece: dict[str, Any]) -> str:
    """Return the mark of one row of the document's list of pieces."""
    if piece["kind"] == "sheet":
        return marks.sheet[_sides(piece)]
    return marks.timber[piece["name"], piece["length_mm"]]


def sheet_cuts(design: dict[str, Any], marks: Marks) -> tuple[SheetCuts, ...]:
    """Return the design's sheets, the first of each equal group with its count."""
    named = _names(design)
    return tuple(
        SheetCuts(
            sku=sheet["sku"],
            what=named.get(sheet["sku"], sheet["sku"]),
            count=count,
            length_mm=sheet["length_mm"],
            width_mm=sheet["width_mm"],
            kerf_mm=sheet["kerf_mm"],
            used=_used(sheet),
            parts=tuple(_part(part, marks) for part in sheet["parts"]),
            cuts=tuple(_cut(cut, _longer(sheet)) for cut in sheet["cuts"]),
        )
        for sheet, count in _grouped(design["cut_plan"]["sheets"])
    )


def bar_cuts(design: dict[str, Any], marks: Marks) -> tuple[BarCuts, ...]:
    """Return the bars of wall and freestanding frame, the first of each equal group counted."""
    named, plan = _names(design), design["cut_plan"]
    return tuple(
        BarCuts(
            sku=bar["sku"],
            what=named.get(bar["sku"], bar["sku"]),
            count=count,
            stock_mm=bar["stock_mm"],
            kerf_mm=bar["kerf_mm"],
            rest_mm=_rest(bar),
            pieces=_pieces(bar, marks),
        )
        for bar, count in _grouped([*plan["timber"], *plan.get("stand", ())])
    )


def _letter(index: int) -> str:
    letters = string.ascii_uppercase
    first, last = divmod(index, len(letters))
    return (letters[first - 1] if first else "") + letters[last]


def _sides(piece: dict[str, Any]) -> tuple[str, int, int]:
    sides = piece["length_mm"], piece["width_mm"]
    return piece["name"], max(sides), min(sides)


def _names(design: dict[str, Any]) -> dict[str, str]:
    return {line["sku"]: line["what"] for line in design["bill"]}


def _grouped(layouts: list[dict[str, Any]]) -> list[tuple[dict[str, Any], int]]:
    groups: list[tuple[dict[str, Any], int]] = []
    for layout in layouts:
        for index, (first, count) in enumerate(groups):
            if first == layout:
                groups[index] = (first, count + 1)
                break
        else:
            groups.append((layout, 1))
    return groups


def _used(sheet: dict[str, Any]) -> float:
    area = sum(part["length_mm"] * part["width_mm"] for part in sheet["parts"])
    return round(float(area) / float(sheet["length_mm"] * sheet["width_mm"]), 3)


def _part(part: dict[str, Any], marks: Marks) -> Part:
    name, length, width = part["name"], part["length_mm"], part["width_mm"]
    mark = marks.sheet.get(_sides(part), "")
    up = "" if length == width else {length: "x", width: "y"}.get(marks.board_up_mm.get(name), "")
    return Part(mark, name, part["x_mm"], part["y_mm"], length, width, up)


def _longer(sheet: dict[str, Any]) -> str:
    return "x" if sheet["length_mm"] >= sheet["width_mm"] else "y"


def _cut(cut: dict[str, Any], longer: str) -> Cut:
    sides = cut["x_mm"], cut["y_mm"]
    block, along = sides if cut["axis"] == "x" else sides[::-1]
    return Cut(
        axis=cut["axis"],
        distance_mm=cut["at_mm"] - block[0],
        at_mm=cut["at_mm"],
        along_mm=(along[0], along[1]),
        block_mm=(block[0], block[1]),
        across=cut["axis"] == longer,
        home=cut.get("by") == "home",
    )


def _pieces(bar: dict[str, Any], marks: Marks) -> tuple[BarPiece, ...]:
    at, pieces = 0, []
    for name, length in zip(bar["pieces"], bar["pieces_mm"], strict=True):
        pieces.append(BarPiece(marks.timber.get((name, length), ""), name, at, length))
        at += length + bar["kerf_mm"]
    return tuple(pieces)


def _rest(bar: dict[str, Any]) -> int:
    """Return what lies behind the last cut [mm]; nothing when the pieces fill the bar."""
    used = sum(bar["pieces_mm"]) + bar["kerf_mm"] * len(bar["pieces_mm"])
    return max(0, int(bar["stock_mm"]) - int(used))
