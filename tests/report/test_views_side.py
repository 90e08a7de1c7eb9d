"""Side view of a 3-4-5 wall: every corner worked out by hand."""

from __future__ import annotations

from typing import Any

from steepwright.catalog import read_materials
from steepwright.report.views.build import finishing
from steepwright.report.views.rows import tie_words
from steepwright.report.views.side import Folded, SideBox, Sweep, side_view
from steepwright.report.views.stair import _hardware

Doc = dict[str, Any]


def test_the_corners_of_a_3_4_5_wall(plain_document: Doc, plain_design: Doc) -> None:
    view = side_view(plain_document, plain_design)
    # Up the slope is (3/5, 4/5), behind the face is (-4/5, 3/5).
    assert view.sheet_mm == ((1000, 300), (2500, 2300), (2484, 2312), (984, 312))
    assert view.frame_mm == ((984, 312), (2484, 2312), (2404, 2372), (904, 372))
    assert view.kicker_sheet_mm == ((1000, 0), (1000, 300), (980, 300), (980, 0))
    assert view.kicker_frame_mm == ((980, 0), (980, 300), (880, 300), (880, 0))
    assert (view.foot_mm, view.lip_mm) == ((1000, 300), (2500, 2300))
    assert view.fall_x_mm == (2500, 4600)
    assert view.hung_from_mm == 2400


def test_a_board_folded_level_about_its_lip(plain_document: Doc, plain_design: Doc) -> None:
    # Level and face down, the board reaches 2500 behind the lip and 120 up. Its foot has swung
    # from straight down the slope (direction -3/5, -4/5: 233.13 degrees) to straight back (180).
    assert side_view(plain_document, plain_design).folded == Folded(
        outline_mm=((0, 2300), (2500, 2300), (2500, 2420), (0, 2420)),
        angle_deg=90.0,
        headroom_mm=2180,
        stops_at="",
        sweep=Sweep((2500, 2300), 2500, -126.87, -180.0),
    )


def test_facing_the_other_way_mirrors_the_view(plain_document: Doc, plain_design: Doc) -> None:
    there = side_view(plain_document, plain_design)
    mirrored = plain_design | {"facing": "-x", "x_foot_mm": 4000, "x_lip_mm": 2500}
    here = side_view(plain_document, mirrored)
    assert here.sheet_mm == tuple((5000 - x, z) for x, z in there.sheet_mm)
    assert here.frame_mm == tuple((5000 - x, z) for x, z in there.frame_mm)
    assert here.fall_x_mm == (2500, 400)
    assert here.folded is not None
    assert there.folded is not None
    assert here.folded.outline_mm == tuple((5000 - x, z) for x, z in there.folded.outline_mm)
    assert here.climber == there.climber


def test_boxes_say_whether_they_stand_in_the_way(plain_document: Doc, plain_design: Doc) -> None:
    assert side_view(plain_document, plain_design).boxes == (
        SideBox("shelf", (4600, 5000), (0, 900), "solid"),
        SideBox("pipe", (0, 5000), (0, 100), "beside"),
        SideBox("oak", (2450, 2550), (2400, 2550), "mine"),
    )


def test_the_braces_of_a_frame_end_on_the_floor(plain_document: Doc, plain_design: Doc) -> None:
    """Joined 100 mm from the foot's ends: 1200 by 1600 on the plan, so 3-4-5; 90 mm deep.

    Square to the brace half of it is 45: (36, 27) at its upper end, 45 x 5/4 along the floor.
    """
    assert read_materials().factors["frame_toe_mm"] == 100
    stand = {"post_mm": [80, 120], "brace_mm": [50, 90], "brace_up_mm": 1600, "foot_mm": 1300}
    room = plain_document["room"]
    beams = [beam | {"kind": "frame", "stand": stand, "x_mm": 2500} for beam in room["beams"]]
    document = plain_document | {"room": room | {"beams": beams}}
    left, right = side_view(document, plain_design).braces_mm
    assert right == ((3756, 0), (2536, 1627), (2464, 1573), (3644, 0))
    assert left == tuple((5000 - x, z) for x, z in right)


