"""Cutting sheets and bars: exact plans, bounds, and a verifier that trusts neither."""

from steepwright.cutting.bars import bar_cost_cents, cut_bars
from steepwright.cutting.sheets import (
    cut_sheets,
    ranged_bound_cents,
    sheet_bound_cents,
    sheet_cost_cents,
    sheet_quick_bound_cents,
)
from steepwright.cutting.verify import verify_bar_plan, verify_sheet_plan

__all__ = [
    "bar_cost_cents",
    "cut_bars",
    "cut_sheets",
    "ranged_bound_cents",
    "sheet_bound_cents",
    "sheet_cost_cents",
    "sheet_quick_bound_cents",
    "verify_bar_plan",
    "verify_sheet_plan",
]
