"""Cut plans as the shop reads them."""

from __future__ import annotations

from typing import Any

from steepwright.report.data import design_view
from steepwright.report.views.cuts import (
    BarCuts,
    BarPiece,
    Cut,
    Part,
    SheetCuts,
    bar_cuts,
    marks_of,
    sheet_cuts,
)

Doc = dict[str, Any]


def test_equal_sheets_are_shown_once_with_their_count(plain_design: Doc) -> None:
    assert sheet_cuts(plain_design, marks_of(plain_design)) == (
        SheetCuts(
            sku="s",
            what="Sheet",
            count=2,
            length_mm=2500,
            width_mm=1250,
            kerf_mm=4,
            used=0.576,  # 1500 x 1200 of 2500 x 1250
            parts=(Part("A", "board 1500 x 1200", 0, 0, 1500, 1200, "x"),),
            cuts=(
                Cut("x", 1500, 1500, (0, 1250), (0, 2500), across=True),
                Cut("y", 1200, 1200, (0, 1500), (0, 1250), across=False),
            ),
        ),
    )


def test_the_fence_is_measured_from_the_block_that_is_sawn(plain_design: Doc) -> None:
    sheet = plain_design["cut_plan"]["sheets"][0]
    cut = {"axis": "x", "at_mm": 1904, "x_mm": [1504, 2500], "y_mm": [0, 1250]}
    design = plain_design | {"cut_plan": {"sheets": [sheet | {"cuts": [cut]}], "timber": []}}
    (layout,) = sheet_cuts(design, marks_of(design))
    assert layout.cuts == (Cut("x", 400, 1904, (0, 1250), (1504, 2500), across=True),)


def test_across_is_square_to_the_longer_side_however_a_list_names_the_sides(
    plain_design: Doc,
) -> None:
    """A sheet of 4 x 8 ft named by its shorter side: the blade crosses it in the same place."""
    told = {"axis": "y", "at_mm": 1219, "x_mm": [0, 1219], "y_mm": [0, 2438]}
    rip = {"axis": "x", "at_mm": 600, "x_mm": [0, 1219], "y_mm": [0, 1219]}
    sheet = plain_design["cut_plan"]["sheets"][0]
    small = sheet | {"length_mm": 1219, "width_mm": 2438, "cuts": [told, rip], "parts": []}
    design = plain_design | {"cut_plan": {"sheets": [small], "timber": []}}
    (layout,) = sheet_cuts(design, marks_of(design))
    assert [cut.across for cut in layout.cuts] == [True, False]


def test_the_side_that_runs_up_the_wall_is_marked(plain_design: Doc) -> None:
    """The piece is 1500 up the slope and 1200 across; a square one may be turned."""
    sheet = plain_design["cut_plan"]["sheets"][0]
    (part,) = sheet["parts"]
    turned = part | {"length_mm": 1200, "width_mm": 1500}
    strip = part | {"name": "kicker 1200 x 300", "length_mm": 1200, "width_mm": 300}
    square = part | {"length_mm": 1500, "width_mm": 1500}
    for laid, up in ((part, "x"), (turned, "y"), (strip, ""), (square, "")):
        plan = {"sheets": [sheet | {"parts": [laid]}], "timber": []}
        (layout,) = sheet_cuts(plain_design | {"cut_plan": plan}, marks_of(plain_design))
        assert layout.parts[0].up == up


def test_a_piece_wider_than_high_points_up_along_its_shorter_side(plain_design: Doc) -> None:
    """Rows of 1000 across 1200, by hand; the list of pieces has the longer side first."""
    sheet = plain_design["cut_plan"]["sheets"][0]
    name = "board 1000 x 1200"
    listed = plain_design["pieces"][0] | {"name": name, "length_mm": 1200, "width_mm": 1000}
    design = plain_design | {"row_lengths_mm": [1000, 1000], "pieces": [listed]}
    for length, width, up in ((1000, 1200, "x"), (1200, 1000, "y")):
        laid = sheet["parts"][0] | {"name": name, "length_mm": length, "width_mm": width}
        plan = {"sheets": [sheet | {"parts": [laid]}], "timber": []}
        (layout,) = sheet_cuts(design | {"cut_plan": plan}, marks_of(design))
        assert layout.parts[0].up == up


def test_the_arrows_of_the_drawings_run_along_rows(document: Doc) -> None:
    """What runs up is a row of the wall, what runs across a column, whatever a piece's name."""
    for design in document["designs"]:
        for layout in sheet_cuts(design, marks_of(design)):
            for part in layout.parts:
                if part.up:
                    sides = part.length_mm, part.width_mm
                    up, across = sides if part.up == "x" else sides[::-1]
                    assert up in design["row_lengths_mm"]
                    assert across in design["column_widths_mm"]


def test_bars_and_what_is_left_of_them(plain_design: Doc) -> None:
    # Two pieces of 2420 with a kerf after each leave 4900 - 4840 - 8 = 52; one that fills the
    # bar needs no cut and leaves nothing.
    assert bar_cuts(plain_design, marks_of(plain_design)) == (
        BarCuts(
            "t",
            "t",
            1,
            4900,
            4,
            52,
            (BarPiece("1", "stud", 0, 2420), BarPiece("1", "stud", 2424, 2420)),
        ),
        BarCuts("t", "t", 1, 2420, 4, 0, (BarPiece("1", "stud", 0, 2420),)),
    )


def test_every_piece_of_every_plan_carries_its_mark(document: Doc) -> None:
    for design in document["designs"]:
        view = design_view(document, design)
        marks = {lift.mark for lift in view.lifts}
        used = {part.mark for sheet in view.sheets for part in sheet.parts}
        used |= {piece.mark for bar in view.bars for piece in bar.pieces}
        assert used == marks
        assert len(marks) == len(view.lifts)


def test_pieces_counted_on_the_plans_are_the_pieces_to_lift(document: Doc) -> None:
    for design in document["designs"]:
        view = design_view(document, design)
        cut: dict[str, int] = {}
        for sheet in view.sheets:
            for part in sheet.parts:
                cut[part.mark] = cut.get(part.mark, 0) + sheet.count
        for bar in view.bars:
            for piece in bar.pieces:
                cut[piece.mark] = cut.get(piece.mark, 0) + bar.count
        assert cut == {lift.mark: lift.count for lift in view.lifts}
