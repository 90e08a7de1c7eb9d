"""A room in inches: the page's scripts write feet and inches, drawings and paper included."""

from __future__ import annotations

import copy
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from steepwright.imperial import printed
from steepwright.report import render_page
from steepwright.report.finished import choose
from steepwright.report.lists import cuts_csv

pytestmark = pytest.mark.browser
Doc = dict[str, Any]
LENGTH_IN_MM = re.compile(r".{0,40}\d mm\b")
METRIC = re.compile(r".{0,40}\d (?:kg|N|kN|N/m|MPa)(?![\w²/]).{0,20}")


@pytest.fixture(scope="module")
def feet(document: Doc) -> Doc:
    made = copy.deepcopy(document)
    made["room"]["units"] = "inch"
    return made


@pytest.fixture
def shown(browser: Browser, feet: Doc, tmp_path: Path) -> Any:
    path = tmp_path / "report.html"
    path.write_text(render_page(feet), encoding="utf-8")
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.goto(path.as_uri())
    page.evaluate("steepwright.store.settle()")
    yield page
    context.close()


@pytest.mark.parametrize("width", [390, 800, 1280])
def test_nothing_is_cut_off_or_needs_sideways_scroll(
    opened: Any, feet: Doc, tmp_path: Path, width: int, cut_off: str
) -> None:
    path = tmp_path / "report.html"
    path.write_text(render_page(feet), encoding="utf-8")
    page = opened(width=width)
    page.goto(path.as_uri())
    page.evaluate("steepwright.store.settle()")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.evaluate(cut_off) == []
    for name in ("Pieces", "Bill"):
        frame = page.get_by_role("region", name=name, exact=True)
        assert frame.evaluate("e => e.scrollWidth - e.clientWidth") <= 0, name


def whole(text: str) -> str:
    """Write 12.0 as 12: a script has no other way to write it."""
    return re.sub(r"(\d)\.0\b", r"\1", text)


def texts(page: Page, selector: str) -> str:
    return "\n".join(page.locator(selector).all_text_contents())


def without_names(text: str, feet: Doc) -> str:
    names = {
        line["what"].partition(" (")[0] for design in feet["designs"] for line in design["bill"]
    }
    for name in sorted(names | {d["sheet"] for d in feet["designs"]}, key=len, reverse=True):
        text = re.sub(re.escape(name), "", text, flags=re.IGNORECASE)
    return text


def test_drawings_tables_and_words_are_in_feet_and_inches(shown: Page, feet: Doc) -> None:
    chosen = shown.evaluate("steepwright.state.chosen")
    design = next(d for d in feet["designs"] if d["id"] == chosen)
    # The control bar of 100 mm is one.
    text = without_names(texts(shown, "main"), feet).replace("control bar of 100 mm", "")
    assert LENGTH_IN_MM.findall(text) == []
    assert METRIC.findall(text) == []
    assert f"{round(design['mass_kg'] / 0.45359237, 1):g} lb" in text
    drawn = texts(shown, '[data-draw="side"] svg text')
    assert f"board {printed(design['board_mm'])}" in drawn
    assert f"fall space {printed(design['fall_space_mm'])}" in drawn
    assert f"room {printed(feet['room']['length_mm'])}" in texts(shown, '[data-draw="top"] svg')
    assert "to the nearest 1/16 in" in text


def test_paper_has_a_bar_of_4_in_beside_that_of_100_mm(shown: Page, feet: Doc) -> None:
    shown.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    bars = shown.locator("#sheets svg.control rect")
    assert [bars.nth(i).get_attribute("width") for i in range(2)] == ["100", "101.6"]
    text = without_names(texts(shown, "#sheets .leaf"), feet)
    assert METRIC.findall(text) == []
    assert set(re.findall(r"[\d.]+ mm\b", text)) <= {"100 mm"}
    expect(shown.locator("#sheets")).to_contain_text("4 in long")


def test_the_filter_takes_inches(shown: Page, feet: Doc) -> None:
    falls = sorted(d["fall_space_mm"] for d in feet["designs"])
    limit_in = round(falls[len(falls) // 2] / 25.4, 1)
    shown.locator("#f-fall").fill(str(limit_in))
    kept = shown.evaluate("[...steepwright.store.now.kept]")
    expected = {d["id"] for d in feet["designs"] if d["fall_space_mm"] >= limit_in * 25.4}
    assert set(kept) == expected
    assert 0 < len(kept) < len(falls)


def test_the_saved_cut_list_is_that_of_the_command_line(shown: Page, feet: Doc) -> None:
    for design in feet["designs"][:3]:
        text = shown.evaluate(
            "(id) => steepwright.csv.cuts({sheets: steepwright.data.designs.find("
            "v => v.row.id === id).sheets, bars: steepwright.data.designs.find("
            "v => v.row.id === id).bars})",
            design["id"],
        )
        said = [
            line.replace(".0", "") for line in cuts_csv(choose(feet, design["id"], Path())).split()
        ]
        assert [line.replace(".0", "") for line in text.split()] == said
