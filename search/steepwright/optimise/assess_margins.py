"""What is left over when one wall is bought, carried in and hung: margins, 0 or more is kept."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from steepwright.geometry import carry_limit_kg
from steepwright.geometry.access import NO_LIMIT_MM, bottlenecks, longest_mm, windows
from steepwright.optimise.access import bar_mass_kg, sheet_mass_kg
from steepwright.optimise.evaluate import Workshop, wall_margins
from steepwright.optimise.fit import EVERY_LIFT
from steepwright.optimise.space import Space
from steepwright.optimise.wishes import REACHES
from steepwright.optimise.words import up_to_tenth
from steepwright.pricing.wall import Wall, columns_of, rows_of

CARRY, VEHICLE = "access.max_carry_kg", "yard.vehicle_max_mm"
BAR = "bar of the frame"


@dataclass(frozen=True, slots=True)
class _Piece:
    """A largest piece of its kind: sides [mm], longest first, and mass [kg]."""

    long_mm: int
    short_mm: int
    thick_mm: int
    mass_kg: float
    is_sheet: bool
    kind: str

    def words(self, over: float) -> str:
        """Return by how much the piece is too large [mm], or too heavy [kg] if it says so."""
        return f"a {self.kind} of {self.long_mm} x {self.short_mm} mm is {up_to_tenth(over)}"


def margins_of(shop: Workshop, wall: Wall) -> dict[str, float]:
    """Return every margin of one wall, of room, way in, vehicle and mounts, by name."""
    fitting = wall_margins(shop, wall, lift_broken=EVERY_LIFT)
    return {
        name: round(by, 2) for name, by in fitting.items() if name != REACHES and math.isfinite(by)
    } | own_margins(shop.space, wall)


def own_margins(space: Space, wall: Wall) -> dict[str, float]:
    """Return the margins [mm, kg, studs] of the way in, the vehicle and the mounts, by name.

    A narrow place that limits nothing has no margin. A board that can't be divided raises
    ValueError where it is first worked with, so it is not looked for here.
    """
    margins = {"a stud for every mount": float(wall.stud_count - wall.mount_count)}
    tight = {name: margin for name, (margin, _) in _tightest(space, wall)}
    carry = tight.pop(CARRY)
    margins |= {name: margin for name, margin in tight.items() if name != VEHICLE}
    wished = space.market.room.wall.min_width_spans
    if wished:
        least = wished * space.market.room.climber.span_mm
        margins["wall.min_width_spans"] = round(wall.width_mm - least, 2)
    margins[CARRY] = carry
    return margins | {name: tight[name] for name in (VEHICLE,) if name in tight}


def stuck_pieces(space: Space, wall: Wall) -> dict[str, str]:
    """Return in words the piece that doesn't get in, by the margin that it breaks."""
    return {
        name: f"{piece.words(-margin)} {'kg too heavy' if name == CARRY else 'mm too large'}"
        for name, (margin, piece) in _tightest(space, wall)
        if margin < 0
    }


def _tightest(space: Space, wall: Wall) -> Iterator[tuple[str, tuple[float, _Piece]]]:
    """Yield what limits pieces, with the least margin and the piece that has it."""
    pieces = _pieces(space, wall)
    access, factors = space.market.room.access, space.market.catalog.materials.factors
    by_window = windows(access)
    for place in bottlenecks(access):
        name = "access.max_piece_mm" if "known to pass" in place.name else place.name
        ways = (place.passes, *by_window)
        longest = [max(longest_mm(w, p.short_mm, p.thick_mm) for w in ways) for p in pieces]
        limits = [
            (float(most - piece.long_mm), piece)
            for most, piece in zip(longest, pieces, strict=True)
            if most < NO_LIMIT_MM
        ]
        if limits:
            yield name, min(limits, key=lambda limit: limit[0])
    heaviest = max(pieces, key=lambda piece: piece.mass_kg)
    yield CARRY, (round(carry_limit_kg(access, factors) - heaviest.mass_kg, 2), heaviest)
    vehicle = space.market.room.yard.vehicle_max_mm
    if vehicle is not None and not wall.delivered:
        over = [
            (float(min(max(vehicle) - p.long_mm, min(vehicle) - p.short_mm)), p)
            for p in pieces
            if p.is_sheet
        ]
        yield VEHICLE, min(over, key=lambda limit: limit[0])


def _pieces(space: Space, wall: Wall) -> list[_Piece]:
    market = space.market
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    rows = rows_of(wall.split, wall.board_mm, market.limits)
    assert columns is not None
    assert rows is not None
    sheets = [(wall.sheet, max(rows), max(columns), "board piece")]
    if wall.kicker_mm:
        sheets.append((wall.kicker_sheet, max(columns), wall.kicker_mm, "kicker piece"))
    pieces = []
    for family, length, width, kind in sheets:
        mass = sheet_mass_kg(space, market.families.index(family), length, width)
        long, short = max(length, width), min(length, width)
        pieces.append(_Piece(long, short, family.thickness_mm, mass, is_sheet=True, kind=kind))
    bar, section = wall.section, market.sections.index(wall.section)
    longest = max(wall.board_mm - 2 * bar.width_mm, wall.width_mm)
    mass = bar_mass_kg(space, section, longest)
    pieces.append(_Piece(longest, bar.depth_mm, bar.width_mm, mass, is_sheet=False, kind=BAR))
    return pieces
