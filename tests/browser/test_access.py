"""The page for everyone: axe, narrow screens, dark mode, less motion, no scripts, no network."""

from __future__ import annotations

import json
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from steepwright.report.data import design_view, page_data
from steepwright.report.views.answer import answer_of

pytestmark = pytest.mark.browser
Doc = dict[str, Any]


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (1280, "dark"), (390, "light")])
def test_axe_finds_no_violation(opened: Any, width: int, scheme: str) -> None:
    """axe-core of Deque, an independent rule set for WCAG 2."""
    page = opened(width=width, color_scheme=scheme, bypass_csp=True)
    page.locator("#compare-two").select_option("W17")
    page.evaluate("steepwright.store.settle()")
    results = Axe().run(page)
    found = [
        (v["id"], [n["html"][:120] for n in v["nodes"]][:3]) for v in results.response["violations"]
    ]
    assert found == []
    passed = {rule["id"] for rule in results.response["passes"]}
    assert {"color-contrast", "region", "label", "aria-valid-attr-value"} <= passed


@pytest.mark.parametrize("width", [320, 390, 800])
def test_narrow_screens(opened: Any, width: int, cut_off: str) -> None:
    """No sideways scroll; text of drawings is readable and inside its frame."""
    page = opened("#W17", width=width)
    page.locator("#compare-two").select_option("W01")
    page.evaluate("steepwright.store.settle()")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    sizes = page.evaluate(
        """[...document.querySelectorAll('svg.plan text')].map(t =>
            parseFloat(t.getAttribute('font-size')) * t.ownerSVGElement.getScreenCTM().a)"""
    )
    assert len(sizes) > 50
    assert min(sizes) >= 10.5
    assert page.evaluate(cut_off) == []
    assert page.evaluate(NOT_DRAWN) == []


def test_tables_of_the_chosen_wall_need_no_sideways_scroll_on_a_phone(opened: Any) -> None:
    page = opened("#W17", width=390)
    page.evaluate("steepwright.store.settle()")
    for name in ("Pieces", "Bill", "Table of unit prices"):
        frame = page.get_by_role("region", name=name, exact=True)
        assert frame.evaluate("e => e.scrollWidth - e.clientWidth") <= 0, name


@pytest.mark.parametrize("width", [390, 1280])
def test_no_line_of_the_second_chart_runs_through_its_words(opened: Any, width: int) -> None:
    page = opened(width=width)
    page.evaluate("steepwright.store.settle()")
    inside = page.evaluate(
        """() => {
            const chart = document.getElementById('chart-lines');
            const frame = chart.getBoundingClientRect();
            const lines = [...chart.querySelectorAll('.scatterlayer path.js-line')].map(
                path => path.getBoundingClientRect());
            const [left, right] = [Math.min(...lines.map(b => b.left)),
                                   Math.max(...lines.map(b => b.right))];
            const words = [...chart.querySelectorAll('.annotation-text, .ytick text')];
            const boxes = words.map(text => text.getBoundingClientRect());
            return [words.length, boxes.filter(b => b.right > left && b.left < right ||
                b.left < frame.left - 1 || b.right > frame.right + 1).length];
        }"""
    )
    assert inside == [2 * page.evaluate("steepwright.data.measures.length"), 0]


NOT_DRAWN = """[...document.querySelectorAll('svg.plan *')].filter(e =>
    ['none', 'contents'].includes(getComputedStyle(e).display) && e.tagName !== 'title'
).map(e => e.outerHTML)"""
"""A name of the page's own style that a part of a drawing happens to share may hide it."""


def test_every_drawing_and_chart_has_words(page: Page) -> None:
    page.evaluate("steepwright.store.settle()")
    titles = page.locator("svg.plan > title").all_text_contents()
    assert len(titles) == page.locator("svg.plan").count() > 4
    assert min(map(len, titles)) > 20
    for chart in ("stair", "lines"):
        figure = page.locator(f"figure[aria-describedby={chart}-says]")
        expect(figure).to_have_count(1)
        assert len(page.locator(f"#{chart}-says").text_content() or "") > 80
    assert page.locator(".modebar-btn").count() == 0


def test_scale_of_the_side_view(page: Page, document: Doc) -> None:
    """One scale along both axes, and the room's outline as long as the room."""
    page.evaluate("steepwright.store.settle()")
    ratios = page.evaluate(
        """[...document.querySelectorAll('[data-draw=side] rect.room')].map(r => {
            const b = r.getBoundingClientRect();
            return b.width / b.height;
        })"""
    )
    room = document["room"]
    assert ratios[0] == pytest.approx(room["length_mm"] / room["ceiling_mm"], rel=0.01)


def test_the_browser_unpacks_what_python_packed(page: Page, document: Doc) -> None:
    views = tuple(design_view(document, design) for design in document["designs"])
    expected = json.loads(json.dumps(page_data(document, views, answer_of(document))))
    assert page.evaluate("steepwright.data") == expected


def test_less_motion_is_respected(opened: Any) -> None:
    page = opened(reduced_motion="reduce")
    assert page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"


def test_without_scripts_the_answer_and_the_table_stand(opened: Any, document: Doc) -> None:
    page = opened(java_script_enabled=False)
    expect(page.locator("h1")).to_be_visible()
    expect(page.locator(".cautions li").first).to_be_visible()
    expect(page.locator("#designs tbody tr")).to_have_count(len(document["designs"]))
    expect(page.locator("#filters")).to_be_hidden()


def test_dark_mode_reaches_the_charts(opened: Any) -> None:
    tones = [
        opened(color_scheme=scheme).evaluate(
            "steepwright.store.settle(), document.getElementById('chart-stair').layout.font.color"
        )
        for scheme in ("light", "dark")
    ]
    assert tones[0] != tones[1]
