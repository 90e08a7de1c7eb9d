"""The cutting solvers' memories: how often they had to solve, and a reset."""

from __future__ import annotations

from functools import _lru_cache_wrapper
from typing import Any

from steepwright.cutting import bars, fits, sawing, sheets


def clear_caches() -> None:
    """Forget every solved cut list; results don't change, only the time they take."""
    for remembered in _remembered().values():
        remembered.cache_clear()


def solve_counts() -> dict[str, int]:
    """Return how many times each solver ran since the caches were last cleared."""
    return {name: remembered.cache_info().misses for name, remembered in _remembered().items()}


def _remembered() -> dict[str, _lru_cache_wrapper[Any]]:
    return {
        "sheet_tables": fits.fits_of,
        "sheet_sawings": sawing.saw,
        "sheet_trims": fits.least_trims,
        "sheet_quick_bounds": sheets.quick_cost_of,
        "sheet_costs": sheets.cost_of,
        "sheet_covers": sheets.cents_of,
        "bar_costs": bars.cost_of,
        "bar_covers": bars.cents_of,
    }
