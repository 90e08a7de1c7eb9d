"""Choosing anywhere chooses everywhere: by mouse, by keyboard, by address."""

from __future__ import annotations

import copy
import itertools
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from steepwright.report import render_page

pytestmark = pytest.mark.browser
Doc = dict[str, Any]


MARKS = """name => {
    const {row} = steepwright.data.designs.find(d => d.row.id === name);
    const plot = document.getElementById('chart-stair');
    const {xaxis, yaxis} = plot._fullLayout;
    const cost = steepwright.store.now.cost.get(name) / 100;
    const spot = [xaxis._offset + xaxis.d2p(row.angle_deg), yaxis._offset + yaxis.d2p(cost)];
    const ring = plot.parentElement.querySelector('.ring.chosen');
    const ends = document.querySelectorAll('#chart-lines + .marks .dot.chosen');
    return [spot, [ring.cx.baseVal.value, ring.cy.baseVal.value], [...ends].map(d => d.id)];
}"""


def check_chosen(page: Page, name: str) -> None:
    expect(page.locator("#pick-says strong")).to_have_text(name)
    expect(page.locator("#design-title")).to_contain_text(f"{name}:")
    expect(page.locator("tr.chosen")).to_have_attribute("data-id", name)
    expect(page.locator(f'[data-choose="{name}"]')).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#compare-one")).to_have_value(name)
    expect(page.locator("#lines-says")).to_contain_text(f"{name} (thick line)")
    page.evaluate("steepwright.store.settle()")
    spot, ring, ends = page.evaluate(MARKS, name)
    assert ring == pytest.approx(spot, abs=0.2)
    assert len(ends) == len(page.evaluate("steepwright.data.measures"))


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
        page.evaluate("steepwright.store.settle()")
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
    page = opened("#W14+W02")
    check_chosen(page, "W14")
    expect(page.locator("#compare-two")).to_have_value("W02")
    page.locator('[data-beside="W03"]').click()
    assert page.url.endswith("#W14+W03")
    page.get_by_role("link", name="Prices", exact=True).click()
    expect(page.locator("#prices")).to_be_focused()
    expect(page.locator("#prices-title")).to_be_in_viewport()
    assert page.url.endswith("#W14+W03")


def test_what_is_out_of_sight_follows_by_itself(page: Page) -> None:
    """Nothing scrolls here: the parts below are drawn while the browser has nothing to do."""
    page.locator("#pick-next").click()
    chosen = page.evaluate("steepwright.state.chosen")
    expect(page.locator("#design-title")).to_contain_text(f"{chosen}:")
    expect(page.locator("#design-body svg.plan")).not_to_have_count(0)
    expect(page.locator("#chart-lines .scatterlayer")).to_have_count(1)
    expect(page.locator("#price-table .used", has_text="×")).not_to_have_count(0)
    assert page.evaluate("scrollY") == 0


def test_a_pick_leaves_the_charts_and_the_other_rows_alone(page: Page) -> None:
    """The budget of a pick rests on this; tests/bench measures it."""
    page.evaluate("steepwright.store.settle()")
    page.evaluate(
        """() => {
            window.touched = {charts: 0, rows: new Set()};
            for (const name of ['react', 'newPlot', 'restyle', 'relayout']) {
                const real = Plotly[name];
                Plotly[name] = (...all) => { touched.charts += 1; return real(...all); };
            }
            new MutationObserver(changes => {
                for (const {target} of changes) {
                    const row = target.closest('tr');
                    if (row) touched.rows.add(row.dataset.id);
                }
            }).observe(document.getElementById('designs'),
                       {attributes: true, childList: true, subtree: true});
        }"""
    )
    page.locator('[data-choose="W05"]').click()
    check_chosen(page, "W05")
    touched = page.evaluate("[touched.charts, [...touched.rows].sort()]")
    assert touched == [0, ["W05", "W11"]]


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
    page.evaluate("steepwright.store.settle()")
    symbols = page.evaluate("document.getElementById('chart-stair').data[2].marker.symbol")
    assert sum(not symbol.endswith("-open") for symbol in symbols) == len(kept)
    page.get_by_role("button", name="Clear all").click()
    expect(says).to_contain_text(f"{len(document['designs'])} of")
    page.locator("#f-budget").fill("1")
    expect(says).to_contain_text("None of the")


def test_walls_for_one_or_two_people(opened: Any, document: Doc, tmp_path: Path) -> None:
    """A wall with a piece that needs more people than asked for, or too many, is left out."""
    varied = copy.deepcopy(document)
    needs = dict(zip((d["id"] for d in varied["designs"]), itertools.cycle([1, 2, 3, None])))
    for design in varied["designs"]:
        for piece in design["pieces"]:
            piece["people"] = 1
        design["pieces"][0]["people"] = needs[design["id"]]
    path = tmp_path / "people.html"
    path.write_text(render_page(varied), encoding="utf-8")
    page = opened()
    page.goto(path.as_uri())
    for most in (1, 2):
        page.locator("#f-people").select_option(str(most))
        kept = page.evaluate("[...steepwright.store.now.kept]")
        assert kept == [name for name, need in needs.items() if need and need <= most]
        expect(page.locator("#filter-says")).to_contain_text(f"{len(kept)} of {len(needs)} walls")


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
    page.evaluate("steepwright.store.settle()")
    expect(page.locator("#chart-stair + .marks .ring.other")).to_have_count(1)
    expect(page.locator("#chart-lines + .marks .line.other")).to_have_count(1)


def test_a_frames_own_timber_is_told_beside_the_total(
    opened: Any, document: Doc, tmp_path: Path
) -> None:
    """A freestanding frame's timber is in the sum, unless it is the builder's already."""
    varied = copy.deepcopy(document)
    first = varied["designs"][0]
    beam = next(b for b in varied["room"]["beams"] if b["name"] == first["beam"])
    stand = {"post_mm": [100, 120], "brace_mm": [60, 120], "brace_up_mm": 1600, "foot_mm": 1400}
    beam |= {"kind": "frame", "stand": stand | {"owned": True}}
    other = next(d for d in varied["designs"] if d["beam"] != first["beam"])
    beside = next(b for b in varied["room"]["beams"] if b["name"] == other["beam"])
    beside |= {"kind": "frame", "stand": stand | {"owned": False}}
    path = tmp_path / "frame.html"
    path.write_text(render_page(varied), encoding="utf-8")
    for design, told in ((first, 1), (other, 0)):
        page = opened()
        page.goto(f"{path.as_uri()}#{design['id']}")
        page.evaluate("steepwright.store.settle()")
        note = page.locator(".note", has_text="yours already and not in this sum")
        expect(note).to_have_count(told)
        note = page.locator(".note", has_text="are in this sum, in bars bought for it alone")
        expect(note).to_have_count(1 - told)