def test_a_wall_that_does_not_fold_has_no_parked_outline(
    plain_document: Doc, plain_design: Doc
) -> None:
    assert side_view(plain_document, plain_design | {"parked": None}).folded is None


def test_the_rope_leads_from_the_back_of_the_board_to_its_block(
    plain_document: Doc, plain_design: Doc
) -> None:
    # The pivot is the lip, 2500 up the slope; an eye 2000 down from it lies 500 up, 120 behind the
    # face: (1000 + 500 * 3/5 - 120 * 4/5, 300 + 500 * 4/5 + 120 * 3/5). The block: 1900 towards
    # the foot and 150 up from the pivot.
    lift = {"eye_mm": 2000, "block_mm": [1900, 150]}
    view = side_view(plain_document, plain_design | {"lift": lift})
    assert view.rope_mm == ((1204, 772), (600, 2450))
    assert side_view(plain_document, plain_design).rope_mm == ()


def test_a_block_without_room_below_its_beam_is_drawn_beside_it(
    plain_document: Doc, plain_design: Doc
) -> None:
    view = side_view(
        plain_document,
        plain_design | {"lift": {"eye_mm": 2000, "block_mm": [1900, 150], "beam": None}},
    )
    (x, z) = view.rope_mm[1]
    base = plain_document["room"]["beams"][0]
    for underside, above, at in ((z + 10, 0, x), (z - 60, 60, x + view.sign * (70 + 40))):
        over = base | {"name": "over", "x_mm": x, "width_mm": 140, "underside_mm": [underside] * 2}
        room = plain_document["room"] | {"beams": [*plain_document["room"]["beams"], over]}
        lift = {"eye_mm": 2000, "block_mm": [1900, 150], "beam": "over"}
        made = side_view(plain_document | {"room": room}, plain_design | {"lift": lift})
        assert (made.block_up_mm, made.rope_mm[1]) == (above, (at, z))


def test_the_climber_touches_the_face_with_hand_and_foot(
    plain_document: Doc, plain_design: Doc
) -> None:
    figure = side_view(plain_document, plain_design).climber
    joints = (figure.arm_mm[0], figure.far_arm_mm[0], figure.leg_mm[-1], figure.far_leg_mm[-1])
    assert [out for _, out in joints] == [25] * 4
    downs = [down for down, _ in joints]
    assert 0 < downs[0] < downs[1] < downs[3] < downs[2] < plain_design["board_mm"]
    # Nothing of the body is inside the board; hip and knees hang well clear of it.
    assert min(figure.trunk_mm[0][1], figure.trunk_mm[1][1], figure.leg_mm[1][1]) > 200


TIE = {
    "sku": "T",
    "what": "rope set",
    "count": 4,
    "at_mm": 1250,
    "beam": "far",
    "from_mm": [1750, 1300],
    "to_mm": [1200, 2500],
    "length_mm": 1320,
    "lean_deg": 1.0,
}


def test_a_tie_runs_from_the_middle_of_the_frames_back_to_its_beam(
    plain_document: Doc, plain_design: Doc
) -> None:
    assert side_view(plain_document, plain_design).tie_mm == ()
    tied = side_view(plain_document, plain_design | {"tie_back": TIE})
    # Half way up, and 100 behind the face.
    thick = plain_design["sheet_thickness_mm"] + plain_design["stud_mm"][1]
    back = (1000 + 750 - 0.8 * thick, 300 + 1000 + 0.6 * thick)
    assert tied.tie_mm == ((round(back[0]), round(back[1])), (1200, 2500))


def test_a_tied_wall_tells_its_ties_where_they_are_needed(plain_design: Doc) -> None:
    tied = plain_design | {"tie_back": TIE}
    assert tie_words(plain_design) == ""
    assert tie_words(tied) == "4 × rope set, to the beam “far”"
    steps = {step.title: step for step in finishing(tied)}
    assert "1320 mm to the beam “far”" in steps["Tie the studs back"].detail
    assert "Undo all ties" in steps["Try the fold"].text
    plain = {step.title: step.text for step in finishing(plain_design)}
    assert "Tie the studs back" not in plain
    assert "ties" not in plain["Try the fold"]
    assert _hardware(plain_design, tied) == "every stud tied back by “rope set”"
    assert _hardware(tied, plain_design) == "no ties"
