"""Why no wall's pieces can be brought in: which narrow place binds, for which piece, how much."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from steepwright.geometry import carry_limit_kg
from steepwright.geometry.access import Bottleneck, bottlenecks, windows
from steepwright.geometry.ways import BoolArray, Sides
from steepwright.optimise.access import bar_mass_kg, board_pieces, longest_bar_mm, sheet_mass_kg
from steepwright.optimise.entries import Entries
from steepwright.optimise.model import Model
from steepwright.optimise.why_access_help import CARRY, GetsIn, Stuck, helping
from steepwright.optimise.words import up_to_tenth

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]

BAR = "a bar of the frame"
HALVINGS = 24


def accessible(model: Model, entries: Entries) -> Entries:
    """Return the families that get in somewhere, each at its flattest wall that does."""
    access, angle = model.access, model.reach.angle_mdeg[1]
    number, delivered = model.mounting(entries), entries.delivered == 1
    rows, columns = (
        np.stack([_prefix(table & fits), _prefix(table)], axis=1)
        for table, fits in (
            (access.board, access.board_in_vehicle),
            (access.kicker, access.kicker_in_vehicle),
        )
    )
    which = entries.sheeting, delivered.astype(np.int64)
    row_end = np.minimum(rows[which], _prefix(access.bars)[entries.section])
    keys, inverse = np.unique(
        np.stack([number, row_end, columns[which]]), axis=1, return_inverse=True
    )
    cells = np.array([_flattest(angle[n, :r, :c]) for n, r, c in keys.T.tolist()], dtype=np.int64)
    row, column = cells.reshape(-1, 2)[inverse.ravel()].T
    return entries.at(row, column).take(row >= 0)


def _prefix(table: BoolArray) -> IntArray:
    """Return how many leading cells of each row are true."""
    return np.asarray(np.logical_and.accumulate(table, axis=1).sum(axis=1), dtype=np.int64)


def _flattest(angle_mdeg: npt.NDArray[np.int32]) -> tuple[int, int]:
    there = np.where(angle_mdeg >= 0, angle_mdeg, np.iinfo(np.int32).max)
    if not there.size or not (angle_mdeg >= 0).any():
        return -1, -1
    row, column = np.unravel_index(int(there.argmin()), there.shape)
    return int(row), int(column)


@dataclass(frozen=True, slots=True)
class _Parts:
    """Pieces of one kind by length: sides [mm], mass [kg], and excess per constraint."""

    sides: tuple[IntArray, IntArray]
    over: dict[str, FloatArray]
    thick_mm: int
    kind: str

    def words(self, at: int) -> str:
        return f"{self.kind} of {int(self.sides[0][at])} x {int(self.sides[1][at])} mm"


_Told = tuple[Stuck, str]


def access_reason(model: Model, gets_in: GetsIn) -> str:
    """Return what binds, and by how much, for the walls that come nearest, and what would help."""
    alone: dict[str, _Told] = {}
    best: dict[str, _Told] = {}
    for parts, at in _walls(model):
        over = {
            name: np.max([part.over[name][i] for part, i in zip(parts, at, strict=True)], axis=0)
            for name in parts[0].over
        }
        for name, gap in over.items():
            others = [o <= 0 for other, o in over.items() if other != name]
            kept = np.logical_and.reduce(others) if others else np.ones(gap.shape, np.bool_)
            for found, mask in ((alone, kept), (best, np.ones(gap.shape, np.bool_))):
                _keep_least(found, name, np.where(mask, gap, np.inf), (parts, at))
    binding = alone or {name: told for name, told in best.items() if told[0].over > 0}
    if not binding:
        return (
            "Where they can be, the wall doesn't fit the room with its frame's depth behind the"
            " sheet. Another mount, a shallower stud or another way in would help."
        )
    texts = [f"{name} binds: {words}" for name, (_, words) in sorted(binding.items())]
    start = "With every other constraint kept, " if alone else "Several bind: "
    stuck = {name: piece for name, (piece, _) in sorted(binding.items())}
    return f"{start}{'; '.join(texts)}. {helping(model, stuck, gets_in)}"


def _keep_least(
    found: dict[str, _Told],
    name: str,
    gap: FloatArray,
    wall: tuple[tuple[_Parts, ...], tuple[IntArray, ...]],
) -> None:
    cell = int(gap.argmin())
    least = float(gap[cell])
    if not np.isfinite(least) or (name in found and least >= found[name][0].over):
        return
    parts, at = wall
    worst = max(range(len(parts)), key=lambda n: float(parts[n].over[name][at[n][cell]]))
    part, n = parts[worst], int(at[worst][cell])
    sides = tuple(sorted((*(int(side[n]) for side in part.sides), part.thick_mm), reverse=True))
    amount = "kg too heavy" if name == CARRY else "mm too large"
    piece = Stuck((sides[0], sides[1], sides[2]), least, part.kind == BAR)
    found[name] = piece, f"{part.words(n)} is {up_to_tenth(least)} {amount}"


def _walls(model: Model) -> Iterator[tuple[tuple[_Parts, ...], tuple[IntArray, ...]]]:
    """Yield for each way to make a wall its kinds of pieces and where each wall's stand in them.

    Of the walls that fit the room only those that no other one undercuts in board and kicker.
    """
    space, s = model.space, model.sheetings
    bars = [_bar_parts(model, n) for n in range(len(space.market.sections))]
    done = set()
    for i, sheeting in enumerate(space.sheetings):
        if (sheeting.family, sheeting.split) in done:
            continue
        done.add((sheeting.family, sheeting.split))
        rows, columns = _least_cells(model, int(s.thickness[i]))
        if not len(rows):
            continue
        wide = model.access.widest_mm[i]
        board = _sheet_parts(model, sheeting.family, board_pieces(space, sheeting, wide))
        strip = _sheet_parts(model, sheeting.family, [(wide, k) for k in space.kickers_mm.tolist()])
        for bar in bars:
            yield (board, strip, bar), (rows, columns, rows)


def _least_cells(model: Model, thickness: int) -> tuple[IntArray, IntArray]:
    angle = model.reach.angle_mdeg[1][model.reach.index[:, :, thickness].ravel()]
    fits = np.asarray((angle >= 0).any(axis=0))
    columns = np.flatnonzero(np.any(fits, axis=0))
    return np.argmax(fits[:, columns], axis=0), columns


def _sheet_parts(model: Model, family: int, pieces: npt.ArrayLike) -> _Parts:
    length, width = np.array(pieces, dtype=np.int64).T
    kg_per_mm2 = sheet_mass_kg(model.space, family, 1, 1)
    thickness = model.space.market.families[family].thickness_mm
    return _parts(model, (length, width, thickness), kg_per_mm2 * length * width, "a piece")


def _bar_parts(model: Model, section: int) -> _Parts:
    bar, length = model.space.market.sections[section], longest_bar_mm(model.space, section)
    depth = np.full(len(length), bar.depth_mm, dtype=np.int64)
    mass = bar_mass_kg(model.space, section, 1) * length.astype(np.float64)
    return _parts(model, (length, depth, bar.width_mm), mass, BAR)


def _parts(
    model: Model, sizes: tuple[IntArray, IntArray, int], mass_kg: FloatArray, kind: str
) -> _Parts:
    market = model.space.market
    access, factors = market.room.access, market.catalog.materials.factors
    long, short = np.maximum(*sizes[:2]), np.minimum(*sizes[:2])
    real = short > 0
    ways = windows(access)

    def gets_in(place: Bottleneck, sides: Sides) -> BoolArray:
        ways_in = [place.passes(sides), *(way(sides) for way in ways)]
        return np.asarray(np.logical_or.reduce(ways_in))

    over = {CARRY: np.where(real, mass_kg - carry_limit_kg(access, factors), -np.inf)}
    for place in bottlenecks(access):
        name = "access.max_piece_mm" if "known to pass" in place.name else place.name
        low, high = np.zeros(len(long)), long.astype(np.float64)
        thick = np.full(len(long), float(sizes[2]))
        passes = gets_in(place, (high, short.astype(np.float64), thick))
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            goes = gets_in(place, (middle, np.minimum(short, middle), thick))
            low, high = np.where(goes, middle, low), np.where(goes, high, middle)
        over[name] = np.where(real & ~passes, np.round(long - low, 3), -np.inf)
    return _Parts((long, short), over, sizes[2], kind)
