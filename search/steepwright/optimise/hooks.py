"""Where the mounts hang along the ceiling beams, tabulated for the search."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from steepwright.geometry import wall_y_range_mm
from steepwright.geometry.layout import stud_centres
from steepwright.geometry.mounts import LEAST_GAP_MM, lever_parts, levered, mount_centres, over_mm
from steepwright.optimise.space import Space
from steepwright.room.types import Facing, Room
from steepwright.structure.hooks import HookEffects, hook_effects

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]


Centres = tuple[float, ...]
Row = tuple[float, ...]


class HungOn(NamedTuple):
    """A beam's span [mm], which way the wall that hangs from it faces, and by what.

    `over_mm` is how far the outer studs' middles lie beyond those of the outer mounts [mm].
    """

    span_mm: float
    facing: Facing
    over_mm: float = 0.0


def hooks_of(room: Room, on: HungOn, centres_mm: Centres, mounts: int) -> HookEffects:
    """Return what a wall's mounts do to its beam; `centres_mm` are the studs' middle lines.

    The room file doesn't tell where a beam's supports are: the span is taken to lie in the
    middle of the room's width.
    """
    places, centre = _across(room, on, centres_mm, mounts)
    return _known(places, centre, float(on.span_mm), on.over_mm)


def lift_of_blocks(
    room: Room, span_mm: float, centres_mm: Centres
) -> tuple[float, float, float, float]:
    """Return what lifting blocks over the outer studs do to a beam, as `LIFT_COLUMNS`.

    Outer studs are flush with the wall's edges, so it is one whichever way the wall faces.
    """
    made = hooks_of(room, HungOn(span_mm, "+x"), centres_mm, 2)
    return made.arm_weight_mm, made.arm_climb_mm, made.end_weight, made.sag_weight


_known = lru_cache(maxsize=65536)(hook_effects)


@dataclass(frozen=True, slots=True)
class HookTables:
    """Effects of the mounts for every frame: at its width, or such that no width undercuts them.

    Attributes
    ----------
    frame
        Number of the frame by [sheeting, section].
    effects
        [frame, place, number of mounts from `least_mounts` on, effect]; one more number at the end
        holds the least of each effect over all numbers of mounts the studs allow.
    lift
        [frame, beam, effect] of lifting blocks over the outer studs.
    """

    frame: IntArray
    effects: FloatArray
    lift: FloatArray
    least_mounts: int

    def look_up(
        self, sheeting: IntArray, section: IntArray, place: IntArray, mounts: IntArray | None
    ) -> FloatArray:
        """Return all effects [effect, row]; the most favourable ones without `mounts`."""
        number = -1 if mounts is None else mounts - self.least_mounts
        rows = self.effects[self.frame[sheeting, section], place, number]
        return np.ascontiguousarray(rows.T)

    def look_up_lift(self, sheeting: IntArray, section: IntArray, beam: IntArray) -> FloatArray:
        """Return the four effects of the lifting blocks [effect, row]; any beam's for none."""
        rows = self.lift[self.frame[sheeting, section], np.maximum(beam, 0)]
        return np.ascontiguousarray(rows.T)


def build_hooks(space: Space) -> HookTables:
    """Tabulate the mounts' effects at every place, and the lifting blocks' on every beam."""
    market, room = space.market, space.market.room
    numbers: dict[tuple[Centres, Centres], int] = {}
    frame = np.empty((len(space.sheetings), len(market.sections)), dtype=np.int64)
    studs, at = np.unique([s.width_mm for s in market.sections], return_inverse=True)
    known: dict[tuple[object, ...], list[int]] = {}
    for i, sheeting in enumerate(space.sheetings):
        ends = space.columns_mm(sheeting), space.columns_mm(sheeting, space.searched - 1)
        key = ends, sheeting.bays
        if key not in known:
            centres = [
                (stud_centres(ends[0], sheeting.bays, w), stud_centres(ends[1], sheeting.bays, w))
                for w in studs.tolist()
            ]
            known[key] = [numbers.setdefault(one, len(numbers)) for one in centres]
        frame[i] = np.array(known[key])[at]
    factors, places = market.catalog.materials.factors, space.places
    over = [HungOn(beam.span_mm, "+x") for beam in room.beams]
    counts, effects, lift = space.mount_counts, [], []
    for between in numbers:
        over_rail = over_mm(factors, 2.0 * between[0][0])
        hung = [HungOn(room.beams[n].span_mm, facing, over_rail) for n, facing in places]
        rows = {on: [least_effects(room, on, between, n) for n in counts] for on in set(hung)}
        effects.append([[*rows[on], _least_of(rows[on])] for on in hung])
        lift.append([lift_of(least_effects(room, on, between, 2)) for on in over])
    return HookTables(frame, np.array(effects), np.array(lift), space.mount_counts[0])


