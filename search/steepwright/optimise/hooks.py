"""Where the mounts hang along the ceiling beams, tabulated for the search."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from steepwright.geometry import wall_y_range_mm
from steepwright.geometry.layout import mount_centres, stud_centres
from steepwright.optimise.space import Space
from steepwright.pricing.wall import columns_of
from steepwright.room.types import Room
from steepwright.structure.hooks import HookEffects, hook_effects

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]


def hooks_of(
    room: Room, span_mm: float, width_mm: float, centres_mm: tuple[float, ...], mounts: int
) -> HookEffects:
    """Return what a wall's mounts do to its beam.

    The room file doesn't tell where a beam's supports are: the span is taken to lie in the
    middle of the room's width.
    """
    start, end = (float(y) for y in wall_y_range_mm(room, width_mm))
    support = (room.width_mm - span_mm) / 2.0
    places = tuple(start + place - support for place in mount_centres(centres_mm, mounts))
    return _known(places, (start + end) / 2.0 - support, float(span_mm))


def lift_of_blocks(
    room: Room, span_mm: float, width_mm: float, centres_mm: tuple[float, ...]
) -> tuple[float, float, float, float]:
    """Return what lifting blocks over the outer studs do to a beam, as `LIFT_COLUMNS`."""
    made = hooks_of(room, span_mm, width_mm, centres_mm, 2)
    return made.arm_weight_mm, made.arm_climb_mm, made.end_weight, made.sag_weight


_known = lru_cache(maxsize=65536)(hook_effects)


@dataclass(frozen=True, slots=True)
class HookTables:
    """Effects of the mounts for every frame at the least width.

    Attributes
    ----------
    frame
        Number of the frame by [sheeting, section].
    effects
        [frame, beam, number of mounts from `least_mounts` on, effect]; one more number at the end
        holds the least of each effect over all numbers of mounts the studs allow.
    lift
        [frame, beam, effect] of lifting blocks over the outer studs.
    """

    frame: IntArray
    effects: FloatArray
    lift: FloatArray
    least_mounts: int

    def look_up(
        self, sheeting: IntArray, section: IntArray, beam: IntArray, mounts: IntArray | None
    ) -> FloatArray:
        """Return the six effects [effect, row]; the most favourable ones without `mounts`."""
        number = -1 if mounts is None else mounts - self.least_mounts
        rows = self.effects[self.frame[sheeting, section], beam, number]
        return np.ascontiguousarray(rows.T)

    def look_up_lift(self, sheeting: IntArray, section: IntArray, beam: IntArray) -> FloatArray:
        """Return the four effects of the lifting blocks [effect, row]; any beam's for none."""
        rows = self.lift[self.frame[sheeting, section], np.maximum(beam, 0)]
        return np.ascontiguousarray(rows.T)


def build_hooks(space: Space) -> HookTables:
    """Tabulate the mounts' effects on every beam."""
    market, room = space.market, space.market.room
    numbers: dict[tuple[float, ...], int] = {}
    frame = np.empty((len(space.sheetings), len(market.sections)), dtype=np.int64)
    widths, at = np.unique([s.width_mm for s in market.sections], return_inverse=True)
    known: dict[tuple[tuple[int, ...], int], list[int]] = {}
    for i, sheeting in enumerate(space.sheetings):
        columns = columns_of(sheeting.split, space.width_mm, market.limits)
        assert columns is not None
        key = columns, sheeting.bays
        if key not in known:
            centres = [stud_centres(columns, sheeting.bays, width) for width in widths.tolist()]
            known[key] = [numbers.setdefault(place, len(numbers)) for place in centres]
        frame[i] = np.array(known[key])[at]
    spans = dict.fromkeys(beam.span_mm for beam in room.beams)
    effects, lift = [], []
    for places in numbers:
        made = {span: _effects(space, span, places) for span in spans}
        blocks = {span: lift_of_blocks(room, span, space.width_mm, places) for span in spans}
        effects.append([made[beam.span_mm] for beam in room.beams])
        lift.append([blocks[beam.span_mm] for beam in room.beams])
    return HookTables(frame, np.array(effects), np.array(lift), space.mount_counts[0])


def _effects(space: Space, span_mm: int, centres: tuple[float, ...]) -> list[tuple[float, ...]]:
    """Return a frame's effects on a beam by the number of mounts, and the least of each."""
    room, counts = space.market.room, space.mount_counts
    made = [
        hooks_of(room, span_mm, space.width_mm, centres, min(mounts, len(centres))).row
        for mounts in counts
    ]
    return [*made, tuple(min(effect) for effect in zip(*made, strict=True))]


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
