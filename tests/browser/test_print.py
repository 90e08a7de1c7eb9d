"""The building sheets on paper, read back by poppler's tools."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

MARGIN = dict.fromkeys(("top", "bottom", "left", "right"), "12mm")
MM_PT = 72 / 25.4
LEAVES = (
    "What is to be built",
    "Shopping list",
    "Cut sheet for the shop’s saw",
    "Sawing at home",
    "Frame and drilling",
    "Order of building",
    "Check sheet for an engineer",
    "The stair of cost against angle",
)


@pytest.fixture(scope="module", params=["A4", "Letter"])
def pdf(
    request: pytest.FixtureRequest,
    browser: Browser,
    address: str,
    tmp_path_factory: pytest.TempPathFactory,
) -> Path:
    page = browser.new_page(color_scheme="dark")
    page.goto(f"{address}#W17")
    path = tmp_path_factory.mktemp("paper") / "sheets.pdf"
    page.pdf(path=path, format=request.param, margin=MARGIN, print_background=True)
    assert page.evaluate("document.getElementById('sheets').childElementCount") == 0
    page.close()
    return path


def poppler(*command: str) -> str:
    tool = shutil.which(command[0])
    assert tool, f"{command[0]} comes with Debian's poppler-utils"
    done = subprocess.run([tool, *command[1:]], capture_output=True, text=True, check=True)
    return done.stdout


def words(path: Path) -> list[tuple[int, float, float, float, float, str]]:
    """Return (page, left, top, right, bottom, word) in points, and the page sizes as words."""
    found, page = [], 0
    for line in poppler("pdftotext", "-bbox", str(path), "-").splitlines():
        if "<page " in line:
            page += 1
        match = re.search(
            r'xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*)</word>', line
        )
        if match:
            box = tuple(float(match.group(i)) for i in range(1, 5))
            found.append((page, *box, match.group(5)))
    return found


def test_every_sheet_is_there_and_none_is_wasted(pdf: Path) -> None:
    pages = poppler("pdftotext", "-layout", str(pdf), "-").split("\f")[:-1]
    # One page each; the order of building and the check sheet may take more.
    assert len(LEAVES) <= len(pages) <= len(LEAVES) + 3
    for title in LEAVES:
        assert sum(title in page for page in pages) == 1
    assert all(len(page.split()) > 20 for page in pages)
    assert all("A plan, not an approval." in p for p in pages if any(t in p for t in LEAVES))


def test_the_last_axis_label_and_the_last_row_are_printed(pdf: Path) -> None:
    text = poppler("pdftotext", "-layout", str(pdf), "-")
    assert "Strength used" in text
    assert "Overhang angle in degrees" in text
    assert "Looked at by" in text


def test_nothing_is_cut_off(pdf: Path) -> None:
    size = re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", poppler("pdfinfo", str(pdf)))
    assert size
    width, height = float(size.group(1)), float(size.group(2))
    edge, foot = 12 * MM_PT - 2, 4 * MM_PT  # the foot stands in the margin, above 4 mm
    outside = [
        word
        for _, left, top, right, bottom, word in words(pdf)
        if left < edge or right > width - edge or top < edge or bottom > height - foot
    ]
    assert outside == []


def test_every_page_names_its_wall_and_its_number(pdf: Path) -> None:
    pages = poppler("pdftotext", "-layout", str(pdf), "-").split("\f")[:-1]
    for number, page in enumerate(pages, 1):
        foot = page.strip().splitlines()[-1]
        assert foot.startswith("W17 · Invented loft · a plan, not an approval")
        assert foot.endswith(f"sheet {number} of {len(pages)}")


def test_the_control_bar_is_100_mm_long(pdf: Path, tmp_path: Path) -> None:
    dpi = 254  # ten pixels per millimetre
    number = next(page for page, *_, word in words(pdf) if word == "drilling")
    poppler(
        "pdftoppm",
        "-r",
        str(dpi),
        "-gray",
        "-f",
        str(number),
        "-l",
        str(number),
        str(pdf),
        str(tmp_path / "leaf"),
    )
    image = next(tmp_path.glob("leaf*.pgm")).read_bytes()
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", image)
    assert head
    width = int(head.group(1))
    pixels = image[head.end() :]
    longest = 0
    for top in range(0, 900):  # the bar stands in the upper part of its sheet
        row = pixels[top * width : (top + 1) * width]
        runs = [len(run) for run in re.findall(rb"[\x00-\x50]+", row)]
        near = [run for run in runs if 900 <= run <= 1100]
        longest = max([longest, *near])
    assert longest == pytest.approx(1000, abs=6)
