"""From the checked tables of a room file to the frozen records that the package reads."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from steepwright.findings import Finding
from steepwright.room import schema, types
from steepwright.room.rows import Row, places_mm, row_names


def build_room(tables: schema.RoomFile, file: str, findings: tuple[Finding, ...]) -> types.Room:
    """Return the room's records; `findings` are the assumptions and warnings to keep."""
    return types.Room(
        **_plain(tables.room),
        beams=(
            *(_beam(beam) for beam in tables.beams),
            *(joist for row in tables.joists for joist in _joists(row, tables.room.ceiling_mm)),
            *(place for row in tables.slabs for place in _slab(row, tables.room)),
            *(place for row in tables.frames for place in _frame(row)),
            *(place for row in tables.ledgers for place in _ledger(row, tables.room)),
            *(place for row in tables.spreaders for place in _spreader(row, tables.room)),
        ),
        solids=tuple(types.Solid(**_plain(solid)) for solid in tables.solids),
        access=_access(tables.access),
        climber=types.Climber(**_plain(tables.climber)),
        wall=types.WallRange(**_plain(tables.wall)),
        yard=_yard(tables.yard),
        pads=tuple(types.OwnPad(**_plain(pad)) for pad in tables.pads),
        tie_beam=_tie_beam(tables),
        file=file,
        findings=findings,
    )


def _tie_beam(tables: schema.RoomFile) -> int | None:
    if tables.tie_back is None:
        return None
    return [beam.name for beam in tables.beams].index(tables.tie_back.beam)


def _plain(table: BaseModel) -> dict[str, Any]:
    """Return a table's values by key, with lists made into tuples."""
    values = {key: getattr(table, key) for key in type(table).model_fields}
    return {key: tuple(v) if isinstance(v, list) else v for key, v in values.items()}


def known_grade(grade: str | None) -> str | None:
    """Return a strength class as written, or None when it says that nobody knows."""
    return None if grade is None or grade.lower() in ("unknown", "?") else grade


def _beam(table: schema.BeamTable) -> types.Beam:
    return types.Beam(**_plain(table) | {"grade": known_grade(table.grade)})


def _places(table: Row, **same: Any) -> Iterator[types.Beam]:
    """Yield the places of a row: they differ in name and place alone."""
    for name, x_mm in zip(row_names(table), places_mm(table), strict=True):
        yield types.Beam(name=name, x_mm=x_mm, **same)


def _level(underside_mm: int) -> tuple[int, int]:
    return underside_mm, underside_mm


def _joists(table: schema.JoistsTable, ceiling_mm: int) -> Iterator[types.Beam]:
    return _places(
        table,
        underside_mm=_level(ceiling_mm),
        width_mm=table.width_mm,
        depth_mm=table.depth_mm,
        span_mm=table.span_mm,
        grade=known_grade(table.grade),
        existing_load_n_per_m=table.existing_load_n_per_m,
        kind="joist",
        lining_mm=table.lining_mm,
        found=table.found,
    )


def _slab(table: schema.SlabTable, room: schema.RoomTable) -> Iterator[types.Beam]:
    return _places(
        table,
        underside_mm=_level(room.ceiling_mm),
        width_mm=1,
        depth_mm=table.thickness_mm,
        span_mm=room.width_mm,
        grade=None,
        existing_load_n_per_m=None,
        kind="slab",
        anchor_rated_n=table.anchor_rated_n,
        anchor_least_mm=table.anchor_least_mm,
    )


def _frame(table: schema.FrameTable) -> Iterator[types.Beam]:
    stand = types.Stand(
        post_mm=table.post_mm,
        brace_mm=table.brace_mm,
        brace_up_mm=table.brace_up_mm,
        foot_mm=table.foot_mm,
        floor_rated_n=table.floor_rated_n,
        owned=table.owned,
    )
    return _places(
        table,
        underside_mm=_level(table.underside_mm),
        width_mm=table.width_mm,
        depth_mm=table.depth_mm,
        span_mm=table.span_mm,
        grade=known_grade(table.grade),
        existing_load_n_per_m=0.0,
        kind="frame",
        stand=stand,
    )


def _ledger(table: schema.LedgerTable, room: schema.RoomTable) -> Iterator[types.Beam]:
    ledger = types.Ledger(
        section_mm=table.ledger_mm,
        wall="masonry" if table.wall == "masonry" else "studs",
        fixings=table.fixings,
        apart_mm=table.fixing_mm,
        stud_mm=table.stud_width_mm,
        screws=table.screws_per_stud,
        rated_n=table.anchor_rated_n,
        owned=table.owned,
    )
    return _places(
        table,
        underside_mm=_level(table.underside_mm),
        width_mm=table.width_mm,
        depth_mm=table.depth_mm,
        span_mm=room.width_mm,
        grade=known_grade(table.grade),
        existing_load_n_per_m=0.0,
        kind="ledger",
        ledger=ledger,
    )


def _spreader(table: schema.SpreaderTable, room: schema.RoomTable) -> Iterator[types.Beam]:
    spreader = types.Spreader(
        joists_mm=tuple(
            table.joist_first_mm + n * table.joist_spacing_mm for n in range(table.joist_count)
        ),
        joist_mm=table.joist_mm,
        apart_mm=table.joist_spacing_mm,
        span_mm=table.joist_span_mm,
        grade=known_grade(table.joist_grade),
        load_n_per_m=table.joist_load_n_per_m,
        screw_mm=table.screw_mm,
        lining_mm=table.lining_mm,
        found=table.found,
        owned=table.owned,
        held=table.joist_held,
    )
    return _places(
        table,
        underside_mm=_level(room.ceiling_mm - table.depth_mm),
        width_mm=table.width_mm,
        depth_mm=table.depth_mm,
        span_mm=table.joist_spacing_mm,
        grade=known_grade(table.grade),
        existing_load_n_per_m=0.0,
        kind="spreader",
        spreader=spreader,
    )


def _access(table: schema.AccessTable) -> types.Access:
    return types.Access(
        **_plain(table)
        | {
            key: tuple(record(**_plain(row)) for row in getattr(table, key))
            for key, record in _WAYS.items()
        }
    )


_WAYS = {
    "corridors": types.Corridor,
    "doors": types.Door,
    "stairs": types.Stair,
    "landings": types.Landing,
    "lifts": types.Lift,
    "windows": types.Window,
}


def _yard(table: schema.YardTable) -> types.Yard:
    values = _plain(table)
    values["offcuts"] = tuple(_offcut(offcut) for offcut in table.offcuts)
    values["cut_price_cents"] = values.pop("cut_price")
    values["delivery_price_cents"] = values.pop("delivery_price")
    return types.Yard(**values)


def _offcut(table: schema.OffcutTable) -> types.Offcut:
    values = _plain(table)
    values["price_cents"] = values.pop("price")
    return types.Offcut(**values)
