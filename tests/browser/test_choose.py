"""Choosing anywhere chooses everywhere: by mouse, by keyboard, by address."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.browser
Doc = dict[str, Any]


def check_chosen(page: Page, name: str) -> None:
    expect(page.locator("#pick-says strong")).to_have_text(name)
    expect(page.locator("#design-title")).to_contain_text(f"{name}:")
    expect(page.locator("tr.chosen")).to_have_attribute("data-id", name)
    expect(page.locator(f'[data-choose="{name}"]')).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#compare-one")).to_have_value(name)
    expect(page.locator("#lines-says")).to_contain_text(f"{name} (thick line)")
    ring = page.evaluate("document.getElementById('chart-stair').data[4].x[0]")
    assert ring == page.evaluate(
        "id => steepwright.data.designs.find(d => d.row.id === id).row.angle_deg", name
    )
    line = page.evaluate("document.getElementById('chart-lines').data[3].customdata[0]")
    assert line == name


def test_the_page_opens_on_its_answer(page: Page) -> None:
    expect(page.locator("h1")).to_have_text("40.0° for 380.63 EUR")
    check_chosen(page, "W11")


WHERE_IS = """([id, trace, name, skip]) => {
    const plot = document.getElementById(id);
    const {x, y, customdata} = plot.data[trace];
    const i = customdata.indexOf(name) + skip;
    plot.scrollIntoView({block: 'center', behavior: 'instant'});
    const {left, top} = plot.getBoundingClientRect();
    const {xaxis, yaxis} = plot._fullLayout;
    return [left + xaxis._offset + xaxis.d2p(x[i]), top + yaxis._offset + yaxis.d2p(y[i])];
}"""


def test_a_click_on_a_chart_chooses(page: Page) -> None:
    for chart, trace, name, skip in (("chart-stair", 2, "W17", 0), ("chart-lines", 1, "W01", 1)):
        spot = page.evaluate(WHERE_IS, [chart, trace, name, skip])
        page.mouse.move(*spot)
        page.mouse.click(*spot)
        check_chosen(page, name)
        assert page.url.endswith(f"#{name}")


def test_the_keyboard_reaches_every_wall(page: Page) -> None:
    page.locator('[data-choose="W01"]').focus()
    for _ in range(2):  # past the row's second button to the next row's first
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    check_chosen(page, "W02")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    expect(page.locator('[data-beside="W02"]')).to_have_attribute("aria-pressed", "true")
    page.locator("#pick-next").focus()
    page.keyboard.press("Enter")
    check_chosen(page, "W03")


def test_focus_stays_on_the_button_that_was_pressed(page: Page) -> None:
    page.locator('[data-choose="W05"]').focus()
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.dataset.choose") == "W05"


def test_the_address_keeps_the_choice(opened: Any) -> None:
    check_chosen(opened("#W14"), "W14")
    check_chosen(opened("#nonsense"), "W11")


def test_a_step_of_the_opening_leads_to_its_wall(page: Page) -> None:
    link = page.locator(".stair a").last
    name = (link.get_attribute("href") or "")[1:]
    link.click()
    check_chosen(page, name)


def test_filters_narrow_all_views_and_say_so(page: Page, document: Doc) -> None:
    page.locator("#f-angle").fill("41")
    page.locator("#f-beam").select_option("middle")
    kept = [d for d in document["designs"] if d["angle_deg"] >= 41 and d["beam"] == "middle"]
    best = min(kept, key=lambda d: d["cost_cents"])
    says = page.locator("#filter-says")
    expect(says).to_contain_text(f"{len(kept)} of {len(document['designs'])} walls left")
    expect(says).to_contain_text(f"The cheapest of them is {best['id']}")
    visible = page.evaluate(
        "[...document.querySelectorAll('#designs tbody tr:not([hidden])')].map(r => r.dataset.id)"
    )
    assert set(visible) == {d["id"] for d in kept} | {"W11"}  # the chosen one stays in sight
    symbols = page.evaluate("document.getElementById('chart-stair').data[2].marker.symbol")
    assert sum(not symbol.endswith("-open") for symbol in symbols) == len(kept)
    page.get_by_role("button", name="Clear all").click()
    expect(says).to_contain_text(f"{len(document['designs'])} of")
    page.locator("#f-budget").fill("1")
    expect(says).to_contain_text("None of the")


def test_headings_sort_and_tell_how(page: Page, document: Doc) -> None:
    heading = page.locator('th[data-key="mass_kg"]')
    heading.get_by_role("button").click()
    expect(heading).to_have_attribute("aria-sort", "ascending")
    heading.get_by_role("button").click()
    expect(heading).to_have_attribute("aria-sort", "descending")
    order = page.evaluate(
        "[...document.querySelectorAll('#designs tbody tr')].map(r => r.dataset.id)"
    )
    mass = {d["id"]: d["mass_kg"] for d in document["designs"]}
    assert [mass[i] for i in order] == sorted(mass.values(), reverse=True)


def test_two_walls_side_by_side(page: Page, document: Doc) -> None:
    page.locator("#compare-two").select_option("W17")
    one, two = (next(d for d in document["designs"] if d["id"] == i) for i in ("W11", "W17"))
    row = page.locator("#compare-body tr", has_text="Cost").first
    gap = (two["cost_cents"] - one["cost_cents"]) / 100
    expect(row).to_contain_text(f"+{gap:.2f} EUR, worse")
    expect(page.locator("#compare-body tr", has_text="Overhang angle")).to_contain_text("better")
    expect(page.locator("#compare-body svg.plan")).to_have_count(2)
    assert page.evaluate("document.getElementById('chart-stair').data[3].x.length") == 1
