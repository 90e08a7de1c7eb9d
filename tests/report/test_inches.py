"""A room in inches is shown in feet, inches and sixteenths wherever a builder reads a length."""

from __future__ import annotations

import copy
import csv
import io
import re
from pathlib import Path
from typing import Any

import pytest

from steepwright.imperial import length_mm, printed
from steepwright.report import render_page
from steepwright.report.data import design_view, page_data
from steepwright.report.files import designs_csv
from steepwright.report.finished import choose
from steepwright.report.lists import cuts_csv
from steepwright.report.views.answer import answer_of
from steepwright.report.views.checks import check_table

Doc = dict[str, Any]


@pytest.fixture(scope="module")
def feet(document: Doc) -> Doc:
    made = copy.deepcopy(document)
    made["room"]["units"] = "inch"
    made["assumptions"] = [*made["assumptions"], "a saw cut is 3 mm wide"]
    return made


def visible(page: str) -> str:
    """Return the page's text without styles, scripts and data."""
    body = re.sub(r"<(script|style)\b.*?</\1>", "", page, flags=re.S)
    return re.sub(r"<[^>]+>", " ", body)


def test_no_length_of_the_page_is_left_in_mm(feet: Doc) -> None:
    text = visible(render_page(feet))
    names = {d["sheet"] for d in feet["designs"]}
    left = [found[0] for found in re.finditer(r"\S+ \d[\d.]* mm\b", text)]
    assert [one for one in left if not any(one in name or name in one for name in names)] == [
        "of 100 mm"
    ]  # the bar by which a print is measured
    assert re.search(r"\d′ \d+( \d+/\d+)?″", text)
    assert "a saw cut is 1/8″ wide" in text
    assert "to the nearest 1/16 in" in text
    assert not re.search(r"\d\.\d\d m\b", text)


def test_the_table_shows_what_the_document_holds(feet: Doc) -> None:
    page = render_page(feet)
    for design in feet["designs"]:
        row = page.partition(f'<tr data-id="{design["id"]}">')[2].partition("</tr>")[0]
        shown = re.findall(r"<td>([^<×]*″)", row)
        assert len(shown) == 2
        for text, key in zip(shown, ("fall_space_mm", "floor_run_mm"), strict=True):
            assert abs(length_mm(text) - design[key]) <= 1  # 1/32 in, and the nearest mm


def test_data_stay_in_mm_and_names_stay_names(feet: Doc, document: Doc) -> None:
    views = tuple(design_view(feet, design) for design in feet["designs"])
    data = page_data(feet, views, answer_of(feet))
    assert data["inches"] is True
    for shown, design in zip(data["designs"], document["designs"], strict=True):
        assert shown["row"]["board_mm"] == design["board_mm"]
        assert shown["row"]["sheet"] == design["sheet"]
    assert data["assumptions"][-1] == "a saw cut is 1/8″ wide"


def test_no_mass_or_force_of_the_page_is_left_metric(feet: Doc) -> None:
    page = render_page(feet)
    text = visible(page)
    assert re.findall(r"\d (?:kg|N|kN|MPa)\b", text) == []
    assert "Mass, lb" in text
    for design in feet["designs"]:
        row = page.partition(f'<tr data-id="{design["id"]}">')[2].partition("</tr>")[0]
        # 1 lb = 0.45359237 kg exactly, to the nearest 0.1
        assert f"<td>{design['mass_kg'] / 0.45359237:.1f}".removesuffix(".0") in row


def test_checks_are_in_pounds_and_inches_of_the_same_share(feet: Doc, document: Doc) -> None:
    for design in document["designs"]:
        table, metric = check_table(design, inches=True), check_table(design)
        units = {rule.unit for rule in table.rules}
        assert units <= {"lbf", "lbf ft", "psi", "in", "-", ""}
        assert units & {"lbf", "lbf ft"}
        assert table.use_permille == metric.use_permille
        for demand, capacity, check in zip(
            table.demand, table.capacity, design["checks"], strict=True
        ):
            assert demand / capacity == pytest.approx(check["demand"] / check["capacity"], rel=2e-3)
    views = tuple(design_view(feet, design) for design in feet["designs"])
    told = str(page_data(feet, views, answer_of(feet)))
    assert re.findall(r"\d (?:kg|N|kN|MPa)\b", told) == []


def test_studs_and_parts_are_called_by_their_size_in_inches(feet: Doc) -> None:
    """What a yard calls its goods stays; a section's name is made of its sides, and turns."""
    page = render_page(feet)
    for design in feet["designs"]:
        width, depth = design["stud_mm"]
        assert design["stud"].startswith(f"{width} x {depth} ")
        assert design["stud"] not in visible(page)
        assert f"{printed(width)} × {printed(depth)} {design['stud'].split(' ', 3)[3]}" in page
    views = tuple(design_view(feet, design) for design in feet["designs"])
    steps = str([view["steps"] for view in page_data(feet, views, answer_of(feet))["designs"]])
    assert re.findall(r"board \d{3,4} x \d{3,4}\b", steps) == []


def test_a_room_in_mm_shows_no_inches(document: Doc) -> None:
    assert "″" not in visible(render_page(document))


def test_tables_for_a_spreadsheet_hold_inches(feet: Doc, document: Doc) -> None:
    rows = list(csv.DictReader(io.StringIO(designs_csv(feet))))
    assert not [name for name in rows[0] if name.endswith(("_mm", "_kg", "_n"))]
    for row, design in zip(rows, document["designs"], strict=True):
        for key in ("board", "width", "kicker", "fall_space"):
            assert abs(float(row[f"{key}_in"]) * 25.4 - design[f"{key}_mm"]) <= 25.4 / 32
            assert float(row[f"{key}_in"]) * 16 % 1 == 0
        assert float(row["mass_lb"]) == pytest.approx(design["mass_kg"] / 0.45359237, abs=0.051)
        assert row["cost_cents"] == str(design["cost_cents"])


def test_the_cut_list_too(feet: Doc, document: Doc) -> None:
    name = document["designs"][0]["id"]
    in_feet, in_mm = (
        list(csv.DictReader(io.StringIO(cuts_csv(choose(doc, name, Path())))))
        for doc in (feet, document)
    )
    assert {"length_in", "width_in", "fence_in"} <= set(in_feet[0])
    for one, other in zip(in_feet, in_mm, strict=True):
        for key in ("length", "width", "fence"):
            if other[f"{key}_mm"]:
                short = float(one[f"{key}_in"]) * 25.4 - float(other[f"{key}_mm"])
                assert abs(short) <= 25.4 / 32
