"""Where a wall stands: angle by bisection, positions by turning points, space by going along.

The board is a straight face that stands with its lower end on the kicker's top. Its pivot lies
`a` from the lip down the face and `n` behind it, at the beam's underside less the mount's drop.
"""

from __future__ import annotations

import math
from typing import Any

from ledger import Ledger
from shop import Shop, num

Doc = dict[str, Any]
Point = tuple[float, float]


def turned(along: float, behind: float, angle: float) -> Point:
    """Return a point of the board (up the face, behind it) as (ahead, up) from its lower end."""
    # The face runs up and forward; what lies behind it lies back and up.
    return (
        along * math.sin(angle) - behind * math.cos(angle),
        along * math.cos(angle) + behind * math.sin(angle),
    )


def angle_of(along: float, behind: float, rise: float) -> float:
    """Return the steepest angle at which the pivot is `rise` above the board's lower end."""
    low, high = math.atan2(behind, along), math.pi / 2
    if turned(along, behind, low)[1] < rise:
        return math.nan
    for _ in range(200):
        middle = (low + high) / 2
        if turned(along, behind, middle)[1] >= rise:
            low = middle
        else:
            high = middle
    return low


def across(room: Doc, width: float) -> tuple[float, float]:
    """Return the wall's place across the room."""
    start = {"left": 0.0, "right": room["width_mm"] - width}.get(
        room["wall"]["align"], (room["width_mm"] - width) / 2
    )
    return start, start + width


def apart(first: list[Point], second: list[Point]) -> bool:
    """Tell whether two convex shapes share no more than their edges (separating axes)."""
    for shape in (first, second):
        for (x0, z0), (x1, z1) in zip(shape, [*shape[1:], shape[0]], strict=True):
            normal = (z1 - z0, x0 - x1)
            if normal == (0.0, 0.0):
                continue
            spans = [
                [normal[0] * x + normal[1] * z for x, z in points] for points in (first, second)
            ]
            size = math.hypot(*normal)
            if max(spans[0]) <= min(spans[1]) + 1e-6 * size:
                return True
            if max(spans[1]) <= min(spans[0]) + 1e-6 * size:
                return True
    return False


def standing_rad(shop: Shop, document: Doc, design: Doc) -> tuple[float, float, float]:
    """Return the angle [rad], the pivot's height and its place along the floor run [mm]."""
    mount = shop.mounts[design["mount"]]
    beam = next(b for b in document["room"]["beams"] if b["name"] == design["beam"])
    height = min(beam["underside_mm"]) - num(mount, "drop_mm")
    along = design["board_mm"] - num(mount, "setback_mm")
    behind = num(mount, "behind_sheet_mm") + design["sheet_thickness_mm"]
    angle = angle_of(along, behind, height - design["kicker_mm"])
    return angle, height, turned(along, behind, angle)[0]


def place(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check where the wall stands and that it fits."""
    room, wish = document["room"], document["room"]["wall"]
    board, kicker = design["board_mm"], design["kicker_mm"]
    beam = next(b for b in room["beams"] if b["name"] == design["beam"])
    angle, height, pivot = standing_rad(shop, document, design)
    facing = 1 if design["facing"] == "+x" else -1
    foot = facing * beam["x_mm"] - pivot
    run, up = turned(board, 0.0, angle)
    lip = foot + run
    book.near("angle", design["angle_deg"], math.degrees(angle) - 0.0005, 0.000501)
    book.same("pivot height", design["pivot_height_mm"], height)
    book.near("floor run", design["floor_run_mm"], run, 0.5001)
    book.near("lip height", design["lip_height_mm"], kicker + up, 0.5001)
    book.near("foot", design["x_foot_mm"], facing * foot, 0.5001)
    book.near("lip", design["x_lip_mm"], facing * lip, 0.5001)
    book.same("climbable", design["climbable_mm"], board + kicker)
    sides = across(room, design["width_mm"])
    for stated, own in zip(design["y_mm"], sides, strict=True):
        book.near("place across the room", stated, own, 0.5001)
    book.near(
        "fall space", design["fall_space_mm"] + 0.5, fall(room, facing, sides, lip, kicker + up),
        0.5001,
    )  # fmt: skip
    low, high = wish["angle_deg"]
    book.true("angle outside the asked range", low <= design["angle_deg"] <= high)
    for key, value in (("kicker_mm", kicker), ("board_mm", board)):
        if wish[key] is not None:
            low, high = wish[key]
            book.true(f"{key} outside the range", low <= value <= high)
    book.true("less than the least width", design["width_mm"] >= wish["width_mm"][0])
    book.true("wider than allowed", design["width_mm"] <= wish["width_mm"][1])
    book.true("too little fall space", design["fall_space_mm"] >= wish["min_fall_space_mm"])
    book.true("lip above the ceiling", kicker + up <= room["ceiling_mm"])
    clear(book, room, design, (facing, angle, foot, sides))


def along(facing: int, solid: Doc) -> tuple[float, float]:
    first, second = (facing * x for x in solid["x_mm"])
    return min(first, second), max(first, second)


def fall(room: Doc, facing: int, sides: tuple[float, float], lip: float, height: float) -> float:
    """Return how far one may go ahead from under the lip until something stands there."""
    end = float(room["length_mm"]) if facing > 0 else 0.0
    free = [end - lip]
    for solid in room["solids"]:
        near, far = along(facing, solid)
        meets = solid["y_mm"][0] < sides[1] and sides[0] < solid["y_mm"][1]
        if meets and solid["z_mm"][0] < height and far > lip:
            free.append(max(0.0, near - lip))
    return min(free)


def clear(
    book: Ledger, room: Doc, design: Doc, stands: tuple[int, float, float, tuple[float, float]]
) -> None:
    """Check that wall, frame and the space under the board meet no solid, beam or room wall."""
    facing, angle, foot, sides = stands
    deep = design["sheet_thickness_mm"] + design["stud_mm"][1]
    kicker, board = design["kicker_mm"], design["board_mm"]

    def corner(up_face: float, behind: float) -> Point:
        ahead, up = turned(up_face, behind, angle)
        return foot + ahead, kicker + up

    frame = [corner(0, 0), corner(board, 0), corner(board, deep), corner(0, deep)]
    under = [(foot, 0.0), (corner(board, 0)[0], 0.0), corner(board, 0), (foot, float(kicker))]
    shapes = [frame, under]
    if kicker:
        shapes.append([(foot - deep, 0.0), (foot, 0.0), (foot, kicker), (foot - deep, kicker)])
    back = min(x for shape in shapes for x, _ in shape)
    book.true("frame beyond the room's wall", back >= (0 if facing > 0 else -room["length_mm"]))
    top = max(z for _, z in frame)
    book.true("frame through the ceiling", top <= room["ceiling_mm"] + 1e-6)
    for solid in room["solids"]:
        if solid["y_mm"][0] < sides[1] and sides[0] < solid["y_mm"][1]:
            (near, far), (low, high) = along(facing, solid), solid["z_mm"]
            box = [(near, low), (far, low), (far, high), (near, high)]
            for shape in shapes:
                book.true(f"stands in {solid['name']!r}", apart(shape, box))
    for beam in room["beams"]:
        half, low = beam["width_mm"] / 2, max(beam["underside_mm"])
        if beam["name"] == design["beam"]:
            low = min(beam["underside_mm"])
        middle = facing * beam["x_mm"]
        box = [(middle - half, low), (middle + half, low)]
        box += [(middle + half, 9e9), (middle - half, 9e9)]
        for shape in shapes:
            book.true(f"stands in the beam {beam['name']!r}", apart(shape, box))
