"""Front and floor views of the wall that can be checked by hand."""

from __future__ import annotations

from typing import Any

from steepwright.geometry.guidance import FallGuidance
from steepwright.report.views.front import FrontView, HoldGrid, front_view
from steepwright.report.views.top import Area, TopView, top_view

Doc = dict[str, Any]
BESIDE = "Clear floor at the {} side is {} mm; the guidance asks for 1500 mm, so it is"


def test_front_view(plain_document: Doc, plain_design: Doc) -> None:
    assert front_view(plain_document, plain_design) == FrontView(
        width_mm=1200,
        kicker_mm=300,
        board_mm=2500,
        panels=((0, 300, 1200, 1500), (0, 1800, 1200, 1000), (0, 0, 1200, 300)),
        bars=(
            (0, 300, 1200, 40),
            (0, 2760, 1200, 40),
            (0, 340, 40, 2420),
            (580, 340, 40, 2420),
            (1160, 340, 40, 2420),
            (0, 0, 1200, 40),
            (0, 260, 1200, 40),
            (0, 40, 40, 220),
            (580, 40, 40, 220),
            (1160, 40, 40, 220),
            (40, 1780, 540, 40),
            (620, 1780, 540, 40),
        ),
        seams_y_mm=(),
        seams_v_mm=(1800,),
        stud_centres_mm=(20.0, 600.0, 1180.0),
        mounts_y_mm=(20.0, 1180.0),
        # The beam rises 10 mm over 2000: at y = 420 and 1580 it is 2402.1 and 2407.9 high.
        hung_mm=(102, 108),
        holds=HoldGrid(
            y_mm=(100, 300, 600),
            v_mm=(400, 600),
            blocked=((2, 0),),
            absent=((1, 1), (2, 1)),
        ),
    )


def test_facing_the_other_way_the_climber_has_the_far_side_on_the_left(
    plain_document: Doc, plain_design: Doc
) -> None:
    assert front_view(plain_document, plain_design | {"facing": "-x"}).hung_mm == (108, 102)


def test_floor_view(plain_document: Doc, plain_design: Doc) -> None:
    guidance = FallGuidance(2000.0, 1500.0, 300.0, "guidance")
    assert top_view(plain_document, plain_design, guidance) == TopView(
        length_mm=5000,
        width_mm=2000,
        sign=1,
        solids=(
            Area("shelf", (4600, 5000), (0, 2000)),
            Area("pipe", (0, 5000), (1900, 2000)),
        ),
        beams=(Area("oak", (2450, 2550), (0, 2000)),),
        wall=Area("under the board", (1000, 2500), (400, 1600)),
        frame=Area("frame", (880, 1000), (400, 1600)),
        fall=Area("fall space", (2500, 4600), (400, 1600)),
        pads=Area("pads", (1000, 4500), (0, 2000)),
        left_mm=400,
        right_mm=300,
        passage_mm=400,
        asked_front_mm=2000,
        asked_side_mm=1500,
        asked_mat_mm=300,
        shortfall=(
            f"{BESIDE.format('left', 400)} 1100 mm short.",
            f"{BESIDE.format('right', 300)} 1200 mm short.",
        ),
    )


def test_what_is_short_at_a_side_is_told_as_the_climber_sees_it(
    plain_document: Doc, plain_design: Doc
) -> None:
    """400 mm are clear towards y = 0: on the right hand of who looks along +x at the wall."""
    guidance = FallGuidance(2000.0, 1500.0, 300.0, "guidance")
    turned = plain_design | {"facing": "-x", "x_foot_mm": 2500, "x_lip_mm": 1000}
    view = top_view(plain_document, turned, guidance)
    assert (view.left_mm, view.right_mm) == (400, 300)
    assert set(view.shortfall) >= {
        f"{BESIDE.format('right', 400)} 1100 mm short.",
        f"{BESIDE.format('left', 300)} 1200 mm short.",
    }


def test_of_a_slab_only_the_place_it_hangs_from_is_drawn(
    plain_document: Doc, plain_design: Doc
) -> None:
    beam = next(b for b in plain_document["room"]["beams"] if b["name"] == plain_design["beam"])
    slabs = [beam | {"name": f"slab {n}", "kind": "slab", "width_mm": 1} for n in (1, 2, 3)]
    document = plain_document | {"room": plain_document["room"] | {"beams": slabs}}
    design = plain_design | {"beam": "slab 2"}
    guidance = FallGuidance(2000, 1500, 300, 3000)
    assert [b.name for b in top_view(document, design, guidance).beams] == ["slab 2"]
