"""The example room without a visible beam, searched from end to end over a few lengths."""

from __future__ import annotations

import json
import math
from collections import Counter
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from frame_tables import FRAMES, LEDGERS, SPREADERS
from steepwright.cli.console import run
from steepwright.report.views.guidance import guidance_of
from steepwright.report.views.side import side_view
from steepwright.report.views.top import top_view
from steepwright.resources import catalogs_dir

GARAGE = catalogs_dir() / "example" / "garage.toml"
NARROW = {
    "step_mm = 10": "step_mm = 100",
    "kicker_mm = [200, 400]": "kicker_mm = [300, 400]\nboard_mm = [2400, 2600]",
    "width_mm = [1220, 2440]": "width_mm = [1200, 1200]",
    "max_columns = 2": "max_columns = 1",
    'sheet_kinds = ["birch", "OSB/3"]': 'sheet_kinds = ["birch"]',
}
CEILING_MM, LINING_MM = 2440, 15
SCHEMA = jsonschema.Draft202012Validator(
    json.loads((catalogs_dir() / "schemas" / "designs.schema.json").read_text(encoding="utf-8"))
)


def assert_kept_and_proven(tmp_path: Path, document: dict[str, Any]) -> None:
    SCHEMA.validate(document)
    assert run(["verify", "--strict", str(tmp_path / "out")]) == 0


def searched(folder: Path, *changes: tuple[str, str]) -> dict[str, Any]:
    text = GARAGE.read_text(encoding="utf-8")
    for old, new in (*NARROW.items(), *changes):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    (folder / "garage.toml").write_text(text, encoding="utf-8")
    out = str(folder / "out")
    assert run(["search", str(folder / "garage.toml"), "--angle", "30", "--out", out]) == 0
    return dict(json.loads((folder / "out" / "designs.json").read_text(encoding="utf-8")))


@pytest.fixture(scope="module")
def answer(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, Any]]:
    folder = tmp_path_factory.mktemp("garage")
    return folder, searched(folder)


def test_walls_hang_from_joists_below_the_ceiling(answer: tuple[Path, dict[str, Any]]) -> None:
    _, document = answer
    joists = {beam["name"]: beam for beam in document["room"]["beams"]}
    assert len(joists) == 7
    assert document["designs"]
    for design in document["designs"]:
        joist = joists[design["beam"]]
        assert design["mount_kind"] == joist["kind"] == "joist"
        assert design["settled"]
        assert design["pivot_height_mm"] < CEILING_MM
        lean = math.radians(design["angle_deg"])
        top = design["kicker_mm"] + design["board_mm"] * math.cos(lean)
        assert abs(top - design["lip_height_mm"]) <= 1
        assert top < CEILING_MM
    assert any("lining bears nothing" in text for text in document["assumptions"])


def test_the_document_keeps_to_its_schema(answer: tuple[Path, dict[str, Any]]) -> None:
    SCHEMA.validate(answer[1])


def test_the_certificate_is_verified_by_means_of_its_own(
    answer: tuple[Path, dict[str, Any]],
) -> None:
    assert run(["verify", "--strict", str(answer[0] / "out")]) == 0


def test_the_side_view_draws_the_joists_above_the_lining(
    answer: tuple[Path, dict[str, Any]],
) -> None:
    _, document = answer
    boxes = [b for b in side_view(document, document["designs"][0]).boxes if "joist" in b.name]
    assert len(boxes) == 7
    assert {box.z_mm[0] for box in boxes} == {CEILING_MM + LINING_MM}


def test_joists_that_were_not_found_settle_nothing(tmp_path: Path) -> None:
    document = searched(tmp_path, ("\nfound = true", "\nfound = false"))
    assert document["designs"]
    assert not any(design["settled"] for design in document["designs"])
    assert "room-joists-unverified" in {finding["code"] for finding in document["findings"]}


