"""Everything the page's scripts read, as plain data: the views of all designs and the charts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from steepwright.catalog import read_materials
from steepwright.geometry import people_needed
from steepwright.imperial import in_feet
from steepwright.plain import plain
from steepwright.report.charts import CONFIG, MEASURES, lines_figure, stair_figure
from steepwright.report.views.answer import Answer
from steepwright.report.views.before import BuildStep, Lift
from steepwright.report.views.build import build_steps, lifts_of
from steepwright.report.views.checks import CheckTable, check_table
from steepwright.report.views.cuts import BarCuts, SheetCuts, bar_cuts, marks_of, sheet_cuts
from steepwright.report.views.front import FrontView, front_view
from steepwright.report.views.guidance import guidance_of
from steepwright.report.views.hoist import Hoist, hoist_of
from steepwright.report.views.notes import Notes, notes_of
from steepwright.report.views.open_items import OpenItem, open_items
from steepwright.report.views.prices import BillLine, bill_lines, price_lines
from steepwright.report.views.rows import Row, row_of
from steepwright.report.views.side import SideView, side_view
from steepwright.report.views.top import TopView, top_view
from steepwright.report.words import (
    Document,
    hung_from,
    in_inches,
    product_names,
    renamed,
    sections,
)
from steepwright.room.types import Access


@dataclass(frozen=True, slots=True)
class DesignView:
    """All views of one design."""

    row: Row
    side: SideView
    front: FrontView
    top: TopView
    sheets: tuple[SheetCuts, ...]
    bars: tuple[BarCuts, ...]
    bill: tuple[BillLine, ...]
    open: tuple[OpenItem, ...]
    checks: CheckTable
    lifts: tuple[Lift, ...]
    steps: tuple[BuildStep, ...]
    hoist: Hoist | None
    notes: tuple[Notes, ...]


NAMES = frozenset(
    (
        "beam",
        "kind",
        "mark",
        "mount",
        "name",
        "sheet",
        "sku",
        "unit",
        "what",
        "words",
        "yard",
    )
)
"""Keys of what is a name and no sentence: its figures stay as they are."""


def shown(document: Document, value: Any) -> Any:
    """Return plain data with the measures in its sentences in the room's units."""
    if not in_inches(document):
        return value
    return _in_feet(value, product_names(document), sections(document, primes=True))


def _in_feet(value: Any, names: frozenset[str], studs: dict[str, str]) -> Any:
    if isinstance(value, str):
        return renamed(in_feet(value, names, primes=True), studs)
    if isinstance(value, dict):
        return {k: v if k in NAMES else _in_feet(v, names, studs) for k, v in value.items()}
    return [_in_feet(v, names, studs) for v in value] if isinstance(value, list | tuple) else value


def design_view(document: Document, design: dict[str, Any]) -> DesignView:
    """Return all views of one design of the document."""
    guidance = guidance_of(design)
    marks = marks_of(design)
    lifts = lifts_of(design, marks)
    return DesignView(
        row=row_of(design, round(guidance.front_mm)),
        side=side_view(document, design),
        front=front_view(document, design),
        top=top_view(document, design, guidance),
        sheets=sheet_cuts(design, marks),
        bars=bar_cuts(design, marks),
        bill=bill_lines(design),
        open=open_items(design),
        checks=check_table(design, in_inches(document)),
        lifts=lifts,
        steps=build_steps(
            design,
            lifts,
            hung_from(document, design["beam"]),
            _carriers(document),
            read_materials().factors,
        ),
        hoist=hoist_of(design),
        notes=notes_of(design, document["currency"]),
    )


def _carriers(document: Document) -> Callable[[float], int | None]:
    stated = document["room"]["access"]
    access = Access(max_carry_kg=stated.get("max_carry_kg"), carriers=stated.get("carriers", 2))
    factors = read_materials().factors
    return lambda mass_kg: people_needed(mass_kg, access, factors)


def _tnut_hole_mm(document: Document) -> float:
    factors = read_materials().factors
    if in_inches(document):
        return factors["tnut_hole_inch_mm"]
    return round(factors["tnut_hole_mm"])


def page_data(document: Document, views: tuple[DesignView, ...], answer: Answer) -> dict[str, Any]:
    """Return the data that the page carries."""
    data = {
        "currency": document["currency"],
        "room": {
            "name": document["room"]["name"],
            "code": document["room"].get("code", "EN 1995"),
            "beams": [
                beam | {"words": hung_from(document, beam["name"])}
                for beam in document["room"]["beams"]
            ],
            "climber": document["room"]["climber"],
        },
        "inches": in_inches(document),
        "target_angle_deg": document.get("target_angle_deg"),
        "max_cost_cents": document.get("max_cost_cents"),
        "exact": document["method"] == "exact" and document["complete"],
        "answer": answer.id,
        "steps": [step.id for step in answer.steps],
        "cautions": document["cautions"],
        "assumptions": document["assumptions"],
        "catalog": document["catalog"],
        "tnut_hole_mm": _tnut_hole_mm(document),
        "saw_tolerance_mm": round(read_materials().factors["saw_tolerance_mm"]),
        "measures": [plain(measure) for measure in MEASURES],
        "charts": {
            "stair": stair_figure(document["currency"]),
            "lines": lines_figure(),
            "config": CONFIG,
        },
        "prices": [plain(line) for line in price_lines(document)],
        "cloud": document["cloud"],
        "designs": [plain(view) for view in views],
    }
    told: dict[str, Any] = shown(document, data)
    return told
