"""No constant of the rules that nothing reads: it would say of a check that there is one."""

import ast
import re
from pathlib import Path

from steepwright.catalog import read_materials
from steepwright.room.types import Climber, Yard

PACKAGE = Path(__file__).parents[2] / "search" / "steepwright"

DEFAULTS = {
    "climber_mass_default_kg": Climber().mass_kg,
    "dynamic_factor_default": Climber().dynamic_factor,
    "kerf_default_mm": Yard().kerf_mm,
}
"""What a room file has that doesn't say otherwise; the table has its source."""


def patterns_of(source: str) -> list[str]:
    """Return a pattern for every text of a module, with anything where a value is filled in."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            found += re.findall(r"\w+", node.value)
        elif isinstance(node, ast.JoinedStr):
            parts = (
                re.escape(p.value) if isinstance(p, ast.Constant) else r"\w+" for p in node.values
            )
            found.append("".join(parts))
    return [pattern for pattern in found if re.search("[a-z]_|_[a-z]", pattern)]


def test_every_factor_is_read():
    texts = {p for path in PACKAGE.rglob("*.py") for p in patterns_of(path.read_text("utf-8"))}
    anything = re.compile("|".join(sorted(texts)))
    for key in read_materials().factors.values:
        base = re.sub("_nds|_sc2", "", key)
        read = anything.fullmatch(key) or anything.fullmatch(base)
        assert read or key in DEFAULTS, f"{key}: nothing reads it"


def test_defaults_of_a_room_are_those_of_the_table():
    factors = read_materials().factors
    assert {key: factors[key] for key in DEFAULTS} == DEFAULTS
