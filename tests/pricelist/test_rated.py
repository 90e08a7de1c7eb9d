"""A list in dollars: rated panels (PS 1, PS 2) instead of European classes, and its own tax.

A span rating such as 48/24 is the greatest spacing of roof and floor supports [in] (PS 2, from
memory); the shipped materials hold values of 48/24 alone.
"""

from __future__ import annotations

import pytest

from steepwright.catalog import read_catalog
from steepwright.cli.console import run
from steepwright.pricelist import read_price_list
from steepwright.pricelist.answers import from_mapping


def read(tmp_path, *names, **answers):
    path = tmp_path / "list.csv"
    rows = [f'{n},"{name}",ea,30.00' for n, name in enumerate(names, start=1)]
    path.write_text("\n".join(["Item,Description,Unit,Price", *rows]) + "\n", encoding="utf-8")
    given = {"currency": "USD", "prices": "include-vat", **answers}
    return read_price_list(path, from_mapping(given, "test"))


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("23/32 in. x 4 ft x 8 ft OSB subfloor 48/24", "rated OSB"),
        ("23/32 in. x 4 ft x 8 ft OSB subfloor", "rated OSB"),
        ("23/32 in. x 4 ft x 8 ft rated plywood sheathing 48/24", "rated plywood"),
        ("23/32 in. x 4 ft x 8 ft plywood subfloor", "rated plywood"),
        # PS 1 [M]: CDX has veneers of grades C and D and the bond of Exposure 1.
        ("23/32 in. x 4 ft x 8 ft CDX", "rated plywood"),
        ("23/32 in. x 4 ft x 8 ft CDX southern pine plywood", "rated plywood"),
        ("23/32 in. x 4 ft x 8 ft pine plywood 48/24", "rated plywood"),
    ],
)
def test_a_panel_of_a_list_in_dollars_is_a_rated_one_and_that_is_told(name, kind, tmp_path):
    found = read(tmp_path, name)
    sheet = found.sheets[0]
    assert (sheet.kind, sheet.thickness_mm) == (kind, 18)
    sides = (sheet.length_mm, sheet.width_mm)
    assert sorted(sides) == [1219, 2438]
    assert sides[sheet.face_grain == "width"] == 2438
    told = [one.message for one in found.assumptions if "look at the stamp" in one.message]
    assert len(told) == 1
    assert ("48/24" in told[0]) == ("48/24" not in name)
    assert not any(one.key in ("osb", "plywood") for one in found.questions)


def test_a_thin_sheathing_is_left_out_for_its_values_not_for_a_european_class(tmp_path):
    found = read(tmp_path, "7/16 in. x 4 ft x 8 ft OSB sheathing", "23/32 4x8 ft OSB 40/20")
    assert not found.sheets
    why = [one.reason for one in found.left_out]
    assert why == [
        "no strength values for rated OSB 11.1 mm",
        "rated OSB 40/20: only 48/24 has strength values here",
    ]
    assert not any(one.key == "osb" for one in found.questions)


def test_cdx_is_a_european_panel_only_by_an_answer(tmp_path):
    cdx, pine = "CDX 18 mm 2440 x 1220", "CDX pine plywood 18 mm 2440 x 1220"
    asked = read(tmp_path, cdx, currency="EUR")
    assert not asked.sheets
    assert "plywood" in {one.key for one in asked.questions}
    assert read(tmp_path, cdx, pine, plywood="softwood").sheets[0].kind == "softwood ply"
    assert read(tmp_path, pine).sheets[0].kind == "rated plywood"
    refused = read(tmp_path, pine, plywood="none")
    assert [one.reason for one in refused.left_out] == ["rated plywood, left out as answered"]


def test_elsewhere_and_by_an_answer_classes_are_the_european_ones(tmp_path):
    name = "OSB 18 mm 2500 x 1250"
    assert [q.key for q in read(tmp_path, name, currency="EUR").questions if q.key == "osb"]
    assert read(tmp_path, name, osb="3").sheets[0].kind == "OSB/3"
    assert not read(tmp_path, name, osb="none").sheets


@pytest.mark.parametrize(
    ("flags", "told", "heading"),
    [
        (["--vat", "7", "--prices-exclude-vat"], "7 % was added", "each, with sales tax"),
        (["--vat", "0", "--prices-exclude-vat"], "none was added", "each"),
    ],
)
def test_a_list_in_dollars_speaks_of_sales_tax_alone(flags, told, heading, tmp_path, capsys):
    path, yard = tmp_path / "us.csv", tmp_path / "yard"
    rows = "1,2x4-8 ft SPF #2,4.00\n2,23/32 in. x 4 ft x 8 ft OSB 48/24,30.00\n"
    path.write_text("Item,Description,Price USD each\n" + rows, encoding="utf-8")
    assert run(["prices", str(path), "--out", str(yard), "--nominal", "us", *flags]) == 0
    seen = capsys.readouterr()
    said = [" ".join(line.split()) for line in seen.out.splitlines()]
    line = next(one for one in said if one.startswith("sales tax "))
    assert line == f"sales tax printed prices are without sales tax; {told}"
    assert next(one for one in said if one.startswith("row code")).endswith(f"for {heading}")
    assert "VAT" not in seen.out + seen.err.replace("--prices-exclude-vat", "")
    made = read_catalog(yard, whole=False)
    assert not any("value-added" in one.message for one in made.findings)
