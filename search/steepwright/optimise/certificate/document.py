"""The certificate as one plain document: what is claimed, what it rests on, and the boxes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.optimise.bounds import build_rates
from steepwright.optimise.certificate.carried import carried_of
from steepwright.optimise.certificate.costs import build_costs
from steepwright.optimise.certificate.fits import fits_of
from steepwright.optimise.certificate.given import digest, given_document
from steepwright.optimise.certificate.levels import Level, joined_levels
from steepwright.optimise.certificate.prove import CHECKS, Proof
from steepwright.optimise.certificate.stair import Stair, stair_of
from steepwright.optimise.certificate.unsearched import OpenBox, open_boxes
from steepwright.optimise.model import BOX_SIZES, Model
from steepwright.optimise.space import Space
from steepwright.optimise.units import Unit
from steepwright.optimise.workers import shared_out

Document = dict[str, Any]

FORMAT = "steepwright certificate 2"

BOXES = BOX_SIZES[0]


def certificate_document(
    document: Document,
    models: Sequence[Model],
    workers: int,
    progress: Callable[[str], None],
    open_units: Sequence[Sequence[Unit] | None] = (),
) -> Document:
    """Prove a search's front and return the proof; of a stopped search what it got to.

    Parameters
    ----------
    document
        The search's own document, with the designs that are claimed to be the cheapest.
    models
        One per market to be searched, each with that of all widths where there are several.
    open_units
        Per market of a stopped search what it did not get to; None for all of it.
    """
    progress("proving that nothing cheaper was missed")
    left = open_units or [()] * len(models)
    designs, models = document["designs"], [certified(model) for model in models]
    points = [(round(d["angle_deg"] * 1000), d["cost_cents"]) for d in designs]
    parts = [
        _part(model, stair_of(points), workers, open_boxes(model, units), progress)
        for model, units in zip(models, left, strict=True)
    ]
    return {
        "format": FORMAT,
        "room_sha256": digest(document["room"]),
        "designs_sha256": digest(designs),
        "complete": document["complete"],
        "widths_mm": _widths(models[-1].space),
        "step_mm": models[-1].space.market.room.wall.step_mm,
        "designs_in_space": sum(part["space"]["designs"] for part in parts),
        "steps": _steps(designs),
        "degrees": _degrees(document),
        "parts": parts,
    }


def _steps(designs: Sequence[Document]) -> list[Document]:
    """Return the designs that nothing steeper undercuts, flattest first."""
    steps: list[Document] = []
    cheapest = None
    for design in sorted(designs, key=lambda d: (-d["angle_deg"], d["cost_cents"])):
        if cheapest is None or design["cost_cents"] < cheapest:
            cheapest = design["cost_cents"]
            steps.append(_step(design))
    return steps[::-1]


def _step(design: Document) -> Document:
    return {name: design[name] for name in ("angle_deg", "cost_cents", "id")}


def _degrees(document: Document) -> list[Document]:
    """Return for every whole degree asked for the cheapest design at it or more."""
    least, most = document["room"]["wall"]["angle_deg"]
    found = []
    for degree in range(int(-(-least // 1)), int(most) + 1):
        steep = [d for d in document["designs"] if d["angle_deg"] >= degree]
        best = min(steep, key=lambda d: (d["cost_cents"], -d["angle_deg"]), default=None)
        found.append({"degree": degree, "cheapest": None if best is None else _step(best)})
    return found


def certified(model: Model) -> Model:
    """Return the model that a proof goes through: that of all widths, if there are several."""
    return model if model.wider is None else model.wider


def _widths(space: Space) -> list[int]:
    return _ends(space.widths_mm[: space.searched])


def _ends(lengths_mm: npt.NDArray[np.int64]) -> list[int]:
    """Return the least and the greatest of some lengths."""
    return [int(lengths_mm[0]), int(lengths_mm[-1])]


def _part(
    model: Model,
    stair: Stair,
    workers: int,
    left: tuple[OpenBox, ...],
    progress: Callable[[str], None],
) -> Document:
    costs = build_costs(model, build_rates(model))
    proof = Proof(model, costs, fits_of(model, stair), carried_of(model), left)
    corners = [
        (row, column)
        for row in range(0, model.grid[0], BOXES)
        for column in range(0, model.grid[1], BOXES)
    ]
    count = len(corners)

    def tell(done: int) -> None:
        progress(f"proved for {done} of {count} ranges of lengths")

    levels = joined_levels(shared_out(lambda n: proof.prove(corners[n]), count, workers, tell))
    given = given_document(model)
    return {
        "given": given,
        "given_sha256": digest(given),
        "space": _space(model.space),
        "checks": list(CHECKS),
        "open": _open(levels),
        "open_boxes": [list(box) for box in left],
        "levels": [level.document() for level in levels],
    }


def _open(levels: Sequence[Level]) -> int:
    """Return how many choices are left at single lengths and widths with nothing against them."""
    last = [level for level in levels if level.size == level.widths == 1]
    return sum(
        sum(level.families) - sum(sum(counts) for counts in level.closed.values()) for level in last
    )


def _space(space: Space) -> Document:
    columns: Document = {
        "family": [s.family for s in space.sheetings],
        "grain": [s.grain for s in space.sheetings],
        "columns": [s.split.columns for s in space.sheetings],
        "full_column_mm": [s.split.full_column_mm for s in space.sheetings],
        "rows": [s.split.rows for s in space.sheetings],
        "full_row_mm": [s.split.full_row_mm for s in space.sheetings],
        "bays": [s.bays for s in space.sheetings],
    }
    return {
        "boards_mm": _ends(space.boards_mm),
        "kickers_mm": _ends(space.kickers_mm),
        "widths_mm": _widths(space),
        "places": [[beam, facing] for beam, facing in space.places],
        "mount_counts": list(space.mount_counts),
        "screws_mm": list(space.screws_mm),
        **({"ties": [tie.sku for tie in space.ties if tie]} if len(space.ties) > 1 else {}),
        "sheetings": columns,
        "families": space.families,
        "cells": space.cells,
        "designs": space.designs,
    }
