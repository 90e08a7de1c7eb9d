"""Strength and stiffness of the wall and of the ceiling beam it hangs from."""

from steepwright.structure.assumptions import assumptions
from steepwright.structure.grillage_share import prepare
from steepwright.structure.rule import Part
from steepwright.structure.tables import Tables
from steepwright.structure.tabulate import build_tables
from steepwright.structure.types import Batch, Check
from steepwright.structure.wall import (
    checks,
    self_mass,
    self_weights_n,
    uses,
    worst_use,
)

__all__ = [
    "Batch",
    "Check",
    "Part",
    "Tables",
    "assumptions",
    "build_tables",
    "checks",
    "prepare",
    "self_mass",
    "self_weights_n",
    "uses",
    "worst_use",
]
