"""The main job: from a room and a catalogue to the complete front of walls."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

from steepwright.catalog.types import Catalog
from steepwright.errors import InfeasibleError, UnfinishedError
from steepwright.optimise.branch import Tally
from steepwright.optimise.certificate import certificate_document
from steepwright.optimise.changes import what_would_change
from steepwright.optimise.cloud import dominated_sample, otherwise_hung
from steepwright.optimise.document import (
    Document,
    design_document,
    document_head,
    search_assumptions,
)
from steepwright.optimise.front import Front, Score
from steepwright.optimise.grading import grading_assumptions
from steepwright.optimise.journal import Journal
from steepwright.optimise.model import Model, build_model
from steepwright.optimise.space import build_space
from steepwright.optimise.terms import Terms, silent
from steepwright.optimise.walls import wall_of, workshop
from steepwright.optimise.why import LEAST_ANGLE, why_nothing
from steepwright.optimise.widen import at_best_width
from steepwright.optimise.workers import shared_out
from steepwright.optimise.yards import Together, all_models, search_yards, trip_assumptions
from steepwright.plain import plain
from steepwright.room import check_with_catalog
from steepwright.room.types import Room
from steepwright.structure import assumptions
from steepwright.units import degrees_down

if TYPE_CHECKING:
    import pandas as pd


CERTIFICATE = "certificate.json"
"""The file beside the document that holds the proof."""


@dataclass(frozen=True)
class Result:
    """A finished search.

    Attributes
    ----------
    document
        Everything found, in the form of designs.json.
    certificate
        The proof that nothing cheaper was missed, in the form of certificate.json; None when it
        was not asked for.
    """

    document: Document
    certificate: Document | None = None

    def cheapest(self, angle_deg: float | None = None, top: int | None = None) -> list[Document]:
        """Return the cheapest designs at or above an angle [deg], cheapest first."""
        least = -1.0 if angle_deg is None else angle_deg
        rows = [d for d in self.document["designs"] if d["angle_deg"] >= least]
        return rows[:top]

    @cached_property
    def frame(self) -> pd.DataFrame:
        """The designs as a table, one row each, without the nested lists."""
        import pandas as pd

        rows = [
            {key: value for key, value in design.items() if not isinstance(value, list | dict)}
            for design in self.document["designs"]
        ]
        return pd.DataFrame(rows)


def search(  # noqa: PLR0913 (the public verb; all but two are keywords)
    room: Room,
    catalog: Catalog,
    *,
    angle_deg: float | None = None,
    max_cost_cents: int | None = None,
    workers: int = 1,
    progress: Callable[[str], None] = silent,
    changes: bool = True,
    certify: bool = False,
    executor: Executor | None = None,
    time_limit_s: float | None = None,
    journal: Journal | None = None,
    earlier: Sequence[Mapping[str, Any]] = (),
) -> Result:
    """Find every wall that no other wall beats in angle, cost and fall space at once.

    Parameters
    ----------
    room, catalog
        The room and the yard's offers.
    angle_deg, max_cost_cents
        The angle asked for [deg] and the budget [cents]; they don't narrow the front but make
        an answer that misses them an error.
    workers
        Number of processes; the answer does not depend on it.
    progress
        Told what is going on, a sentence at a time.
    changes
        Whether to look, too, at what would change the answer; left out when time is up.
    certify
        Whether to write down the proof that nothing cheaper was missed.
    executor
        Takes the units of work in place of local processes: any of `concurrent.futures`, or a
        cluster's that behaves like one. The answer does not depend on it.
    time_limit_s
        When to stop searching [s]. What is found by then is the answer, marked incomplete; so it
        is after an interrupt (Ctrl-C).
    journal
        Where finished units are written down; what it already holds is not done again.
    earlier
        Designs of an earlier search's document. What of them is still to be had is settled first,
        which spares most of the search when only prices have changed. The answer does not depend
        on it.

    Raises
    ------
    UnfinishedError
        When the time is up and nothing was found yet.
    InputError
        When the room names what the catalogue hasn't, or no wall can be made of what it sells.
    InfeasibleError
        When no design satisfies the constraints; the text says which one binds and by how much.
    """
    check_with_catalog(room, catalog)
    in_range(room, angle_deg)
    ends_s = None if time_limit_s is None else time.monotonic() + time_limit_s
    terms = Terms(workers, executor, progress, ends_s, journal, earlier)
    outcome = search_yards(room, catalog, terms)
    progress(_looked_at(outcome.tally))
    if not outcome.front.members:
        raise _nothing_found(outcome)
    progress("working out the front's designs")
    document = _document(outcome, _Wishes(angle_deg, max_cost_cents, workers))
    if outcome.stopped:
        return _so_far(document, outcome, terms, certify)
    _require(document, outcome.model, angle_deg, max_cost_cents)
    if changes:
        document["changes"] = what_would_change(
            document, room, catalog, outcome.model, workers=workers, progress=progress
        )
    if not certify:
        return Result(document)
    document["certificate"] = CERTIFICATE
    return Result(document, certificate_document(document, outcome.models, workers, progress))


def _so_far(document: Document, outcome: Together, terms: Terms, certify: bool) -> Result:
    """Return a stopped search's result, with the proof of what it got to.

    A second interrupt, meanwhile, leaves the proof out.
    """
    if not certify:
        return Result(document)
    market = outcome.model.space.market
    try:
        models = all_models(market.room, market.catalog, outcome)
        done = len(outcome.models) - 1
        left = [*[()] * done, outcome.open_units, *[None] * (len(models) - done - 1)]
        proved = document | {"certificate": CERTIFICATE}
        made = certificate_document(proved, models, terms.workers, terms.progress, left)
    except KeyboardInterrupt:
        return Result(document)
    return Result(proved, made)


def _looked_at(tally: Tally) -> str:
    return (
        f"looked at {tally.boxes} boxes of lengths and choices, {tally.structure_rows} times at"
        f" the structure, and solved {tally.points} walls"
    )


def _nothing_found(outcome: Together) -> BaseException:
    if outcome.stopped == "interrupted":
        return KeyboardInterrupt()
    if outcome.stopped:
        message = (
            "The time was up before any wall was found. That does not mean that there is none:"
            " allow more time."
        )
        return UnfinishedError(message)
    return InfeasibleError(why_nothing(outcome.model))


@dataclass(frozen=True, slots=True)
class _Wishes:
    angle_deg: float | None
    max_cost_cents: int | None
    workers: int


def _document(outcome: Together, wishes: _Wishes) -> Document:
    space = (outcome.model.wider or outcome.model).space
    kept = [made for _, made in outcome.front.sorted()]

    def work_out(number: int) -> Document:
        model, found = kept[number]
        shop = workshop(model)
        wall = at_best_width(shop, wall_of(model, found))
        return design_document(shop, wall, "")

    designs = _renamed(_unbeaten(shared_out(work_out, len(kept), wishes.workers)))
    room, catalog = space.market.room, space.market.catalog
    summary: dict[str, Any] = {
        "method": "exact",
        "complete": not outcome.stopped,
        "counts": {
            "designs_in_space": space.designs,
            "families": space.families,
            "cells": space.cells,
            "front": len(designs),
        },
        "target_angle_deg": wishes.angle_deg,
        "max_cost_cents": wishes.max_cost_cents,
    }
    if outcome.stopped:
        summary["stopped"] = outcome.stopped
        summary["angles"] = [
            plain(angle) | {"settled": angle.settled, "gap_cents": angle.gap_cents}
            for angle in outcome.angles
        ]
    assumed = (
        *search_assumptions(space),
        *assumptions(outcome.model.tables),
        *grading_assumptions(room, catalog),
        *trip_assumptions(room, catalog),
    )
    head = document_head(space, assumed, (*room.findings, *catalog.findings), summary)
    cloud = dominated_sample(otherwise_hung(outcome.front.sorted()))
    return head | {"cloud": cloud, "designs": designs}


def _unbeaten(designs: list[Document]) -> list[Document]:
    """Drop what a widened wall beats: where a piece meets a sheet's side, a saw cut is saved."""
    front: Front[Document] = Front()
    for design in designs:
        angle_mdeg = round(design["angle_deg"] * 1000)
        front.offer(Score(design["cost_cents"], angle_mdeg, design["fall_space_mm"]), design)
    return [design for _, design in front.sorted()]


