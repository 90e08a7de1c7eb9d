"""Checks of the anchors in a concrete slab, against what they are rated for and nothing else."""

from __future__ import annotations

import numpy as np

from steepwright.structure.rows import Rows
from steepwright.structure.rule import Ratio, Rule
from steepwright.structure.rules_mount import lost_weight_n
from steepwright.structure.types import FloatArray


def _of_slab(rows: Rows, demand: FloatArray, capacity: FloatArray) -> Ratio:
    """Return demand over capacity on slabs, 0 elsewhere; an unknown capacity just does."""
    asked = np.where(rows.beam.slab, demand, 0.0)
    given = np.where(np.isnan(capacity), demand, capacity)
    return Ratio(asked, np.where(rows.beam.slab, given, 1.0))


def _anchor(rows: Rows) -> Ratio:
    climbers = rows.all_climbers_n * rows.batch.lost_load
    level = rows.factor("hold_pull_factor") * climbers
    force = np.hypot(climbers + lost_weight_n(rows), level) * rows.mount.lever
    return _of_slab(rows, force, rows.beam.anchor_n)


def _thickness(rows: Rows) -> Ratio:
    least = np.where(np.isnan(rows.beam.anchor_least_mm), rows.beam.h_mm, rows.beam.anchor_least_mm)
    return _of_slab(rows, least, rows.beam.h_mm)


RULES = (
    Rule(
        "anchor working load",
        "anchor's approval",
        "N",
        _anchor,
        "the whole weight of {climbers} of {climber_kg} kg x {dynamic_factor} and"
        " {hold_pull_factor} of it level, with the weight of the lip and what both lever when"
        " another mount is lost, on one anchor of one mount: its others are spare, for anchors near"
        " each other weaken the concrete; without partial factors against the load it is rated for"
        " in any direction",
        ("anchor",),
        of="slab",
    ),
    Rule(
        "slab thickness",
        "anchor's approval",
        "mm",
        _thickness,
        "concrete alone, without screed and plaster; the slab itself isn't checked: keep off edges,"
        " pipes, cables, cavities and stressed wires",
        ("anchor slab",),
        of="slab",
    ),
)
