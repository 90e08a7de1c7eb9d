"""Where measurements are written down: results.json beside this file, one entry per measurement."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from steepwright.writing import write_whole

FILE = Path(__file__).with_name("results.json")


def record(name: str, figures: dict[str, Any]) -> None:
    """Put the figures of one measurement in the place of its older ones."""
    known = json.loads(FILE.read_text(encoding="utf-8")) if FILE.exists() else {}
    known[name] = figures
    write_whole(FILE, json.dumps(known, indent=2, sort_keys=True) + "\n")
