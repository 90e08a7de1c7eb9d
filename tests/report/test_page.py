"""The page as text: self-contained, escaped, reproducible, small."""

from __future__ import annotations

import copy
import json
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from steepwright.report import render_page
from steepwright.report.data import design_view, page_data
from steepwright.report.views.answer import answer_of
from unpacking import unpack

Doc = dict[str, Any]
EXAMPLE = Path(__file__).resolve().parents[2] / "reports" / "loft"
HOSTILE = "</script><script>alert(1)</script><u>\"'&\u2028"


class Reader(HTMLParser):
    """Collects elements, addresses and the text of scripts."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.addresses: list[str] = []
        self.scripts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag == "script":
            self.scripts.append("")
        self.addresses += [v or "" for k, v in attrs if k in {"src", "href", "action", "srcset"}]

    def handle_data(self, data: str) -> None:
        if self.tags and self.tags[-1] == "script":
            self.scripts[-1] += data


def read(page: str) -> Reader:
    reader = Reader()
    reader.feed(page)
    reader.close()
    return reader


@pytest.fixture(scope="module")
def page(document: Doc) -> str:
    return render_page(document)


def test_the_same_document_gives_the_same_bytes(document: Doc, page: str) -> None:
    assert render_page(copy.deepcopy(document)) == page
    assert render_page(json.loads(json.dumps(document))) == page


def test_nothing_is_loaded_from_anywhere(page: str) -> None:
    reader = read(page)
    assert all(address.startswith("#") for address in reader.addresses)
    assert {"link", "img", "iframe", "object"}.isdisjoint(reader.tags)
    assert "default-src 'none'" in page
    style = page.split("<style>")[1].split("</style>")[0]
    assert "url(" not in style
    assert "@import" not in style


def test_the_page_carries_exactly_the_views(document: Doc, page: str) -> None:
    carried = unpack(json.loads(read(page).scripts[0]))
    views = tuple(design_view(document, design) for design in document["designs"])
    expected = page_data(document, views, answer_of(document))
    assert carried == json.loads(json.dumps(expected))


def test_hostile_names_stay_text(document: Doc) -> None:
    hostile = copy.deepcopy(document)
    hostile["room"]["name"] = HOSTILE
    hostile["cautions"] = [HOSTILE]
    hostile["findings"][0]["message"] = HOSTILE
    for design in hostile["designs"]:
        design["sheet"] = HOSTILE
        design["bill"][0]["what"] = HOSTILE
        design["checks"][0]["assumption"] = HOSTILE
    reader = read(render_page(hostile))
    assert reader.tags.count("script") == len(read(render_page(document)).scripts) == 3
    assert "alert(1)" not in reader.scripts[1] + reader.scripts[2]
    assert unpack(json.loads(reader.scripts[0]))["cautions"] == [HOSTILE]
    assert "u" not in reader.tags


def test_the_answer_and_the_cautions_come_first(document: Doc, page: str) -> None:
    places = [
        page.index(text) for text in ('id="answer-title"', 'id="cautions-title"', 'id="explore"')
    ]
    assert places == sorted(places)
    for caution in document["cautions"]:
        assert caution in page[: places[2]]


def test_a_document_without_designs_still_makes_a_page(document: Doc) -> None:
    page = render_page(document | {"designs": [], "cloud": []})
    assert "No wall was found" in page


def test_300_designs_fit_the_budget(sample: Any) -> None:
    """Every design is made unlike every other, as a fine grid makes them: less can be shared."""
    document = sample.document(300)
    for number, design in enumerate(document["designs"]):
        for check in design["checks"]:
            check["demand"] *= 1 + 0.0013 * number
            check["capacity"] *= 1 + 0.0007 * number
        for piece in design["pieces"]:
            piece["mass_kg"] = round(piece["mass_kg"] * (1 + 0.001 * number), 1)
        for sheet in design["cut_plan"]["sheets"]:
            for part in sheet["parts"]:
                part["x_mm"] += number
        for name in ("x_foot_mm", "x_lip_mm", "x_pivot_mm", "board_mm", "lip_height_mm"):
            design[name] += number
        design["row_lengths_mm"][0] += number
        for point in design["holds"]["free_mm"]:
            point[1] += number
        for line in design["bill"]:
            line["quantity"] += number % 50
        design["mount_centres_mm"] = [c + number / 10 for c in design["mount_centres_mm"]]
    assert len(document["designs"]) == 300
    size = len(render_page(document).encode())
    assert size <= 2_500_000


def test_300_designs_like_the_examples_fit_the_budget() -> None:
    """The shipped example's designs over and over, no two of them alike."""
    document = json.loads((EXAMPLE / "designs.json").read_text(encoding="utf-8"))
    first, designs = document["designs"], []
    for number in range(300):
        design = copy.deepcopy(first[number % len(first)])
        design["id"] = f"W{number + 1:03d}"
        for check in design["checks"]:
            check["demand"] *= 1 + 0.0013 * number
            check["use"] *= 1 - 0.0003 * number
        for piece in design["pieces"]:
            piece["mass_kg"] = round(piece["mass_kg"] * (1 + 0.001 * number), 1)
        for name in ("x_foot_mm", "x_lip_mm", "x_pivot_mm", "lip_height_mm"):
            design[name] += number
        design["angle_deg"] += 0.013 * number
        design["cost_cents"] += 10 * number
        designs.append(design)
    size = len(render_page(document | {"designs": designs}).encode())
    assert size <= 2_500_000
