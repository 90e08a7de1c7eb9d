"""The verifier finds every fault put into a right plan; right plans have none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steepwright.cutting import cut_bars, cut_sheets, verify_bar_plan, verify_sheet_plan
from steepwright.cutting.records import (
    BarPart,
    BarStock,
    SheetLayout,
    SheetPart,
    SheetPlan,
    SheetStock,
)

KERF = 4
PARTS = (
    SheetPart("board", 1500, 1000, "length", 3),
    SheetPart("kicker", 1000, 300, "any", 2),
    SheetPart("filler", 220, 1250, "width", 1),
)
STOCKS = (
    SheetStock("full", 2500, 1250, "length", 6200, 150, None),
    SheetStock("cross", 1250, 2500, "length", 6400, 150, 2),
    SheetStock("offcut", 1600, 1100, "length", 0, 0, 1),
)
BARS = (BarPart("stud", 2800, 4), BarPart("rail", 1990, 2), BarPart("upright", 255, 4))
LENGTHS = (BarStock("long", 4800, 1680, None), BarStock("left over", 3100, 0, 1))


@pytest.fixture
def plan() -> SheetPlan:
    plan = cut_sheets(PARTS, STOCKS, KERF)
    assert plan is not None
    return plan


def with_layout(plan: SheetPlan, index: int, **changes: object) -> SheetPlan:
    layouts = list(plan.layouts)
    layouts[index] = replace(layouts[index], **changes)
    return replace(plan, layouts=tuple(layouts))


def faults(plan: SheetPlan) -> str:
    return "; ".join(verify_sheet_plan(plan, PARTS, STOCKS, KERF))


def fullest(plan: SheetPlan) -> tuple[int, SheetLayout]:
    return max(enumerate(plan.layouts), key=lambda pair: len(pair[1].parts))


def test_a_right_plan_has_no_faults(plan: SheetPlan) -> None:
    assert faults(plan) == ""
    assert {part.name for layout in plan.layouts for part in layout.parts} == {
        "board",
        "kicker",
        "filler",
    }


def test_moved_part(plan: SheetPlan) -> None:
    index, layout = fullest(plan)
    moved = replace(layout.parts[0], x_mm=layout.parts[0].x_mm + 1)
    assert "not a block" in faults(with_layout(plan, index, parts=(moved, *layout.parts[1:])))


def test_missing_part(plan: SheetPlan) -> None:
    index, layout = fullest(plan)
    assert "are laid" in faults(with_layout(plan, index, parts=layout.parts[1:]))


def test_part_twice(plan: SheetPlan) -> None:
    index, layout = fullest(plan)
    found = faults(with_layout(plan, index, parts=(layout.parts[0], *layout.parts)))
    assert "not asked for" in found
    assert "closer than the kerf" in found


def test_swapped_cuts(plan: SheetPlan) -> None:
    index, layout = fullest(plan)
    swapped = (layout.cuts[1], layout.cuts[0], *layout.cuts[2:])
    assert "no block" in faults(with_layout(plan, index, cuts=swapped))


def test_cut_that_is_left_out(plan: SheetPlan) -> None:
    index, layout = fullest(plan)
    found = faults(with_layout(plan, index, cuts=layout.cuts[:-1]))
    assert "not a block" in found
    assert "cuts cost" in found


def test_wrong_prices(plan: SheetPlan) -> None:
    assert "sheets cost" in faults(replace(plan, sheet_cents=plan.sheet_cents - 1))
    assert "cuts cost" in faults(replace(plan, cut_cents=plan.cut_cents - 1))


def test_grain_turned(plan: SheetPlan) -> None:
    turned = tuple(replace(p, grain="width") if p.name == "board" else p for p in PARTS)
    assert verify_sheet_plan(plan, turned, STOCKS, KERF)
    turned_sheet = tuple(replace(s, face_grain="width") for s in STOCKS)
    assert verify_sheet_plan(plan, PARTS, turned_sheet, KERF)


@pytest.mark.parametrize("planned", [0, KERF - 1])
def test_kerf_ignored(planned: int) -> None:
    plan = cut_sheets(PARTS, STOCKS, planned)
    assert plan is not None
    relabelled = replace(plan, layouts=tuple(replace(x, kerf_mm=KERF) for x in plan.layouts))
    assert faults(relabelled)
    assert "kerf" in faults(plan)


def test_cut_outside_its_block_and_part_outside_the_sheet(plan: SheetPlan) -> None:
    index, layout = fullest(plan)
    cut = layout.cuts[0]
    edge = cut.x_mm[1] if cut.axis == "x" else cut.y_mm[1]
    assert "is not inside" in faults(
        with_layout(plan, index, cuts=(replace(cut, at_mm=edge), *layout.cuts[1:]))
    )
    out = replace(layout.parts[0], x_mm=layout.length_mm)
    assert "not inside the sheet" in faults(
        with_layout(plan, index, parts=(out, *layout.parts[1:]))
    )


def test_wrong_stock(plan: SheetPlan) -> None:
    index, layout = fullest(plan)
    assert "no such stock" in faults(with_layout(plan, index, sku="none"))
    assert "the stock is" in faults(with_layout(plan, index, length_mm=layout.length_mm + 1))
    assert "there are 0" in "; ".join(
        verify_sheet_plan(
            plan, PARTS, tuple(replace(s, limit=0, cut_cents=s.cut_cents) for s in STOCKS), KERF
        )
    )
    assert "listed 2 times" in "; ".join(verify_sheet_plan(plan, PARTS, (*STOCKS, STOCKS[0]), KERF))


def bar_faults(plan: object) -> str:
    return "; ".join(verify_bar_plan(plan, BARS, LENGTHS, KERF))  # type: ignore[arg-type]


def test_bar_plan_and_its_mutants() -> None:
    plan = cut_bars(BARS, LENGTHS, KERF)
    assert plan is not None
    assert bar_faults(plan) == ""
    first, *rest = plan.layouts
    piece, *pieces = first.pieces

    def with_first(**changes: object) -> object:
        return replace(plan, layouts=(replace(first, **changes), *rest))

    assert "are cut" in bar_faults(with_first(pieces=tuple(pieces)))
    assert "are cut" in bar_faults(with_first(pieces=((piece[0], piece[1] + 1), *pieces)))
    assert "take" in bar_faults(with_first(pieces=(*first.pieces, ("stud", 2800))))
    assert "not cut" in bar_faults(with_first(pieces=()))
    assert "no such stock" in bar_faults(with_first(sku="none"))
    assert "the stock is" in bar_faults(with_first(stock_mm=1))
    assert "kerf" in bar_faults(with_first(kerf_mm=0))
    assert "there are 1" in bar_faults(
        replace(plan, layouts=tuple(replace(x, sku="left over") for x in plan.layouts))
    )
    assert "bars cost" in bar_faults(replace(plan, cost_cents=plan.cost_cents - 1))


def test_bar_pieces_that_fit_only_without_kerfs() -> None:
    parts, stocks = (BarPart("half", 1200, 2),), (BarStock("bar", 2400, 900, None),)
    blind = cut_bars(parts, stocks, 0)
    assert blind is not None
    assert len(blind.layouts) == 1
    seeing = replace(blind, layouts=tuple(replace(x, kerf_mm=KERF) for x in blind.layouts))
    assert "take 2404 mm of 2400 mm" in "; ".join(verify_bar_plan(seeing, parts, stocks, KERF))


def test_a_block_is_cut_once_only(plan: SheetPlan) -> None:
    number, layout = fullest(plan)
    twice = (layout.cuts[0], *layout.cuts)
    assert "cut 2: there is no block" in faults(with_layout(plan, number, cuts=twice))


def test_a_fault_names_the_piece_and_its_length() -> None:
    plan = cut_bars(BARS, LENGTHS, KERF)
    assert plan is not None
    fewer = tuple(
        replace(x, pieces=tuple(p for p in x.pieces if p != ("upright", 255))) for x in plan.layouts
    )
    text = bar_faults(replace(plan, layouts=fewer))
    assert "0 of 4 pieces upright of 255 mm are cut" in text
