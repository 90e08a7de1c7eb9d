"""The material tables: every figure has a source, every source a use, every key a value."""

from __future__ import annotations

import ast
import csv
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from steepwright.catalog import read_materials
from steepwright.catalog.materials import read_materials_from
from steepwright.catalog.sources import sources_text
from steepwright.errors import InputError
from steepwright.resources import catalogs_dir

TABLES = catalogs_dir() / "materials"
PACKAGE = Path(__file__).resolve().parents[2] / "search" / "steepwright"


def cited() -> set[str]:
    materials = read_materials()
    return {
        *(row.source for row in materials.timber_classes.values()),
        *(row.source for row in materials.panels.values()),
        *materials.factors.sources.values(),
    }


def test_every_source_that_is_cited_is_listed() -> None:
    assert cited() - set(read_materials().sources) == set()


def test_every_source_that_is_listed_is_cited() -> None:
    assert set(read_materials().sources) - cited() == set()


@pytest.mark.parametrize("name", ["factors.csv", "sources.csv", "row_limits.csv"])
def test_rows_are_sorted(name: str) -> None:
    with (TABLES / name).open(encoding="utf-8", newline="") as stream:
        rows = list(csv.reader(stream))[1:]
    keys = [tuple(row[:2]) if name == "row_limits.csv" else row[0] for row in rows]
    assert keys == sorted(keys)


def test_sources_say_whether_they_were_read_or_recalled() -> None:
    with (TABLES / "sources.csv").open(encoding="utf-8", newline="") as stream:
        assert {row["memory"] for row in csv.DictReader(stream)} == {"yes", "no"}
    for source in read_materials().sources.values():
        assert source.memory or not source.id.endswith("-recalled"), source.id


def test_the_readable_list_matches_the_tables() -> None:
    shipped = (catalogs_dir() / "SOURCES.md").read_text(encoding="utf-8")
    written = sources_text(read_materials().sources.values())
    assert shipped == written, "run python -m steepwright.catalog.sources"


def test_every_factor_the_code_asks_for_by_name_is_there() -> None:
    """Subscripts with a plain text of anything called factors, in the whole package."""
    asked = {
        node.slice.value
        for path in PACKAGE.rglob("*.py")
        if path.parent.name != "pricelist"
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Subscript)
        and isinstance(node.slice, ast.Constant)
        and isinstance(node.slice.value, str)
        and ast.unparse(node.value).endswith("factors")
    }
    assert "gamma_q" in asked
    assert asked - set(read_materials().factors.values) == set()


@pytest.mark.parametrize("family", ["solid", "plywood", "osb3"])
def test_factors_of_every_material_family(family: str) -> None:
    factors = read_materials().factors
    durations = ["permanent", "short"] + ["instantaneous"] * (family == "solid")
    kmod = [factors[f"kmod_{family}_{duration}"] for duration in durations]
    assert kmod == sorted(kmod)
    assert len(set(kmod)) == len(durations)
    assert factors[f"gamma_m_{family}"] >= 1.2


def test_timber_creeps() -> None:
    assert read_materials().factors["kdef_solid"] >= 0.6


def test_panels_have_every_family_and_positive_figures() -> None:
    for panel in read_materials().panels.values():
        assert panel.kmod_family in ("solid", "plywood", "osb3")
        assert panel.fm_along_mpa > panel.fm_across_mpa > 0
        assert panel.e_along_mpa > panel.e_across_mpa > 0
        assert panel.fv_planar_mpa >= panel.fv_planar_across_mpa > 0
        assert abs(panel.mean_thickness_mm - panel.thickness_mm) <= 0.9  # EN 315 at 18 mm


@pytest.fixture
def tables(tmp_path: Path) -> Path:
    return Path(shutil.copytree(TABLES, tmp_path / "materials"))


def test_extra_factors_load_fine(tables: Path) -> None:
    with (tables / "factors.csv").open("a", encoding="utf-8") as stream:
        stream.write("zz_new,1.5,mm,,assumption,\n")
    assert read_materials_from(tables).factors["zz_new"] == 1.5


@pytest.mark.parametrize(
    ("name", "row", "words"),
    [
        ("factors.csv", "gamma_q,1.5,-,,ec5,", "'gamma_q' is there twice"),
        ("factors.csv", "zz,one,-,,ec5,", "could not convert string to float: 'one'"),
        ("sources.csv", "ec5,a,b,no", "'ec5' is there twice"),
        ("timber_classes.csv", "C99,x" + ",1" * 12 + ",ec5", "could not convert"),
        ("panels.csv", "birch-9,birch,9", "fewer cells"),
        ("factors.csv", "zz,nan,-,,ec5,", "zz is nan, which is no number"),
        ("timber_classes.csv", "C99,1" + ",1" * 5 + ",0" + ",1" * 6 + ",en338", "greater than 0"),
        ("panels.csv", "zz,birch,9" + ",9" * 8 + ",-3,9,9,plywood,p30,2", "-3 is no strength"),
        ("panels.csv", "zz,birch,9,inf" + ",9" * 10 + ",plywood,p30,2", "inf is no strength"),
    ],
)
def test_a_damaged_table_is_told_with_its_line(
    tables: Path, name: str, row: str, words: str
) -> None:
    path = tables / name
    line = len(path.read_text(encoding="utf-8").splitlines()) + 1
    with path.open("a", encoding="utf-8") as stream:
        stream.write(row + "\n")
    with pytest.raises(InputError, match="has 1 problem:") as caught:
        read_materials_from(tables)
    assert words in str(caught.value)
    assert f"{path}:{line}:" in str(caught.value)


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        (
            "search_step_screw_mm",
            "30",
            "search_step_screw_mm (30) doesn't divide what lies between",
        ),
        ("search_step_screw_mm", "0", "search_step_screw_mm (0) doesn't divide"),
        ("search_least_screw_mm", "250", "(250) is more than search_most_screw_mm (200)"),
        ("search_least_studs", "10", "search_least_studs (10) is more than search_most_studs (9)"),
        ("search_most_mounts", None, "no value is given for search_most_mounts"),
    ],
)
def test_limits_of_the_search_that_do_not_match_are_refused(
    tables: Path, key: str, value: str | None, words: str
) -> None:
    path = tables / "factors.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    at = next(n for n, line in enumerate(lines) if line.startswith(f"{key},"))
    cells = lines[at].split(",")
    lines[at : at + 1] = [] if value is None else [",".join([key, value, *cells[2:]])]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_materials_from(tables)
    assert words in str(caught.value)
    assert "factors.csv" in str(caught.value)


def test_reading_a_catalogue_loads_no_number_crunching_library() -> None:
    code = (
        "import sys; from steepwright.catalog import read_catalog; read_catalog();"
        "sys.exit(bool({'numpy', 'pandas', 'scipy', 'optuna', 'plotly'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], env={"PYTHONPATH": str(PACKAGE.parent)}, check=False
    )
    assert done.returncode == 0