def _least_of(rows: list[Row]) -> Row:
    return tuple(min(effect) for effect in zip(*rows, strict=True))


def lift_of(row: Row) -> Row:
    """Return what lifting blocks do to a beam, of the effects of mounts at their places."""
    made = HookEffects(*row)
    return made.arm_weight_mm, made.arm_climb_mm, made.end_weight, made.sag_weight


def least_effects(room: Room, on: HungOn, ends: tuple[Centres, Centres], mounts: int) -> Row:
    """Return the effects of mounts that no width between two undercuts.

    Parameters
    ----------
    ends
        The studs' middle lines [mm] at either width; the outer ones are flush with the edges.
    mounts
        Their number, or as many as there are studs.

    Notes
    -----
    A mount's place p and the board's centre c move one way as the wall gets wider, but for the
    millimetres that columns are rounded by (`ROUNDED_MM`). On a span s a load on one mount bends
    the beam by p (s - p) / s, which rises up to mid-span and falls behind it, as the deflection
    does: between two places both are least at one of these. A weight that hangs on the outer
    mounts l and r brings l (s - c) / s and (s - r) c / s; where c and l move the same way, or one
    of them stays, these are concave, so least at an end as well. The worst mount, or way to hang,
    is at least each of them. Shared by two mounts the weight deflects the beam no less than it
    does on the better one. What a load beyond an outer mount brings this one falls with the gaps
    between the mounts, so the widest of them bring the least. Beside a lost mount each part is a
    ratio of two lengths that both change evenly with the width (`_least_lost`), which moves one way
    only, so it is least at an end.
    """
    mounts, span_mm = min(mounts, len(ends[0])), on.span_mm
    if ends[0] == ends[1]:
        return hooks_of(room, on, ends[0], mounts).row
    places, centres = zip(*(_places(room, on, end, mounts) for end in ends), strict=True)
    pairs = list(zip(*places, strict=True))
    alone = [_single(pair, span_mm) for pair in pairs]
    hung = [_across(room, on, end, mounts) for end in ends]
    tips, lost = _least_tips([at for at, _ in hung], on.over_mm), _least_lost(hung, on.over_mm)
    bears = [tips[0], *[1.0] * (mounts - 2), tips[1]]
    arm = max(load * arm for load, (arm, _) in zip(bears, alone, strict=True))
    left = min(p * (span_mm - c) for p, c in zip(pairs[0], centres, strict=True)) / span_mm
    right = min((span_mm - p) * c for p, c in zip(pairs[-1], centres, strict=True)) / span_mm
    near = (
        span_mm - max(max(pairs[0]) - on.over_mm, 0.0),
        min(min(pairs[-1]) + on.over_mm, span_mm),
    )
    end = max(min(centres), min(span_mm - c for c in centres))
    slack = ROUNDED_MM
    return (
        arm,
        max(0.0, max(left, right) - slack),
        (max(near) - slack) / span_mm,
        (end - slack) / span_mm,
        max(load * sag for load, (_, sag) in zip(bears, alone, strict=True)),
        min(alone[0][1], alone[-1][1]),
        max(tips),
        max(*tips, *lost.loads),
        lost.weight,
        max(arm, lost.loads[0] * alone[1][0], lost.loads[1] * alone[-2][0]),
    )


ROUNDED_MM = 2.0
"""Of n columns, the larger ones first, a seam is at most n / 4 mm off its even place."""