def _renamed(designs: list[Document]) -> list[Document]:
    return [design | {"id": f"W{n:02d}"} for n, design in enumerate(designs, start=1)]


def in_range(room: Room, angle_deg: float | None) -> None:
    """Refuse an angle [deg] that the room file leaves out; it needs no search.

    Raises
    ------
    InfeasibleError
        When the room's greatest angle is less.
    """
    most = room.wall.angle_deg[1]
    if angle_deg is None or angle_deg <= most:
        return
    message = (
        f"No wall of {angle_deg:g} degrees is looked at: wall.angle_deg in the room file binds, it"
        f" ends at {most:g}, {angle_deg - most:g} degrees short. Raise its second number."
    )
    raise InfeasibleError(message)


def _too_flat(designs: list[Document], model: Model, angle_deg: float) -> InfeasibleError:
    """Tell why no wall is as steep as asked: why the space of steeper walls is empty."""
    best = max(d["angle_deg"] for d in designs)
    market = model.space.market
    asked = replace(market.room.wall, angle_deg=(angle_deg, market.room.wall.angle_deg[1]))
    steeper = replace(market, room=replace(market.room, wall=asked))
    reason = why_nothing(build_model(build_space(steeper)), held=(LEAST_ANGLE,))
    return InfeasibleError(
        f"No wall reaches {angle_deg:g} degrees: the steepest has {degrees_down(best, 3)},"
        f" {angle_deg - best:.3f} degrees short. Of the steeper ones: {reason}"
    )


def _require(
    document: Document, model: Model, angle_deg: float | None, max_cost_cents: int | None
) -> None:
    designs = document["designs"]
    steep = [d for d in designs if angle_deg is None or d["angle_deg"] >= angle_deg]
    if not steep:
        assert angle_deg is not None
        raise _too_flat(designs, model, angle_deg)
    cheapest = min(d["cost_cents"] for d in steep)
    if max_cost_cents is not None and cheapest > max_cost_cents:
        over = cheapest - max_cost_cents
        message = (
            f"No wall{'' if angle_deg is None else f' of {angle_deg:g} degrees'} costs at most"
            f" {max_cost_cents / 100:.2f}: the cheapest costs {cheapest / 100:.2f}"
            f" {document['currency']}, {over / 100:.2f} more; the budget binds."
        )
        raise InfeasibleError(message)
