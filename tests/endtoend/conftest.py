"""A small invented room, and the command line called in-process as a user calls it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

import steepwright
from steepwright.cli.console import run

SMALL_ROOM = """\
# Invented. Coarse steps and narrow ranges, so that the whole search takes about a second.
[room]
name = "Small room"
length_mm = 5200
width_mm = 3000
ceiling_mm = 2600

[[beams]]
name = "inner"
x_mm = 2900
underside_mm = [2430, 2410]
width_mm = 140
depth_mm = 220
span_mm = 3200
grade = "C24"
existing_load_n_per_m = 600

[[beams]]
name = "outer"
x_mm = 4100
underside_mm = 2440
width_mm = 140
depth_mm = 220
span_mm = 3200
grade = "C24"
existing_load_n_per_m = 600

[[solids]]
name = "cupboard"
x_mm = [4900, 5200]
y_mm = [0, 1400]
z_mm = [0, 1900]

[climber]
mass_kg = 70
span_mm = 1700

[wall]
angle_deg = [25, 45]
kicker_mm = [300, 400]
width_mm = [1200, 1200]
step_mm = 50
board_mm = [2450, 2600]
sheet_kinds = ["birch"]
max_columns = 1
max_rows = 2
min_fall_space_mm = 700
side_passage_mm = 600

[yard]
cut_price = 1.50
delivery_price = 39.00
vehicle_max_mm = [2600, 1300]
kerf_mm = 4
"""


@dataclass(frozen=True, slots=True)
class Said:
    """What one command gave back."""

    code: int
    out: str
    err: str


@pytest.fixture(scope="session", autouse=True)
def same_package_in_child_processes() -> Iterator[None]:
    """Children work in other folders: a relative PYTHONPATH would lead them to another package."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("PYTHONPATH", str(Path(steepwright.__file__).parents[1]))
        yield


@pytest.fixture(scope="session")
def small_room() -> str:
    return SMALL_ROOM


@pytest.fixture
def call(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., Said]:
    """Call the command line in an empty folder."""
    folder = tmp_path / "here"
    folder.mkdir()
    monkeypatch.chdir(folder)

    def call(*args: str) -> Said:
        capsys.readouterr()
        code = run(args)
        said = capsys.readouterr()
        return Said(code, said.out, said.err)

    return call