def _places(room: Room, on: HungOn, centres: Centres, mounts: int) -> tuple[Centres, float]:
    """Return where mounts and the board's centre are, from a support [mm], none outside."""
    places, centre = _across(room, on, centres, mounts)
    inside = [min(max(at, 0.0), on.span_mm) for at in (*places, centre)]
    return tuple(inside[:-1]), inside[-1]


def _across(room: Room, on: HungOn, centres: Centres, mounts: int) -> tuple[Centres, float]:
    """Return where mounts and the board's centre are, from the support at y = 0 [mm].

    Mounts count from the climber's left, where y = 0 is only if the wall faces +x.
    """
    start, end = (float(y) for y in wall_y_range_mm(room, round(centres[0] + centres[-1])))
    support = (room.width_mm - on.span_mm) / 2.0
    at = mount_centres(centres, mounts, on.over_mm)
    y_mm = [start + c for c in at] if on.facing == "+x" else [end - c for c in reversed(at)]
    return tuple(y - support for y in y_mm), (start + end) / 2.0 - support


def _single(pair: tuple[float, float], span_mm: float) -> tuple[float, float]:
    """Return the least moment and deflection by a load on a mount between two places."""
    beside = {min(max(p + d, 0.0), span_mm) for p in pair for d in (-ROUNDED_MM, ROUNDED_MM)}
    effects = [_known((at,), at, float(span_mm)) for at in sorted(beside)]
    return min(e.arm_climb_mm for e in effects), min(e.sag_climb for e in effects)


def _least_tips(ends: list[Centres], over_rail_mm: float) -> tuple[float, float]:
    """Return the least loads on the outer mounts by one beyond them, of mounts between places."""
    if not over_rail_mm:
        return 1.0, 1.0
    each = [[b - a for a, b in pairwise(places)] for places in ends]
    gaps = [max(*pair, 0.0) + 2.0 * ROUNDED_MM for pair in zip(*each, strict=True)]
    return levered(gaps, over_rail_mm), levered(gaps[::-1], over_rail_mm)


class _Lost(NamedTuple):
    """Least loads on the mounts beside a lost first or last one, and of the lip's weight [-]."""

    loads: tuple[float, float]
    weight: float


def _least_lost(ends: list[tuple[Centres, float]], over_rail_mm: float) -> _Lost:
    """Return what the mounts beside a lost outer one bear at least, of mounts between places.

    Each end has its mounts' places and the board's middle. A gap lies off a length that changes
    evenly with the width by as much as in `_least_tips`, so the lengths by which loads reach out
    are taken so much shorter and the gaps so much wider. No gap shrinks with the width. While one
    is as narrow as `LEAST_GAP_MM` a part goes with the reach alone: growing, it is least at the
    narrow end; shrinking, it goes on to do so to the wide one.
    """
    if len(ends[0][0]) < 3:
        return _Lost((1.0, 1.0), 1.0)
    slack, sides = 2.0 * ROUNDED_MM, []
    for way in (1, -1):
        load, weight = [], []
        for places, middle in ends:
            gaps = [b - a for a, b in pairwise(places)][::way]
            left = [max(gap, LEAST_GAP_MM) + slack for gap in gaps[1:]]
            beyond = way * (places[::way][1] - middle)
            load.append(lever_parts(left, max(gaps[0] + over_rail_mm - slack, 0.0)))
            weight.append(lever_parts(left, max(beyond - slack, 0.0)))
        sides.append([1.0 + sum(map(min, zip(*parts, strict=True))) for parts in (load, weight)])
    return _Lost((sides[0][0], sides[1][0]), max(weight for _, weight in sides))


EFFECTS = tuple(field.name for field in fields(HookEffects))
LIFT_COLUMNS = ("lift_arm_mm", "lift_arm_lost_mm", "lift_end", "lift_sag")


def hook_columns(
    effects: Iterable[npt.ArrayLike], lift: Iterable[npt.ArrayLike]
) -> dict[str, FloatArray]:
    """Return the effects of mounts and of lifting blocks as columns of a structural batch."""
    return {
        name: np.atleast_1d(np.asarray(values, dtype=np.float64))
        for name, values in zip((*EFFECTS, *LIFT_COLUMNS), (*effects, *lift), strict=True)
    }
