"""The shipped example in Chromium: it has the lift, notes and changes that the sample lacks."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from steepwright.report import render_page

pytestmark = pytest.mark.browser
Doc = dict[str, Any]

EXAMPLE = Path(__file__).resolve().parents[2] / "reports" / "loft"


@pytest.fixture(scope="module")
def shipped() -> Doc:
    document: Doc = json.loads((EXAMPLE / "designs.json").read_text(encoding="utf-8"))
    return document


def example(opened: Any, **more: Any) -> Page:
    page: Page = opened(**more)
    page.goto((EXAMPLE / "report.html").as_uri())
    page.evaluate("steepwright.store.settle()")
    return page


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (390, "dark")])
def test_axe_and_narrow_screens(opened: Any, width: int, scheme: str) -> None:
    page = example(opened, width=width, color_scheme=scheme, bypass_csp=True)
    for summary in page.locator("details > summary").all():
        summary.click()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    found = [
        (v["id"], [n["html"][:120] for n in v["nodes"]][:3])
        for v in Axe().run(page).response["violations"]
    ]
    assert found == []


def test_the_lift_has_a_sentence_a_drawing_and_its_numbers(opened: Any, shipped: Doc) -> None:
    page = example(opened)
    chosen = page.evaluate("steepwright.state.chosen")
    lift = next(d["lift"] for d in shipped["designs"] if d["id"] == chosen)
    card = page.locator("figure", has_text="Lifting it out of the way")
    expect(card.locator("svg.plan > title")).to_contain_text("Pull while lifting")
    most = max(point["hand_n"] for point in lift["curve"])
    expect(card.locator("p").first).to_contain_text(f"is {most} N at most")
    card.locator("summary").click()
    cells = card.locator("tbody tr").last.locator("td").all_text_contents()
    last = lift["curve"][-1]
    assert [int(cell) for cell in cells] == [last["lines_n"], last["hand_n"]]
    expect(page.locator("[data-draw=side] .rope")).to_have_count(1)


def test_an_open_question_stands_beside_the_answer(opened: Any, shipped: Doc) -> None:
    """The reason and what to do, without the rest of what the check rests on."""
    page = example(opened)
    for design in (d for d in shipped["designs"] if not d["settled"]):
        page.evaluate("id => steepwright.store.set({chosen: id})", design["id"])
        told = page.locator("#answer-mind li").all_text_contents()
        wanted: dict[str, list[str]] = {}
        for check in design["checks"]:
            for reason in check.get("find_out", ()):
                wanted.setdefault(reason, []).append(check["name"])
        assert wanted
        for reason, names in wanted.items():
            (line,) = [line for line in told if reason in line]
            assert line.startswith("Not settled (")
            assert line.endswith(f": {reason}. Have it looked at first.")
            assert all(name in line for name in names)


def test_what_would_change_the_answer_is_told_or_said_to_be_unknown(
    opened: Any, shipped: Doc, tmp_path: Path
) -> None:
    page = example(opened)
    expect(page.locator("#changes li")).to_have_count(len(shipped["changes"]))
    silent = tmp_path / "silent.html"
    silent.write_text(render_page(shipped | {"changes": []}), encoding="utf-8")
    page.goto(silent.as_uri())
    expect(page.locator("#changes")).to_contain_text("This file does not say")


def test_pads_are_drawn_and_their_price_stands_beside_the_bill(
    opened: Any, shipped: Doc, tmp_path: Path
) -> None:
    design = shipped["designs"][0]
    x, y = sorted((design["x_lip_mm"], design["x_foot_mm"])), design["y_mm"]
    pad = {"name": "pad", "own": False, "x_mm": x, "y_mm": y, "thickness_mm": 200}
    pads = {
        "laid": [pad],
        "buy": [{"quantity": 1, "what": "pad"}],
        "cost_cents": 12000,
        "ends": None,
        "covered": 0.5,
        "covers_kicker_mm": 0,
        "asked_mm": 300,
        "thickness_mm": 200,
        "fall_height_mm": 2000,
    }
    path = tmp_path / "pads.html"
    padded = shipped | {"designs": [design | {"pads": pads}]}
    path.write_text(render_page(padded), encoding="utf-8")
    page = opened()
    page.goto(path.as_uri())
    page.evaluate("steepwright.store.settle()")
    expect(page.locator("[data-draw=top] .pad")).to_have_count(1)
    expect(page.locator("#design-body")).to_contain_text("they cost 120.00 EUR more")


def test_pads_on_the_bill_are_in_its_sum_on_screen_and_paper(
    opened: Any, shipped: Doc, tmp_path: Path
) -> None:
    designs = []
    for design in shipped["designs"]:
        pads = design["pads"]
        lines = [line | {"group": "pads", "yard": "Invented yard"} for line in pads["buy"]]
        more = {"cost_cents": design["cost_cents"] + pads["cost_cents"]}
        more |= {"bill": [*design["bill"], *lines], "pads": pads | {"on_bill": True}}
        designs.append(design | more)
    path = tmp_path / "pads.html"
    path.write_text(render_page(shipped | {"designs": designs}), encoding="utf-8")
    page = opened()
    page.goto(path.as_uri())
    page.evaluate("steepwright.store.settle()")
    chosen = page.evaluate("steepwright.state.chosen")
    design = next(d for d in designs if d["id"] == chosen)
    bill = page.locator("#design-body table.bill")
    expect(bill.locator("tr.group", has_text="Pads")).to_contain_text(
        f"{design['pads']['cost_cents'] / 100:.2f}"
    )
    expect(bill.locator("[data-total]")).to_have_text(f"{design['cost_cents'] / 100:.2f}")
    expect(page.locator("#design-body")).not_to_contain_text("Pads are not in this sum")
    expect(page.locator("#design-body")).to_contain_text("which is in the wall's cost")
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    expect(page.locator("#sheets")).to_contain_text("Holds are not on the list")


def test_a_page_without_walls_says_so_without_trouble(
    opened: Any, shipped: Doc, tmp_path: Path
) -> None:
    path = tmp_path / "none.html"
    path.write_text(render_page(shipped | {"designs": [], "cloud": []}), encoding="utf-8")
    page = opened()
    page.goto(path.as_uri())
    expect(page.locator("h1")).to_have_text("No wall was found")
    expect(page.locator("#design")).to_be_hidden()
