"""What nobody on the list sells stands with the bill on screen and paper, and changes no sum."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from steepwright.report import render_page
from steepwright.report.finished import choose
from steepwright.report.lists import bill_csv

pytestmark = pytest.mark.browser
Doc = dict[str, Any]


def test_anchors_are_listed_without_a_price(
    browser: Browser, document: Doc, tmp_path: Path
) -> None:
    made = copy.deepcopy(document)
    for design in made["designs"]:
        post = design["pieces"][0] | {"kind": "timber", "name": "frame post", "length_mm": 2105}
        design["anchors"] = 4
        design["pieces"].append(post | {"count": 2, "mass_kg": 16.4})
    path = tmp_path / "report.html"
    path.write_text(render_page(made), encoding="utf-8")
    context = browser.new_context()
    page = context.new_page()
    page.goto(path.as_uri())
    notes = page.locator(".note", has_text="To be had elsewhere")
    assert "4 × Anchor for the mounts' holes" in (notes.first.text_content() or "")
    page.emulate_media(media="print")
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    leaves = page.locator(".leaf").all_text_contents()
    (listed,) = [text for text in leaves if "Shopping list" in text]
    with page.expect_download() as waiting:
        page.evaluate("document.querySelector('#csv-bill').click()")
    saved = waiting.value.path().read_text(encoding="utf-8")
    chosen = page.evaluate("steepwright.store.state.chosen")
    assert saved == bill_csv(choose(made, chosen, tmp_path))
    assert "Not in the sum: Anchor for the mounts' holes" in saved.splitlines()[-1]
    after = listed.split("Total ")[1]
    assert "☐4Anchor for the mounts' holes" in after
    (first,) = [text for text in leaves if "What is to be built" in text]
    assert ", and 32.8 kg of timber that it hangs from" in first
    context.close()