def test_walls_hang_from_a_frame_of_ones_own_and_verify(tmp_path: Path) -> None:
    text = GARAGE.read_text(encoding="utf-8")
    row = text[text.index("[[joists]]") : text.index("[[solids]]")]
    document = searched(
        tmp_path,
        (row, FRAMES.replace("first_mm = 2500", "first_mm = 2600")),
        ("fold_up = true ", "fold_up = false "),
    )
    assert document["designs"]
    for design in document["designs"]:
        assert design["mount_kind"] == "frame"
        assert design["lip_height_mm"] < 2200
        checks = {check["name"]: check for check in design["checks"]}
        assert 0.0 < checks["frame tips over"]["use"] <= 1.0
        assert checks["frame slides"]["settled"]
        assert "ceiling beam bending" in checks
        assert 0.0 < checks["frame head's joint"]["use"] <= 1.0
        assert 0.0 < checks["frame post's foot joint"]["use"] <= 1.0
        pieces = [name for bar in design["cut_plan"]["stand"] for name in bar["pieces"]]
        assert Counter(pieces) == {
            "frame head beam": 1,
            "frame post": 2,
            "frame foot": 2,
            "frame brace": 4,
            "frame knee brace": 2,
            "frame head cheek": 4,
            "frame foot cheek": 4,
        }
        bought = {line["sku"]: line["quantity"] for line in design["bill"]}
        plan = [*design["cut_plan"]["stand"], *design["cut_plan"]["timber"]]
        counted = Counter(bar["sku"] for bar in plan)
        assert counted.items() <= bought.items()
        frame = [b for b in side_view(document, design).boxes if "frame" in b.name]
        assert {box.z_mm for box in frame} >= {(2200, 2400), (120, 2200), (0, 120)}
        # Braces of 60 x 120, 1300 mm out and 1600 mm up, one to each side.
        braces = side_view(document, design).braces_mm
        middle = [(sum(x for x, _ in b) / 4, sum(z for _, z in b) / 4) for b in braces]
        assert middle == [(design["x_pivot_mm"] + way * 650, 800) for way in (-1, 1)]
        for pad in design["pads"]["laid"]:
            assert 750 <= pad["y_mm"][0] < pad["y_mm"][1] <= 2350
        plan = top_view(document, design, guidance_of(design))
        feet = [area for area in plan.solids if area.name == "side of the frame"]
        x = design["x_pivot_mm"]
        assert [(a.x_mm, a.y_mm) for a in feet] == [
            ((x - 1400, x + 1400), (650, 750)),
            ((x - 1400, x + 1400), (2350, 2450)),
        ]
        assert (plan.left_mm, plan.right_mm, plan.passage_mm) == (200, 200, 650)
        assert any("left" in text for text in plan.shortfall)
    assert any("its timber and bolts are on the bill" in t for t in document["assumptions"])
    assert_kept_and_proven(tmp_path, document)


def test_walls_hang_from_a_beam_on_wall_ledgers_and_verify(tmp_path: Path) -> None:
    text = GARAGE.read_text(encoding="utf-8")
    row = text[text.index("[[joists]]") : text.index("[[solids]]")]
    document = searched(tmp_path, (row, LEDGERS), ("fold_up = true ", "fold_up = false "))
    assert document["designs"]
    for design in document["designs"]:
        assert design["mount_kind"] == "ledger"
        checks = {check["name"]: check for check in design["checks"]}
        assert 0.0 < checks["ledger screws"]["use"] <= 1.0
        assert checks["ledger screws"]["settled"]
        assert "ceiling beam bending" in checks
        pieces = [name for bar in design["cut_plan"]["stand"] for name in bar["pieces"]]
        assert Counter(pieces) == {"ledger beam": 1, "ledger": 2}
        (ledger,) = [b for b in side_view(document, design).boxes if b.name == "ledger"]
        assert (ledger.x_mm[1] - ledger.x_mm[0], ledger.z_mm) == (1200, (2040, 2200))
    assert any("Wall ledgers" in text for text in document["assumptions"])
    assert_kept_and_proven(tmp_path, document)


def test_walls_hang_from_a_timber_under_joists_along_the_room_and_verify(tmp_path: Path) -> None:
    text = GARAGE.read_text(encoding="utf-8")
    row = text[text.index("[[joists]]") : text.index("[[solids]]")]
    # With 75 kg the timber's screws use 1.02 of what they hold, for outer mounts are levered on.
    lighter = "mass_kg = 75", "mass_kg = 70"
    document = searched(
        tmp_path, (row, SPREADERS), ("fold_up = true ", "fold_up = false "), lighter
    )
    assert document["designs"]
    for design in document["designs"]:
        assert design["mount_kind"] == "spreader"
        checks = {check["name"]: check for check in design["checks"]}
        assert 0.0 < checks["joist bending"]["use"] <= 1.0
        assert checks["spreader's screw"]["settled"]
        (bar,) = design["cut_plan"]["stand"]
        assert bar["pieces"] == ["spreader"]
        # Joists from 250 to 2750, screws d 10: 100 mm past both, EN 1995-1-1 Table 8.6.
        assert bar["pieces_mm"] == [2700]
        (drawn,) = top_view(document, design, guidance_of(design)).beams
        assert drawn.y_mm == (150, 2850)
        (mine,) = [b for b in side_view(document, design).boxes if b.role == "mine"]
        assert mine.z_mm == (CEILING_MM - 120, CEILING_MM)
    assert any("Joists along the room" in text for text in document["assumptions"])
    assert any("is at least 2700 mm long" in text for text in document["assumptions"])
    assert_kept_and_proven(tmp_path, document)


def test_walls_hang_from_a_slab_and_verify(tmp_path: Path) -> None:
    text = GARAGE.read_text(encoding="utf-8")
    row = text[text.index("[[joists]]") : text.index("[[solids]]")]
    slab = '[[slabs]]\nname = "slab"\nfirst_mm = 2700\nspacing_mm = 300\ncount = 2\n'
    document = searched(tmp_path, (row, slab + "thickness_mm = 180\n\n"))
    assert document["designs"]
    for design in document["designs"]:
        assert design["mount_kind"] == "slab"
        assert not design["settled"]
        checks = {check["name"]: check for check in design["checks"]}
        assert not checks["anchor working load"]["settled"]
        assert "ceiling beam bending" not in checks
        slabs = [b for b in side_view(document, design).boxes if "slab" in b.name]
        assert [(box.x_mm, box.z_mm[0]) for box in slabs] == [((0, 5900), CEILING_MM)]
    assert {"room-anchor-unknown"} <= {finding["code"] for finding in document["findings"]}
    assert_kept_and_proven(tmp_path, document)
