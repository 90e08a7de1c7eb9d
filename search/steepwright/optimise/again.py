"""Walls of an earlier search looked at again: at today's prices, in a room that may have changed.

Where only prices change most of the old walls still fit and hold, and the new front lies close to
them: told of them, a search drops nearly everything else at its first bound. Nothing is believed
of what the old document says: each wall is settled anew like any other. So a document that is out
of date, or damaged, costs time and can't change the answer.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from steepwright.optimise.bounds import Rates
from steepwright.optimise.branch import Branch, root_entries
from steepwright.optimise.entries import Entries
from steepwright.optimise.front import Front
from steepwright.optimise.model import Model
from steepwright.optimise.units import Harvest, rank_of

Design = Mapping[str, Any]


def same_walls(model: Model, rates: Rates, designs: Sequence[Design]) -> Harvest:
    """Return those of some designs that the model has too and no other of them beats.

    Parameters
    ----------
    designs
        As a search's document has them; what isn't such a design is passed over.
    """
    branch = Branch(model, rates, Front(rank_of))
    names = _names(model)
    for place in range(len(model.space.places)):
        here = [design for design in designs if _is(design, names["place"][place], _PLACE)]
        roots = root_entries(model, place) if here else None
        if roots is not None:
            for entries in (_entries(model, names, roots, design) for design in here):
                if len(entries):
                    branch.settle_points(entries)
    return Harvest(tuple(branch.front.sorted()), branch.tally)


_PLACE = ("beam", "facing")
_SHEETING = ("sheet_kind", "sheet_thickness_mm", "grain", "columns", "rows", "stud_count")


def _names(model: Model) -> dict[str, list[tuple[Any, ...]]]:
    """Return what tells the choices apart in a document, by their number."""
    space = model.space
    market = space.market
    families = [market.families[made.family] for made in space.sheetings]
    return {
        "place": [(market.room.beams[beam].name, facing) for beam, facing in space.places],
        "mount": [(mount.name,) for mount in market.catalog.mounts],
        "section": [(section.label,) for section in market.sections],
        "sheeting": [
            (f.kind, f.thickness_mm, s.grain, s.split.columns, s.split.rows, s.studs)
            for f, s in zip(families, space.sheetings, strict=True)
        ],
    }


def _entries(
    model: Model, names: dict[str, list[tuple[Any, ...]]], roots: Entries, design: Design
) -> Entries:
    """Return every choice that a design may stand for, at its lengths; none off the grid."""
    lengths = design.get("board_mm"), design.get("kicker_mm")
    boards, kickers = model.space.boards_mm.tolist(), model.space.kickers_mm.tolist()
    if lengths[0] not in boards or lengths[1] not in kickers:
        return roots.take(np.zeros(0, dtype=np.int64))
    same = {
        "mount": _those(names["mount"], design, ("mount",)),
        "section": _those(names["section"], design, ("stud",)),
        "sheeting": _those(names["sheeting"], design, _SHEETING),
    }
    kept = roots.delivered == int(design.get("delivered") is True)
    for choice, numbers in same.items():
        kept &= np.isin(getattr(roots, choice), numbers)
    entries = roots.take(kept)
    row, column = boards.index(lengths[0]), kickers.index(lengths[1])
    return entries.at(np.full(len(entries), row), np.full(len(entries), column))


def _those(names: list[tuple[Any, ...]], design: Design, keys: tuple[str, ...]) -> list[int]:
    return [number for number, name in enumerate(names) if _is(design, name, keys)]


def _is(design: Design, name: tuple[Any, ...], keys: tuple[str, ...]) -> bool:
    return isinstance(design, Mapping) and name == tuple(design.get(key) for key in keys)
