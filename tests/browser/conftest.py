from __future__ import annotations

import importlib.util
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from steepwright.report import render_page

Doc = dict[str, Any]
FLAGS = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"]
PATIENCE_MS = 180_000
"""A busy machine is no fault of the page: what is asserted is what it shows, not how soon."""
expect.set_options(timeout=PATIENCE_MS)


@pytest.fixture(scope="session")
def document() -> Doc:
    path = Path(__file__).parents[1] / "report" / "sample.py"
    spec = importlib.util.spec_from_file_location("browser_sample", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    made: Doc = module.document()
    return made


@pytest.fixture(scope="session")
def address(document: Doc, tmp_path_factory: pytest.TempPathFactory) -> str:
    path = tmp_path_factory.mktemp("page") / "report.html"
    path.write_text(render_page(document), encoding="utf-8")
    return path.as_uri()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = shutil.which("chromium")
    if path is None:
        missing = "Chromium is not installed (Debian's package chromium)"
        if os.environ.get("STEEPWRIGHT_REQUIRE_BROWSER"):
            pytest.fail(missing)
        pytest.skip(missing)
    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=path, args=FLAGS)
        yield chromium
        chromium.close()


@pytest.fixture
def opened(browser: Browser, address: str) -> Iterator[Any]:
    """Open the page under given conditions; afterwards nothing may have gone wrong in it."""
    contexts, trouble = [], []

    def open_page(hash_id: str = "", width: int = 1280, **more: Any) -> Page:
        context = browser.new_context(viewport={"width": width, "height": 900}, **more)
        context.set_default_timeout(PATIENCE_MS)
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda m: trouble.append(m.text) if m.type == "error" else None)
        page.on("pageerror", lambda error: trouble.append(str(error)))
        page.on("request", lambda r: trouble.append(r.url) if _leaves(r.url) else None)
        page.goto(address + hash_id)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert trouble == []


def _leaves(url: str) -> bool:
    return not url.startswith(("file:", "data:", "blob:"))


@pytest.fixture
def page(opened: Any) -> Page:
    made: Page = opened()
    return made


CUT_OFF = """[...document.querySelectorAll('svg.plan')].flatMap(svg => {
    const frame = svg.getBoundingClientRect();
    return [...svg.querySelectorAll('text')].filter(t => {
        const b = t.getBoundingClientRect();
        return b.left < frame.left - 1 || b.right > frame.right + 1 ||
            b.top < frame.top - 1 || b.bottom > frame.bottom + 1;
    }).map(t => t.textContent);
})"""
"""The words of drawings that stick out of their frame."""


@pytest.fixture(scope="session")
def cut_off() -> str:
    return CUT_OFF
