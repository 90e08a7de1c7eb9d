"""What the shipped example's invented prices make up of a cost is told beside it."""

from __future__ import annotations

import csv
import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

from steepwright.resources import shipped_catalog_dir

LACKED = ("mounts.csv", "screws.csv", "hardware.csv")


def shipped_cents() -> dict[str, int]:
    """Return what each article costs that the yard below lacks, as the shipped tables tell it."""
    prices = {}
    for name in LACKED:
        with (shipped_catalog_dir() / name).open(encoding="utf-8", newline="") as file:
            prices |= {row["sku"]: round(float(row["price"]) * 100) for row in csv.DictReader(file)}
    return prices


def test_money_from_the_example_is_told_at_the_sum_it_touches(
    tmp_path: Path, small_room: str, call: Callable[..., Any]
) -> None:
    room = tmp_path / "room.toml"
    room.write_text(small_room, encoding="utf-8")
    yard = Path(shutil.copytree(shipped_catalog_dir(), tmp_path / "yard"))
    heading = (yard / "yard.toml").read_text(encoding="utf-8")
    own = heading.replace('name = "Example yard"', 'name = "My yard"')
    assert own != heading
    (yard / "yard.toml").write_text(own, encoding="utf-8")
    for name in LACKED:
        (yard / name).unlink()
    args = ("search", str(room), "--quiet", "--workers", "1", "--no-changes", "--out", "answer")
    said = call(*args, "--catalog", str(yard))
    assert said.code == 0, said.err
    cents = shipped_cents()
    designs = json.loads(Path("answer/designs.json").read_text(encoding="utf-8"))["designs"]
    told = dict(re.findall(r"^  (W\d+): ([\d.]+) of [\d.]+ EUR \(", said.out, flags=re.M))
    assert told, said.out
    for design in designs[: len(told)]:
        invented = sum(cents.get(line["sku"], 0) * line["quantity"] for line in design["bill"])
        assert round(float(told[design["id"]]) * 100) == invented > 0
        whole = f"{design['cost_cents'] / 100:.2f}"
        assert f"  {design['id']}: {told[design['id']]} of {whole} EUR" in said.out


def test_nothing_is_told_of_a_catalogue_that_has_all(
    tmp_path: Path, small_room: str, call: Callable[..., Any]
) -> None:
    room = tmp_path / "room.toml"
    room.write_text(small_room, encoding="utf-8")
    said = call("search", str(room), "--quiet", "--workers", "1", "--no-changes", "--out", "answer")
    assert said.code == 0, said.err
    assert "Invented" not in said.out
