"""The wall seen square to its face, kicker and board laid out in one plane, in mm.

y runs across the wall from its left edge as the climber sees it, v up the surface from the floor:
the kicker first, then the board.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import Any

from steepwright.report.words import Document

Rect = tuple[int, int, int, int]
"""y, v of the lower left corner; width; height [mm]."""


@dataclass(frozen=True, slots=True)
class HoldGrid:
    """Where holds can go: at every crossing of `y_mm` and `v_mm` but those left out.

    `blocked` and `absent` are pairs of indices (into `y_mm`, into `v_mm`): a bar lies behind a
    blocked one; an absent one is no position at all.
    """

    y_mm: tuple[int, ...]
    v_mm: tuple[int, ...]
    blocked: tuple[tuple[int, int], ...]
    absent: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class FrontView:
    """Sheets, bars, holds and mounts of one wall.

    `hung_mm` tells for every mount how far its pivot hangs below the beam's underside there: the
    same for all under a level beam.
    """

    width_mm: int
    kicker_mm: int
    board_mm: int
    panels: tuple[Rect, ...]
    bars: tuple[Rect, ...]
    seams_y_mm: tuple[int, ...]
    seams_v_mm: tuple[int, ...]
    stud_centres_mm: tuple[float, ...]
    mounts_y_mm: tuple[float, ...]
    hung_mm: tuple[int, ...]
    holds: HoldGrid


def front_view(document: Document, design: dict[str, Any]) -> FrontView:
    """Return the front view of one design."""
    kicker, columns = design["kicker_mm"], design["column_widths_mm"]
    edges_y = _edges(columns)
    edges_v = [kicker + v for v in _edges(design["row_lengths_mm"])]
    panels = [
        (y, v, width, height)
        for v, height in zip(edges_v, design["row_lengths_mm"], strict=False)
        for y, width in zip(edges_y, columns, strict=False)
    ]
    if kicker:
        panels += [(y, 0, width, kicker) for y, width in zip(edges_y, columns, strict=False)]
    return FrontView(
        width_mm=design["width_mm"],
        kicker_mm=kicker,
        board_mm=design["board_mm"],
        panels=tuple(panels),
        bars=tuple(_bars(design, edges_v[1:-1])),
        seams_y_mm=tuple(edges_y[1:-1]),
        seams_v_mm=tuple(edges_v[1:-1]),
        stud_centres_mm=tuple(design["stud_centres_mm"]),
        mounts_y_mm=tuple(design["mount_centres_mm"]),
        hung_mm=_hung(document["room"], design),
        holds=_grid(design["holds"], kicker),
    )


def _hung(room: dict[str, Any], design: dict[str, Any]) -> tuple[int, ...]:
    """Interpolate the beam's underside, given at y = 0 and at the room's far side."""
    beam = next(b for b in room["beams"] if b["name"] == design["beam"])
    near, far = beam["underside_mm"]
    # Looking against the facing direction, the climber has y = 0 on the left when facing +x.
    start, way = (design["y_mm"][0], 1) if design["facing"] == "+x" else (design["y_mm"][1], -1)
    at = [start + way * centre for centre in design["mount_centres_mm"]]
    under = [near + (far - near) * y / room["width_mm"] for y in at]
    return tuple(round(z - design["pivot_height_mm"]) for z in under)


def _edges(sizes_mm: list[int]) -> list[int]:
    edges = [0]
    for size in sizes_mm:
        edges.append(edges[-1] + size)
    return edges


def _bars(design: dict[str, Any], seams_v: list[int]) -> list[Rect]:
    """Return rails, studs, blocking and the kicker's frame as seen through the sheet."""
    b, width = design["stud_mm"][0], design["width_mm"]
    kicker, top = design["kicker_mm"], design["kicker_mm"] + design["board_mm"]
    lefts = [round(centre - b / 2) for centre in design["stud_centres_mm"]]
    bars = [(0, kicker, width, b), (0, top - b, width, b)]
    bars += [(left, kicker + b, b, design["board_mm"] - 2 * b) for left in lefts]
    if kicker:
        bars += [(0, 0, width, b), (0, kicker - b, width, b)]
        bars += [(left, b, b, kicker - 2 * b) for left in lefts]
    for seam in seams_v:
        between = itertools.pairwise(lefts)
        bars += [(left + b, round(seam - b / 2), right - left - b, b) for left, right in between]
    return bars


def _grid(holds: dict[str, Any], kicker_mm: int) -> HoldGrid:
    free = {tuple(point) for point in holds["free_mm"]}
    blocked = {tuple(point) for point in holds["blocked_mm"]}
    ys = sorted({y for y, _ in free | blocked})
    us = sorted({u for _, u in free | blocked})
    crossings = [(i, j, (y, u)) for i, y in enumerate(ys) for j, u in enumerate(us)]
    return HoldGrid(
        y_mm=tuple(ys),
        v_mm=tuple(u + kicker_mm for u in us),
        blocked=tuple((i, j) for i, j, point in crossings if point in blocked),
        absent=tuple((i, j) for i, j, point in crossings if point not in free | blocked),
    )
