from __future__ import annotations

import importlib.util
from pathlib import Path
from typing import Any

import pytest

_SAMPLE = Path(__file__).with_name("sample.py")


def _load() -> Any:
    spec = importlib.util.spec_from_file_location("report_sample", _SAMPLE)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def sample() -> Any:
    """The module that makes invented documents."""
    return _load()


@pytest.fixture(scope="session")
def document(sample: Any) -> dict[str, Any]:
    """An invented front."""
    return sample.document()


@pytest.fixture
def plain_design() -> dict[str, Any]:
    """A wall that can be checked by hand.

    Its angle has sine 3/5 and cosine 4/5 (a 3-4-5 triangle), so that a board of 2500 mm has a
    floor run of 1500 mm and rises 2000 mm; the pivot lies on the lip.
    """
    return {
        "id": "W01",
        "angle_deg": 36.86989764584402,
        "kicker_mm": 300,
        "board_mm": 2500,
        "width_mm": 1200,
        "beam": "oak",
        "facing": "+x",
        "columns": 1,
        "rows": 2,
        "sheet": "OSB/3 18 mm",
        "sheet_thickness_mm": 20,
        "stud": "40 x 100 C24",
        "stud_mm": [40, 100],
        "stud_count": 3,
        "mount": "mount",
        "mount_count": 2,
        "delivered": False,
        "cost_cents": 1000,
        "bill": [
            {
                "sku": "s",
                "what": "Sheet",
                "quantity": 2,
                "unit_cents": 400,
                "amount_cents": 800,
                "group": "sheets",
                "yard": "",
            },
            {
                "sku": "n",
                "what": "T-nut (pack of 50 pieces, 12 needed)",
                "quantity": 1,
                "unit_cents": 200,
                "amount_cents": 200,
                "group": "hardware",
                "yard": "shop",
            },
        ],
        "fall_space_mm": 2100,
        "floor_run_mm": 1500,
        "mass_kg": 80.0,
        "column_widths_mm": [1200],
        "row_lengths_mm": [1500, 1000],
        "stud_centres_mm": [20.0, 600.0, 1180.0],
        "mount_centres_mm": [20.0, 1180.0],
        "x_foot_mm": 1000,
        "x_lip_mm": 2500,
        "lip_height_mm": 2300,
        "x_pivot_mm": 2500,
        "pivot_height_mm": 2300,
        "y_mm": [400, 1600],
        "climbable_mm": 2800,
        "parked": {"angle_deg": 90.0, "headroom_mm": 2180, "x_mm": [0, 2500]},
        "hold_positions": 3,
        "holds": {
            "free_mm": [[100, 100], [300, 100], [100, 300]],
            "blocked_mm": [[600, 100]],
        },
        "checks": [
            {
                "name": "b",
                "clause": "c1",
                "demand": 123.456,
                "capacity": 200.0,
                "unit": "N",
                "use": 0.617,
                "assumption": "",
                "settled": True,
            },
            {
                "name": "a",
                "clause": "c2",
                "demand": 9.5,
                "capacity": 10.0,
                "unit": "MPa",
                "use": 0.95,
                "assumption": "x",
                "settled": True,
            },
        ],
        "governing_check": "a",
        "settled": True,
        "pieces": [
            {
                "name": "board 1500 x 1200",
                "kind": "sheet",
                "length_mm": 1500,
                "width_mm": 1200,
                "thickness_mm": 20,
                "count": 1,
                "mass_kg": 23.0,
                "people": 1,
            },
            {
                "name": "stud",
                "kind": "timber",
                "length_mm": 2420,
                "width_mm": 100,
                "thickness_mm": 40,
                "count": 3,
                "mass_kg": 4.1,
                "people": 1,
            },
        ],
        "cut_plan": {
            "sheets": [
                {
                    "sku": "s",
                    "length_mm": 2500,
                    "width_mm": 1250,
                    "kerf_mm": 4,
                    "parts": [
                        {
                            "name": "board 1500 x 1200",
                            "x_mm": 0,
                            "y_mm": 0,
                            "length_mm": 1500,
                            "width_mm": 1200,
                        }
                    ],
                    "cuts": [
                        {"axis": "x", "at_mm": 1500, "x_mm": [0, 2500], "y_mm": [0, 1250]},
                        {"axis": "y", "at_mm": 1200, "x_mm": [0, 1500], "y_mm": [0, 1250]},
                    ],
                }
            ]
            * 2,
            "timber": [
                {
                    "sku": "t",
                    "stock_mm": 4900,
                    "kerf_mm": 4,
                    "pieces_mm": [2420, 2420],
                    "pieces": ["stud", "stud"],
                },
                {
                    "sku": "t",
                    "stock_mm": 2420,
                    "kerf_mm": 4,
                    "pieces_mm": [2420],
                    "pieces": ["stud"],
                },
            ],
        },
    }


@pytest.fixture
def plain_document(plain_design: dict[str, Any]) -> dict[str, Any]:
    """A document around the wall that can be checked by hand."""
    return {
        "currency": "EUR",
        "room": {
            "name": "box",
            "length_mm": 5000,
            "width_mm": 2000,
            "ceiling_mm": 2500,
            "beams": [
                {
                    "name": "oak",
                    "x_mm": 2500,
                    "underside_mm": [2400, 2410],
                    "width_mm": 100,
                    "depth_mm": 150,
                }
            ],
            "solids": [
                {"name": "shelf", "x_mm": [4600, 5000], "y_mm": [0, 2000], "z_mm": [0, 900]},
                {"name": "pipe", "x_mm": [0, 5000], "y_mm": [1900, 2000], "z_mm": [0, 100]},
            ],
            "climber": {"span_mm": 1700},
            "wall": {"angle_deg": [20.0, 50.0]},
        },
        "designs": [plain_design],
    }
