"""What the README says was measured stands in the file that the measurements write."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
MEASURED = re.compile(
    r"(\d+(?:[.,]\d+)*)[\s-]?(?:ms|s|sec|seconds?|minutes?|min|hours?|MB|GB|MiB|%|percent|times"
    r"|fold|x faster|designs|candidates|a second|per second)\b(?!\s*\))"
)


def figures_in(text: str) -> set[float]:
    """Return the numbers in a text that have a unit in which something is measured."""
    return {float(found.replace(",", "")) for found in MEASURED.findall(text)}


def all_numbers(value: object) -> set[float]:
    if isinstance(value, dict):
        return {number for item in value.values() for number in all_numbers(item)}
    if isinstance(value, list):
        return {number for item in value for number in all_numbers(item)}
    return {float(value)} if isinstance(value, int | float) else set()


def test_every_figure_of_the_readme_was_written_by_a_measurement() -> None:
    known = all_numbers(json.loads((ROOT / "tests" / "bench" / "results.json").read_text()))
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    prose = re.sub(r"```.*?```", "", readme, flags=re.DOTALL)
    strange = {
        figure
        for figure in figures_in(prose)
        if not any(round(number, 1) == figure or round(number) == figure for number in known)
    }
    assert strange == set(), "measure it in tests/bench and `record` it there"


def test_a_figure_that_was_made_up_would_be_seen() -> None:
    text = "takes 17.5 s, 300 MB, is 12 times as fast; looks at 1,234,567 designs on a 5 mm grid"
    assert figures_in(text) == {17.5, 300.0, 12.0, 1234567.0}


def test_the_table_of_figures_is_made_from_what_was_measured() -> None:
    path = ROOT / "tests" / "bench"
    command = [sys.executable, "-c", "import results; print(results.made(), end='')"]
    made = subprocess.run(command, cwd=path, check=True, capture_output=True, encoding="utf-8")
    assert made.stdout == (path / "figures.md").read_text(encoding="utf-8"), "run results.py there"
