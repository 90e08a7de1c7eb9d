"""The wall that `new` writes is assessed for real, and passes."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest

from steepwright.cli.console import run


@pytest.fixture
def loft(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    assert run(["new", str(tmp_path / "loft")]) == 0
    capsys.readouterr()
    return tmp_path / "loft"


def assess(loft: Path, *more: str) -> int:
    return run(["assess", str(loft / "room.toml"), "--design", str(loft / "wall.toml"), *more])


def test_the_example_wall_passes_every_check(
    loft: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert assess(loft, "--json") == 0
    design = json.loads(capsys.readouterr().out)["designs"][0]
    wanted = tomllib.loads((loft / "wall.toml").read_text(encoding="utf-8"))
    assert design["angle_deg"] == pytest.approx(wanted["angle_deg"], abs=0.05)
    assert {key: design[key] for key in ("beam", "kicker_mm", "sheet", "stud", "rows")} == {
        key: wanted[key] for key in ("beam", "kicker_mm", "sheet", "stud", "rows")
    }
    assert design["checks"]
    assert all(check["use"] <= 1 for check in design["checks"])
    assert design["settled"]


def test_a_weaker_frame_fails_and_says_where(
    loft: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wall = loft / "wall.toml"
    wall.write_text(wall.read_text(encoding="utf-8").replace("45 x 95", "45 x 70"))
    assert assess(loft) == 4
    last = capsys.readouterr().out.splitlines()[-1]
    assert last.startswith("This wall FAILS: ")
    assert "stud" in last
