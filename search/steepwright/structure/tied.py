"""Studs that are tied back to a second beam: what is left on them, and what pulls at the ties."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.tables import CeilingBeams
from steepwright.structure.tie_share import (
    held_part,
    most_of_load,
    part_of_weight,
    softness,
    tied_part,
)
from steepwright.structure.types import FloatArray


def moment_share(rows: Rows) -> FloatArray:
    """Return the worst stud's part of the climbers' moment, the tie's help counted [-]."""
    if not rows.tied.any():
        return rows.share.moment
    held = _held(rows, np.ones(len(rows.batch)))
    left = tied_part(held, rows.batch.tie_place).moment * rows.share.reaction
    return np.where(rows.tied, np.minimum(rows.share.moment, left), rows.share.moment)


def deflection_share(rows: Rows) -> FloatArray:
    """Return the worst stud's part of the climbers' deflection, the tie's help counted [-]."""
    if not rows.tied.any():
        return rows.share.deflection
    held = _held(rows, rows.stiffer)
    left = tied_part(held, rows.batch.tie_place).deflection * rows.share.reaction
    left = np.minimum(rows.share.deflection, np.maximum(left, rows.share.lift))
    return np.where(rows.tied, left, rows.share.deflection)


def along_n(rows: Rows, square_n: FloatArray) -> FloatArray:
    """Return the most that a tie pulls along its stud by a load square to it [N]."""
    if not rows.tied.any():
        return np.zeros(len(rows.batch))
    lean = np.sqrt(np.maximum(1.0 - rows.batch.tie_cos**2, 0.0)) / rows.batch.tie_cos
    return np.where(rows.tied, square_n * lean * most_of_load(rows.batch.tie_place), 0.0)


def tie_loads_n(rows: Rows) -> tuple[FloatArray, FloatArray]:
    """Return the pull in one tie by the climbers and by its stud's weight [N], characteristic.

    As much as a firm support there would take of a load at the worst place and of the weight.
    """
    cos, place = rows.batch.tie_cos, rows.batch.tie_place
    climb = rows.push_n * rows.share.reaction * most_of_load(place) / cos
    weight = part_of_weight(place) * rows.line_n_per_mm * rows.lean * rows.batch.board_mm / cos
    return np.where(rows.tied, climb, 0.0), np.where(rows.tied, weight, 0.0)


def weights_n(rows: Rows) -> FloatArray:
    """Return the pull of all ties together by the board's weight [N]."""
    part = part_of_weight(rows.batch.tie_place)
    return np.where(rows.tied, part * rows.board_n * rows.lean / rows.batch.tie_cos, 0.0)


def tie_beam(rows: Rows) -> CeilingBeams:
    """Return the beam that the ties pull at."""
    return rows.tables.beams.take(np.full(len(rows.batch), rows.tables.ties.beam))


def _held(rows: Rows, stiffer: FloatArray) -> FloatArray:
    """Return how far the tie stands in for a firm support: h of `tie_share` [-].

    The tie and the beam that it pulls at give way one after the other; the beam is taken at
    mid-span, in its softer direction.
    """
    batch, beam = rows.batch, tie_beam(rows)
    slim = np.maximum(beam.h_mm / beam.b_mm, 1.0)
    soft = beam.soft_mm_per_n * slim * slim
    ea = np.where(rows.tied, rows.tie.ea_n, 1.0)
    give = np.where(rows.tied, batch.tie_mm, 1.0) / ea + soft
    board = batch.tie_board_mm
    alone = softness(batch.tie_place) * board * board * board / (48.0 * rows.bar.ei_nmm2 * stiffer)
    return held_part(np.where(rows.tied, batch.tie_cos**2 / give, 0.0), alone)
