"""``steepwright sheets`` on the shipped example: files read back by other libraries."""

from __future__ import annotations

import csv
import json
import shutil
import subprocess
from pathlib import Path

import ezdxf
import pytest

from steepwright.cli.console import run

EXAMPLE = Path(__file__).resolve().parents[2] / "reports" / "loft"


def first_design() -> dict[str, object]:
    document = json.loads((EXAMPLE / "designs.json").read_text(encoding="utf-8"))
    design: dict[str, object] = document["designs"][0]
    return design


def test_csv_of_the_bill_adds_up_to_the_cost(tmp_path: Path) -> None:
    assert run(["sheets", str(EXAMPLE), "--design", "W01", "--csv", str(tmp_path)]) == 0
    with (tmp_path / "bill.csv").open(encoding="utf-8") as rows:
        total = sum(round(float(row["amount"]) * 100) for row in csv.DictReader(rows))
    assert total == first_design()["cost_cents"]


def test_dxf_holds_every_piece_of_the_cut_plan(tmp_path: Path) -> None:
    drawing = tmp_path / "w.dxf"
    assert run(["sheets", str(EXAMPLE), "--design", "W01", "--dxf", str(drawing)]) == 0
    plan = first_design()["cut_plan"]
    assert isinstance(plan, dict)
    parts = [p for sheet in plan["sheets"] for p in sheet["parts"]]
    sizes = sorted((p["length_mm"], p["width_mm"]) for p in parts)
    found = []
    for outline in ezdxf.readfile(drawing).modelspace().query("LWPOLYLINE"):
        assert outline.closed
        xs, ys = zip(*((x, y) for x, y, *_ in outline.get_points()), strict=True)
        found.append((round(max(xs) - min(xs)), round(max(ys) - min(ys))))
    for size in set(sizes):
        assert found.count(size) >= sizes.count(size), size
    bars = sum(len(bar["pieces_mm"]) for bar in plan["timber"])
    assert len(found) >= len(parts) + bars


@pytest.mark.parametrize(("folder", "name", "code"), [(EXAMPLE, "X9", 2), (None, "W01", 3)])
def test_what_is_not_there_is_said(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    folder: Path | None,
    name: str,
    code: int,
) -> None:
    target = tmp_path / "out"
    call = ["sheets", str(folder or tmp_path), "--design", name, "--csv", str(target)]
    assert run(call) == code
    assert "Traceback" not in capsys.readouterr().err
    assert not target.exists()


@pytest.mark.browser
def test_pdf_is_on_a4_and_names_the_design_and_its_total(tmp_path: Path) -> None:
    if not (shutil.which("chromium") and shutil.which("pdftotext")):
        pytest.skip("needs Chromium and pdftotext")
    out = tmp_path / "w.pdf"
    assert run(["sheets", str(EXAMPLE), "--design", "W01", "--out", str(out)]) == 0
    told = subprocess.run(["pdfinfo", out], capture_output=True, text=True, check=True).stdout
    assert "A4" in told
    pages = int(told.split("Pages:")[1].split()[0])
    assert pages > 3
    text = subprocess.run(
        ["pdftotext", out, "-"], capture_output=True, text=True, check=True
    ).stdout
    cost = first_design()["cost_cents"]
    assert isinstance(cost, int)
    assert "W01" in text
    assert f"{cost / 100:.2f}" in text
