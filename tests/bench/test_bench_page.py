"""The page with 300 designs: interactive in under 1.5 s, a pick in under 50 ms.

Both are counted in loads of an empty page with the same bundle, taken in turn with the page
itself, and in time of the page's own thread, so that a slow or busy machine does not blur them;
the median of several is compared.
"""

from __future__ import annotations

import copy
import json
import shutil
import statistics
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, sync_playwright

import steepwright.report
from steepwright.report import render_page

pytestmark = pytest.mark.bench

EXAMPLE = Path(__file__).resolve().parents[2] / "reports" / "loft" / "designs.json"
BUNDLE = Path(steepwright.report.__file__).parent / "assets" / "plotly-basic.min.js"
DESIGNS, ROUNDS, PICKS = 300, 7, 15

EMPTY_S = 0.15
"""What the empty page keeps its thread busy for, on the machine that the budgets are meant for."""

MOST_READY = 1.5 / EMPTY_S
MOST_PICK = 0.050 / EMPTY_S

PICK = """async id => {
    document.querySelector(`[data-choose="${id}"]`).click();
    await new Promise(done => requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = done;
        after.port2.postMessage(0);
    }));
}"""


def many(document: dict[str, Any]) -> dict[str, Any]:
    """Repeat the example's designs, each a little steeper and dearer than the one before."""
    designs = []
    for number in range(DESIGNS):
        design = copy.deepcopy(document["designs"][number % len(document["designs"])])
        design["id"] = f"W{number + 1:03d}"
        design["angle_deg"] += 0.011 * number
        design["cost_cents"] += 10 * number
        designs.append(design)
    return document | {"designs": designs}


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, str]:
    """Return the addresses of the page and of the empty one."""
    folder = tmp_path_factory.mktemp("pages")
    document = many(json.loads(EXAMPLE.read_text(encoding="utf-8")))
    (folder / "report.html").write_text(render_page(document), encoding="utf-8")
    bundle = BUNDLE.read_text(encoding="utf-8").replace("</script", "<\\/script")
    empty = f'<!doctype html><html lang="en"><title>empty</title><script>{bundle}</script></html>'
    (folder / "empty.html").write_text(empty, encoding="utf-8")
    return (folder / "report.html").as_uri(), (folder / "empty.html").as_uri()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    path = shutil.which("chromium")
    if path is None:
        pytest.skip("Chromium is not installed (Debian's package chromium)")
    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield chromium
        chromium.close()


class Opened:
    """A page in a context of its own, and the time that its thread has been busy."""

    def __init__(self, browser: Browser, address: str) -> None:
        self.context = browser.new_context(viewport={"width": 1280, "height": 900})
        self.page = self.context.new_page()
        self._session = self.context.new_cdp_session(self.page)
        self._session.send("Performance.enable", {"timeDomain": "threadTicks"})
        self.page.goto(address)

    def busy_s(self) -> float:
        rows = self._session.send("Performance.getMetrics")["metrics"]
        return next(float(row["value"]) for row in rows if row["name"] == "TaskDuration")

    def wait_until_drawn(self) -> None:
        mark = "() => performance.getEntriesByName('steepwright-settled').length"
        self.page.wait_for_function(mark, polling=50)

    def close(self) -> None:
        self.context.close()


def load_s(browser: Browser, address: str, drawn: bool) -> float:
    opened = Opened(browser, address)
    if drawn:
        opened.wait_until_drawn()
    taken = opened.busy_s()
    opened.close()
    return taken


def test_the_page_is_interactive_in_time(browser: Browser, pages: tuple[str, str]) -> None:
    """Interactive means more here than it must: every part of the page is drawn."""
    full, empty = [], []
    for _ in range(ROUNDS):
        empty.append(load_s(browser, pages[1], drawn=False))
        full.append(load_s(browser, pages[0], drawn=True))
    base, taken = statistics.median(empty), statistics.median(full)
    print(f"\nempty {base:.3f} s, page {taken:.3f} s: {taken / base:.1f} of {MOST_READY:.1f}")
    assert taken <= MOST_READY * base


def test_a_pick_is_quick_wherever_one_looks(browser: Browser, pages: tuple[str, str]) -> None:
    empty = [load_s(browser, pages[1], drawn=False) for _ in range(3)]
    opened = Opened(browser, pages[0])
    opened.wait_until_drawn()
    ids = opened.page.evaluate("steepwright.data.designs.map(d => d.row.id)")
    picks = {}
    for shift, part in enumerate(("answer", "explore", "design")):
        opened.page.evaluate("id => document.getElementById(id).scrollIntoView()", part)
        opened.page.wait_for_timeout(500)
        taken = []
        for name in ids[5 + shift :: DESIGNS // PICKS]:
            before = opened.busy_s()
            opened.page.evaluate(PICK, name)
            taken.append(opened.busy_s() - before)
            opened.page.wait_for_timeout(300)  # what is out of sight is drawn meanwhile
        picks[part] = statistics.median(taken)
    opened.close()
    empty += [load_s(browser, pages[1], drawn=False) for _ in range(4)]
    base = statistics.median(empty)
    print(f"\nempty {base:.3f} s, picks", {k: round(v / base, 3) for k, v in picks.items()})
    assert max(picks.values()) <= MOST_PICK * base
