"""Prices edited in the page give the costs of the Python side, to the cent."""

from __future__ import annotations

import copy
import csv
import io
import random
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from repricing import reprice
from steepwright.report import render_page
from steepwright.report.views.prices import price_lines

pytestmark = pytest.mark.browser
Doc = dict[str, Any]


def enter(page: Page, prices: dict[str, int]) -> None:
    page.locator("#prices-all").check()
    for sku, cents in prices.items():
        page.locator(f'#price-table tr[data-sku="{sku}"] input').fill(f"{cents / 100:.2f}")


def test_costs_and_front_agree_with_python(page: Page, document: Doc) -> None:
    for seed in range(3):
        draw = random.Random(seed)
        lines = draw.sample(list(price_lines(document)), 4)
        prices = {x.sku: draw.randint(x.unit_cents // 2, x.unit_cents * 3) for x in lines}
        page.locator("#prices-reset").click()
        enter(page, prices)
        expected = reprice(document, prices)
        now = page.evaluate(
            "({cost: Object.fromEntries(steepwright.store.now.cost),"
            " front: [...steepwright.store.now.front],"
            " ratio: steepwright.model.leastRatio(steepwright.state.prices)})"
        )
        assert now["cost"] == dict(expected.cost_cents)
        assert set(now["front"]) == set(expected.front)
        assert now["ratio"] == pytest.approx(expected.least_ratio, rel=1e-12)
        page.evaluate("steepwright.store.settle()")
        shown = page.evaluate(
            "Object.fromEntries([...document.querySelectorAll('#designs tbody tr')]"
            ".map(r => [r.dataset.id, r.querySelector('.cost').textContent]))"
        )
        assert shown == {i: f"{c // 100}.{c % 100:02d}" for i, c in expected.cost_cents.items()}
        assert page.locator("[data-total]").text_content() == shown["W11"]


def test_a_dearer_article_leaves_the_listed_bound_standing(page: Page, document: Doc) -> None:
    lines = {line.sku: line.unit_cents for line in price_lines(document)}
    sku = next(i for i in lines if i.startswith("osb"))
    enter(page, {sku: lines[sku] + 500})
    steep = [d for d in document["designs"] if d["angle_deg"] >= 40]
    listed = min(d["cost_cents"] for d in steep)
    now = min(reprice(document, {sku: lines[sku] + 500}).cost_cents[d["id"]] for d in steep)
    says = page.locator("#prices-say")
    if now > listed:
        expect(says).to_contain_text(f"can cost less than {listed / 100:.2f} EUR")
        expect(says).to_contain_text(f"save at most {(now - listed) / 100:.2f} EUR")
    else:
        expect(says).to_contain_text("still the cheapest wall")
    expect(page.locator("#answer-moved")).to_be_visible()


def test_the_articles_of_the_chosen_wall_stand_alone_until_asked(page: Page, document: Doc) -> None:
    page.evaluate("steepwright.store.settle()")
    rows = page.locator("#price-table tbody tr:not([hidden])")
    bill = next(d["bill"] for d in document["designs"] if d["id"] == "W11")
    expect(rows).to_have_count(len({line["sku"] for line in bill}))
    page.locator("#prices-all").check()
    expect(rows).to_have_count(len(price_lines(document)))
    other = page.locator("#price-table tr", has_text="–").first
    other.locator("input").fill("77.70")
    page.locator("#prices-all").uncheck()
    expect(rows).to_have_count(len({line["sku"] for line in bill}) + 1)


def test_a_price_that_is_no_amount_is_told_and_not_used(page: Page) -> None:
    field = page.locator("#price-table input").first
    before = page.evaluate("Object.fromEntries(steepwright.store.now.cost)")
    field.fill("twelve")
    expect(field).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#prices-say")).to_contain_text("no amount")
    assert page.evaluate("Object.fromEntries(steepwright.store.now.cost)") == before
    field.fill("12,5")
    expect(field).to_have_attribute("aria-invalid", "false")
    assert page.evaluate("[...steepwright.state.prices.values()]") == [1250]
    page.locator("#prices-reset").click()
    expect(page.locator("#prices-say")).to_contain_text("No price changed")
    assert page.evaluate("Object.fromEntries(steepwright.store.now.cost)") == before


def test_the_bill_as_csv_adds_up_and_holds_no_formula(page: Page, document: Doc) -> None:
    design = next(d for d in document["designs"] if d["id"] == "W11")
    with page.expect_download() as waiting:
        page.locator("#csv-bill").click()
    text = waiting.value.path().read_text(encoding="utf-8")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [row["sku"] for row in rows] == [line["sku"] for line in design["bill"]]
    assert round(100 * sum(float(row["amount"]) for row in rows)) == design["cost_cents"]
    hostile = page.evaluate(
        "(() => { const view = structuredClone(steepwright.data.designs[0]);"
        "view.bill[0].what = '=1+1'; view.bill[0].yard = '@x, \"y\"';"
        "return steepwright.csv.bill(view, {prices: new Map()}); })()"
    )
    first = next(csv.DictReader(io.StringIO(hostile)))
    assert (first["what"], first["yard"]) == ("'=1+1", '\'@x, "y"')


def test_the_cuts_as_csv_hold_every_piece(page: Page, document: Doc) -> None:
    design = next(d for d in document["designs"] if d["id"] == "W11")
    with page.expect_download() as waiting:
        page.locator("#csv-cuts").click()
    rows = list(csv.DictReader(io.StringIO(waiting.value.path().read_text(encoding="utf-8"))))
    pieces = sum(int(row["times"]) for row in rows if row["mark"])
    assert pieces == sum(piece["count"] for piece in design["pieces"])


def test_a_charge_names_its_yard_once(browser: Browser, document: Doc, tmp_path: Path) -> None:
    """Another article has its yard beside it; a delivery has it in its words."""
    named = copy.deepcopy(document)
    for design in named["designs"]:
        design["bill"] = [line for line in design["bill"] if line["sku"] != "delivery"]
        charge = {"sku": "delivery A", "what": "delivery from A", "yard": "A", "quantity": 1}
        design["bill"].append(charge | {"unit_cents": 0, "amount_cents": 0, "group": "charges"})
    (tmp_path / "report.html").write_text(render_page(named), encoding="utf-8")
    page = browser.new_page()
    page.goto((tmp_path / "report.html").as_uri())
    page.evaluate("steepwright.store.settle()")
    charged = page.locator('#price-table tr[data-sku="delivery A"] th')
    assert charged.text_content() == "Delivery from A"
    bill = page.locator("table.bill td:first-child").all_text_contents()
    assert "Delivery from A" in bill
    assert any(text.endswith(" Invented yard") for text in bill)
    page.close()
