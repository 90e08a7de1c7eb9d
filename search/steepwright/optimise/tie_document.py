"""How a wall's studs are tied back, as plain data."""

from __future__ import annotations

import math
from typing import Any

from steepwright.optimise.space import Space
from steepwright.optimise.standing import Standing
from steepwright.optimise.tie import tie_ends, tie_line
from steepwright.pricing.wall import Wall

Document = dict[str, Any]


def tie_document(space: Space, walls: Standing, wall: Wall) -> Document:
    """Return the entry ``tie_back`` of one wall's document; nothing for a wall without ties.

    `at_mm` is how far up the board a tie begins, `from_mm` and `to_mm` are its ends, each as
    distance along the room and height, and `lean_deg` is its angle to the board's normal.
    """
    if wall.tie is None:
        return {}
    ends = tie_ends(space, walls, wall.tie_place)
    line = tie_line(space, walls, wall.tie_place)
    found: Document = {
        "sku": wall.tie.sku,
        "what": wall.tie.name,
        "count": wall.stud_count,
        "at_mm": wall.board_mm // 2 if wall.tie_at_mm is None else wall.tie_at_mm,
    }
    if ends is not None:
        beam = space.market.room.tie_beam
        assert beam is not None
        found |= {
            "beam": space.market.room.beams[beam].name,
            "from_mm": [round(float(ends.x_mm[0])), round(float(ends.z_mm[0]))],
            "to_mm": [round(ends.beam_x_mm), round(ends.beam_z_mm)],
            "length_mm": round(
                math.dist(
                    (float(ends.x_mm[0]), float(ends.z_mm[0])), (ends.beam_x_mm, ends.beam_z_mm)
                )
            ),
            "lean_deg": round(math.degrees(math.acos(float(line.cos[0]))), 1),
        }
    return {"tie_back": found}
