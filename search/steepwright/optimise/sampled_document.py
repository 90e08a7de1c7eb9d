"""The front of a sampled search as a document; it says that nothing is proven."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from steepwright.optimise.cloud import dominated_sample
from steepwright.optimise.document import (
    Document,
    design_document,
    document_head,
    search_assumptions,
)
from steepwright.optimise.front import Score
from steepwright.optimise.grading import grading_assumptions
from steepwright.optimise.sampled_choice import Choices
from steepwright.optimise.yards import trip_assumptions
from steepwright.structure import assumptions

NOT_CERTIFIED = (
    "Not certified: the walls were sampled, lengths by the millimetre; a cheaper or steeper one may"
    " exist."
)


ELSEWHERE = (
    "Ties and lifting eyes were sampled too: each is where its wall's drawing and steps tell, not"
    " half-way up and near the foot as in a search."
)


@dataclass(frozen=True, slots=True)
class Sampled:
    """A sampled wall that fits: its choices, and cost, angle, fall space and the user's own."""

    params: Mapping[str, Any]
    values: tuple[float, ...]


def unbeaten(rows: list[Sampled], maximise_own: bool) -> list[Sampled]:
    """Return the rows that no other is at least as good as in all values, the cheapest first."""

    def goals(row: Sampled) -> tuple[float, ...]:
        cost, angle, fall, *own = row.values
        return cost, -angle, -fall, *(-value if maximise_own else value for value in own)

    kept: list[tuple[tuple[float, ...], Sampled]] = []
    for row in sorted(rows, key=lambda r: (goals(r), sorted(r.params.items()))):
        mine = goals(row)
        if not any(all(a <= b for a, b in zip(other, mine, strict=True)) for other, _ in kept):
            kept.append((mine, row))
    return [row for _, row in kept]


def sampled_document(
    choices: tuple[Choices, ...], rows: list[Sampled], tried: int, maximise_own: bool
) -> Document:
    """Return the document of all sampled walls that fit; only its front is worked out."""
    front = unbeaten(rows, maximise_own)
    designs = []
    for number, row in enumerate(front, start=1):
        chosen = choices[int(row.params["yards"])]
        wall = chosen.try_out(row.params).wall
        assert wall is not None
        design = design_document(chosen.shop, wall, f"S{number:02d}")
        if len(row.values) > 3:
            design["own_objective"] = row.values[3]
        designs.append(design)
    space, tables = choices[-1].space, choices[-1].shop.tables
    room, catalog = space.market.room, space.market.catalog
    told = (
        NOT_CERTIFIED,
        *((ELSEWHERE,) if choices[-1].places else ()),
        *search_assumptions(space)[1:],
        *assumptions(tables),
        *grading_assumptions(room, catalog),
        *trip_assumptions(room, catalog),
    )
    summary: dict[str, Any] = {
        "method": "sampled",
        "complete": False,
        "counts": {"tried": tried, "fitting": len(rows), "front": len(designs)},
        "target_angle_deg": None,
        "max_cost_cents": None,
    }
    head = document_head(space, told, (*room.findings, *catalog.findings), summary)
    seen = [Score(*(int(value) for value in row.values[:3])) for row in rows]
    return head | {"cloud": dominated_sample(seen), "designs": designs}
