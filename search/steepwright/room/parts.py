"""The parts of a room file that are right by themselves, even when others are not.

Cross checks read these, so that one bad key does not hide a second problem elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from steepwright.room import schema
from steepwright.room.lines import KeyPath

Model = TypeVar("Model", bound=BaseModel)


@dataclass(frozen=True, slots=True)
class Parts:
    """Each table that passed its own checks; lists keep the place [from 0] of each entry."""

    room: schema.RoomTable | None
    beams: tuple[tuple[int, schema.BeamTable], ...]
    joists: tuple[tuple[int, schema.JoistsTable], ...]
    slabs: tuple[tuple[int, schema.SlabTable], ...]
    frames: tuple[tuple[int, schema.FrameTable], ...]
    ledgers: tuple[tuple[int, schema.LedgerTable], ...]
    spreaders: tuple[tuple[int, schema.SpreaderTable], ...]
    solids: tuple[tuple[int, schema.SolidTable], ...]
    access: schema.AccessTable | None
    climber: schema.ClimberTable | None
    wall: schema.WallTable | None
    yard: schema.YardTable | None
    pads: tuple[tuple[int, schema.PadTable], ...]
    tie_back: schema.TieBackTable | None


def good_parts(data: dict[str, Any]) -> Parts:
    """Return what can be used of a room file's data."""
    return Parts(
        room=_table(schema.RoomTable, data.get("room")),
        beams=_tables(schema.BeamTable, data.get("beams")),
        joists=_tables(schema.JoistsTable, data.get("joists")),
        slabs=_tables(schema.SlabTable, data.get("slabs")),
        frames=_tables(schema.FrameTable, data.get("frames")),
        ledgers=_tables(schema.LedgerTable, data.get("ledgers")),
        spreaders=_tables(schema.SpreaderTable, data.get("spreaders")),
        solids=_tables(schema.SolidTable, data.get("solids")),
        access=_table(schema.AccessTable, data.get("access", {})),
        climber=_table(schema.ClimberTable, data.get("climber", {})),
        wall=_table(schema.WallTable, data.get("wall")),
        yard=_table(schema.YardTable, data.get("yard", {})),
        pads=_tables(schema.PadTable, data.get("pads")),
        tie_back=_table(schema.TieBackTable, data.get("tie_back")),
    )


def is_written(data: dict[str, Any], path: KeyPath) -> bool:
    """Tell whether the builder wrote this key."""
    here: Any = data
    for part in path:
        if isinstance(here, dict):
            if part not in here:
                return False
            here = here[str(part)]
        elif isinstance(here, list) and isinstance(part, int) and part < len(here):
            here = here[part]
        else:
            return False
    return True


def _table(model: type[Model], value: Any) -> Model | None:
    try:
        return model.model_validate(value)
    except ValidationError:
        return None


def _tables(model: type[Model], value: Any) -> tuple[tuple[int, Model], ...]:
    rows = value if isinstance(value, list) else []
    checked = ((place, _table(model, row)) for place, row in enumerate(rows))
    return tuple((place, table) for place, table in checked if table is not None)
