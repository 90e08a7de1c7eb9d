"""Names with markup in them stay names, whatever is done on the page."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from steepwright.report import render_page

pytestmark = pytest.mark.browser
Doc = dict[str, Any]

MARKUP = "\"><img src=x class=taken onerror='window.ran = 1'></script><b class=taken>&amp;"

FROM_FILES = {
    *("what", "sku", "yard", "beam", "sheet", "kicker_sheet", "stud", "mount", "assumption"),
    *("text", "message", "next_step", "note", "stopped_by", "bottleneck", "clause"),
}
"""Keys whose text comes, whole or in part, from the builder's or the yard's files."""


def hostile(value: Any, key: str = "") -> Any:
    """Return the document with markup behind every such text."""
    if isinstance(value, dict):
        return {name: hostile(item, name) for name, item in value.items()}
    if isinstance(value, list):
        return [hostile(item, key) for item in value]
    return value + MARKUP if isinstance(value, str) and key in FROM_FILES else value


@pytest.fixture
def page_file(document: Doc, tmp_path: Path) -> str:
    made = hostile(copy.deepcopy(document))
    made["room"]["name"] += MARKUP
    for thing in (*made["room"]["beams"], *made["room"]["solids"]):
        thing["name"] += MARKUP
    for list_of_texts in ("assumptions", "cautions"):
        made[list_of_texts] = [text + MARKUP for text in made[list_of_texts]]
    path = tmp_path / "report.html"
    path.write_text(render_page(made), encoding="utf-8")
    return path.as_uri()


def test_no_name_becomes_markup(browser: Browser, page_file: str) -> None:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page, errors = context.new_page(), []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.on("request", lambda request: errors.append(request.url)
            if not request.url.startswith(("file:", "data:", "blob:")) else None)  # fmt: skip
    page.goto(page_file)
    names = page.evaluate("steepwright.data.designs.map(d => d.row.id)")
    assert len(names) > 3
    for name in names:
        page.click(f'[data-choose="{name}"]')
    page.click(f'[data-beside="{names[0]}"]')
    page.emulate_media(media="print")
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    told = page.evaluate(
        "[document.querySelectorAll('.taken, [onerror]').length, window.ran ?? 0,"
        " document.body.innerText.includes('<img src=x class=taken')]"
    )
    assert told == [0, 0, True]
    assert errors == []
    context.close()
