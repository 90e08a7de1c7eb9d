"""What is left over when one wall is bought, carried in and hung: margins, 0 or more is kept."""

from __future__ import annotations

from dataclasses import dataclass

from steepwright.geometry import carry_limit_kg
from steepwright.geometry.access import NO_LIMIT_MM, bottlenecks, longest_mm, windows
from steepwright.optimise.access import bar_mass_kg, sheet_mass_kg
from steepwright.optimise.space import Space
from steepwright.pricing.wall import Wall, columns_of, rows_of


@dataclass(frozen=True, slots=True)
class _Piece:
    """A largest piece of its kind: sides [mm], longest first, and mass [kg]."""

    long_mm: int
    short_mm: int
    thick_mm: int
    mass_kg: float
    is_sheet: bool


def own_margins(space: Space, wall: Wall) -> dict[str, float]:
    """Return the margins [mm, kg, studs] of the way in, the vehicle and the mounts, by name.

    A narrow place that limits nothing has no margin. A board that can't be divided raises
    ValueError where it is first worked with, so it is not looked for here.
    """
    pieces = _pieces(space, wall)
    access, factors = space.market.room.access, space.market.catalog.materials.factors
    margins = {"a stud for every mount": float(wall.stud_count - wall.mount_count)}
    by_window = windows(access)
    for place in bottlenecks(access):
        name = "access.max_piece_mm" if "known to pass" in place.name else place.name
        ways = (place.passes, *by_window)
        longest = [max(longest_mm(w, p.short_mm, p.thick_mm) for w in ways) for p in pieces]
        limits = [
            most - piece.long_mm
            for most, piece in zip(longest, pieces, strict=True)
            if most < NO_LIMIT_MM
        ]
        if limits:
            margins[name] = float(min(limits))
    wished = space.market.room.wall.min_width_spans
    if wished:
        least = wished * space.market.room.climber.span_mm
        margins["wall.min_width_spans"] = round(wall.width_mm - least, 2)
    heaviest = max(piece.mass_kg for piece in pieces)
    margins["access.max_carry_kg"] = round(carry_limit_kg(access, factors) - heaviest, 2)
    vehicle = space.market.room.yard.vehicle_max_mm
    if vehicle is not None and not wall.delivered:
        over = [
            min(max(vehicle) - piece.long_mm, min(vehicle) - piece.short_mm)
            for piece in pieces
            if piece.is_sheet
        ]
        margins["yard.vehicle_max_mm"] = float(min(over))
    return margins


def _pieces(space: Space, wall: Wall) -> list[_Piece]:
    market = space.market
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    rows = rows_of(wall.split, wall.board_mm, market.limits)
    assert columns is not None
    assert rows is not None
    sheets = [(wall.sheet, max(rows), max(columns))]
    if wall.kicker_mm:
        sheets.append((wall.kicker_sheet, max(columns), wall.kicker_mm))
    pieces = []
    for family, length, width in sheets:
        mass = sheet_mass_kg(space, market.families.index(family), length, width)
        long, short = max(length, width), min(length, width)
        pieces.append(_Piece(long, short, family.thickness_mm, mass, is_sheet=True))
    bar, section = wall.section, market.sections.index(wall.section)
    longest = max(wall.board_mm - 2 * bar.width_mm, wall.width_mm)
    mass = bar_mass_kg(space, section, longest)
    pieces.append(_Piece(longest, bar.depth_mm, bar.width_mm, mass, is_sheet=False))
    return pieces
