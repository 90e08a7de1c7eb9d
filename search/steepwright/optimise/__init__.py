"""The search over walls, and the assessment of one wall."""

from __future__ import annotations

from steepwright.optimise.assess import assess
from steepwright.optimise.many import Pair, search_many
from steepwright.optimise.search import Result, search

__all__ = ["Pair", "Result", "assess", "search", "search_many"]
