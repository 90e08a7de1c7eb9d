"""The table over many searches: one row for each room at each price list."""

from __future__ import annotations

from typing import Any

from steepwright.report.files import csv_text
from steepwright.report.words import Document

COLUMNS = (
    "room",
    "catalog",
    "folder",
    "outcome",
    "designs",
    "currency",
    "cheapest_cents",
    "cheapest_angle_deg",
    "steepest_cents",
    "steepest_angle_deg",
    "reason",
    "room_file",
    "catalog_dir",
)

Row = dict[str, Any]


def summary_row(names: tuple[str, str], folder: str, document: Document | None, reason: str) -> Row:
    """Return one row: room and price list, where the answer lies, and its two ends.

    The caller adds the files that both were read from, where there are any.
    With an angle asked for, the cheapest wall is the cheapest of that angle or more.
    """
    row: Row = dict.fromkeys(COLUMNS, "")
    row |= {"room": names[0], "catalog": names[1], "folder": folder}
    if document is None:
        return row | {"outcome": "no wall", "designs": 0, "reason": reason}
    designs = document["designs"]
    asked = document["target_angle_deg"]
    steep = [d for d in designs if asked is None or d["angle_deg"] >= asked] or designs
    cheapest = min(steep, key=lambda d: (d["cost_cents"], -d["angle_deg"]))
    steepest = max(designs, key=lambda d: (d["angle_deg"], -d["cost_cents"]))
    return row | {
        "outcome": "complete" if document["complete"] else document["stopped"],
        "designs": len(designs),
        "currency": document["currency"],
        "cheapest_cents": cheapest["cost_cents"],
        "cheapest_angle_deg": cheapest["angle_deg"],
        "steepest_cents": steepest["cost_cents"],
        "steepest_angle_deg": steepest["angle_deg"],
    }


def summary_csv(rows: list[Row]) -> str:
    """Return the table for a spreadsheet; money in cents."""
    return csv_text(COLUMNS, ([row[name] for name in COLUMNS] for row in rows))
