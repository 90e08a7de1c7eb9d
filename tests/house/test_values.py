"""Values are frozen: what one function was given, no other can change under its hands."""

from __future__ import annotations

import ast
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[2] / "search" / "steepwright"
GROWING = {
    "catalog/read.py _Reading",
    "findings.py Findings",
    "optimise/branch.py Branch",
    "optimise/branch.py Tally",
    "optimise/certificate/known.py KnownBars",
    "optimise/certificate/levels.py Level",
    "optimise/changes_sweep.py _Sweep",
    "optimise/exact.py ExactCosts",
    "optimise/front.py Front",
    "optimise/sampled.py Sampler",
    "pricelist/context.py ListContext",
    "pricelist/bar_sizing.py _Bar",
    "pricelist/table.py Table",
    "verify/verdict.py Verdict",
}
"""The records that gather something while one function runs, by module and name."""


def not_frozen(path: Path) -> set[str]:
    """Return the dataclasses of a module that can be changed."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.ClassDef):
            continue
        for mark in map(ast.unparse, node.decorator_list):
            if mark.startswith("dataclass") and "frozen=True" not in mark:
                found.add(f"{path.relative_to(PACKAGE).as_posix()} {node.name}")
    return found


def test_all_records_are_frozen_but_those_that_gather() -> None:
    found = {name for path in PACKAGE.rglob("*.py") for name in not_frozen(path)}
    assert found == GROWING
