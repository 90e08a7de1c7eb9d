"""Names in a room file that the catalogue does not know are told with their line."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from steepwright import assess, search
from steepwright.catalog import Catalog, read_catalog
from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.pricing.market import build_market
from steepwright.resources import catalogs_dir
from steepwright.room import check_with_catalog, read_room

EXAMPLE = (catalogs_dir() / "example" / "room.toml").read_text(encoding="utf-8")


def test_the_example_names_what_the_shipped_yard_has() -> None:
    check_with_catalog(read_room(catalogs_dir() / "example" / "room.toml"), read_catalog())


@pytest.mark.parametrize(
    ("row", "instead", "key", "words"),
    [
        ('grade = "C24"', 'grade = "C42"', "beams[1].grade", ("C42", "C24", "unknown")),
        ("fold_up = true", 'sheet_kinds = ["OSB/3",\n  "birk"]', "wall.sheet_kinds[2]",
         ("birk", "Did you mean birch?")),
        ('kind = "OSB/3"', 'kind = "OSB"', "yard.offcuts[2].kind", ("OSB/3",)),
        ("min_thickness_mm = 18", "min_thickness_mm = 55", "wall.min_thickness_mm", ("55",)),
        ('kind = "birch"\nthickness_mm = 18', 'kind = "birch"\nthickness_mm = 17',
         "yard.offcuts[1].thickness_mm", ("17", "9, 12, 15, 18")),
    ],
)  # fmt: skip
def test_an_unknown_name_is_told_with_its_line(
    tmp_path: Path, row: str, instead: str, key: str, words: tuple[str, ...]
) -> None:
    assert row in EXAMPLE
    text = EXAMPLE.replace(row, instead, 1)
    file = tmp_path / "room.toml"
    file.write_text(text, encoding="utf-8")
    room = read_room(file)
    with pytest.raises(InputError) as caught:
        check_with_catalog(room, read_catalog())
    (found,) = caught.value.findings
    assert isinstance(found, Finding)
    assert found.key == key
    assert instead.split("\n")[-1] in text.split("\n")[found.line - 1]
    assert all(word in found.text() for word in words)


def changed(tmp_path: Path, *swaps: tuple[str, str]) -> Path:
    text = EXAMPLE
    for row, instead in swaps:
        assert row in text
        text = text.replace(row, instead, 1)
    file = tmp_path / "room.toml"
    file.write_text(text, encoding="utf-8")
    return file


def test_kinds_that_are_sold_but_not_as_thick_as_asked(tmp_path: Path) -> None:
    """Birch goes up to 24 mm, OSB/3 to 25 mm: each key alone is right."""
    file = changed(
        tmp_path,
        ("fold_up = true", 'fold_up = true\nsheet_kinds = ["birch"]'),
        ("min_thickness_mm = 18", "min_thickness_mm = 25"),
    )
    with pytest.raises(InputError) as caught:
        check_with_catalog(read_room(file), read_catalog())
    (found,) = caught.value.findings
    assert isinstance(found, Finding)
    assert found.key == "wall.min_thickness_mm"
    assert "min_thickness_mm = 25" in file.read_text().split("\n")[found.line - 1]
    assert "no sheet of birch as thick" in found.text()
    assert "at most 24" in found.text()


def two_panels() -> Catalog:
    """The shipped catalogue with a second OSB/3 panel of 18 mm, invented."""
    catalog = read_catalog()
    panels = dict(catalog.materials.panels)
    panels["osb3-18-b"] = replace(panels["osb3-18"], id="osb3-18-b")
    osb = next(s for s in catalog.sheets if s.panel == "osb3-18")
    other = replace(osb, sku="OTHER", panel="osb3-18-b")
    return replace(
        catalog,
        sheets=(*catalog.sheets, other),
        materials=replace(catalog.materials, panels=panels),
    )


def test_an_offcut_of_two_possible_panels_is_asked_for_its_panel(tmp_path: Path) -> None:
    """Counted in both families it could be used twice: for the board and for the kicker."""
    room = read_room(changed(tmp_path))
    with pytest.raises(InputError) as caught:
        check_with_catalog(room, two_panels())
    (found,) = caught.value.findings
    assert isinstance(found, Finding)
    assert (found.code, found.key) == ("room-which-panel", "yard.offcuts[2].panel")
    assert "osb3-18, osb3-18-b" in found.text()
    own = [
        stock.sku
        for group in build_market(room, two_panels()).sheet_stock
        for stock in group
        if stock.sku == "offcut-2"
    ]
    assert own == []


@pytest.mark.parametrize("panel", ["osb3-18", "osb3-18-b"])
def test_an_offcut_belongs_to_the_one_family_of_its_panel(tmp_path: Path, panel: str) -> None:
    file = changed(tmp_path, ('kind = "OSB/3"', f'kind = "OSB/3"\npanel = "{panel}"'))
    room = read_room(file)
    check_with_catalog(room, two_panels())
    market = build_market(room, two_panels())
    owners = [
        family.panel
        for family, group in zip(market.families, market.sheet_stock, strict=True)
        if any(stock.sku == "offcut-2" for stock in group)
    ]
    assert owners == [panel]


def test_an_offcut_of_a_panel_that_is_not_of_its_kind(tmp_path: Path) -> None:
    file = changed(tmp_path, ('kind = "OSB/3"', 'kind = "OSB/3"\npanel = "birch-18"'))
    with pytest.raises(InputError, match=r"offcuts\[2\].panel: there is no such panel.*osb3-18"):
        check_with_catalog(read_room(file), read_catalog())


@pytest.mark.parametrize("table", ["sheets", "timber", "mounts", "screws"])
def test_a_catalogue_that_sells_nothing_of_a_kind_is_refused_from_python(table: str) -> None:
    room = read_room(catalogs_dir() / "example" / "room.toml")
    catalog = replace(read_catalog(), **{table: ()})
    design = {"board_mm": 2600, "width_mm": 1200}
    for work in (lambda: search(room, catalog), lambda: assess(room, catalog, design)):
        with pytest.raises(InputError) as caught:
            work()
        assert any(
            isinstance(found, Finding) and found.key == table and found.expected
            for found in caught.value.findings
        )
