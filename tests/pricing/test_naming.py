"""An article's name tells its size: what a shop is asked for must be one thing.

The names are made up; sizes are in the order in which a yard writes them. That the example's
names tell theirs is read off its CSV files' own columns.
"""

import pytest

from steepwright.catalog import read_catalog
from steepwright.catalog.types import SheetProduct, TimberProduct
from steepwright.pricing.naming import bar_name, sheet_name


def bar(name: str, *sizes: int) -> str:
    return bar_name(TimberProduct("b", name, *sizes, "C24", "planed", 100))


def sheet(name: str, *sizes: int) -> str:
    return sheet_name(SheetProduct("s", name, "birch", "birch-18", *sizes, "length", 100))


def test_a_name_without_a_size_gets_it() -> None:
    assert bar("KVH Fichte C24", 60, 80, 4000) == "KVH Fichte C24, 60 x 80 x 4000 mm"
    assert bar("KVH Fichte C24", 60, 100, 4000) == "KVH Fichte C24, 60 x 100 x 4000 mm"
    assert sheet("Sperrholz C+/C", 18, 2500, 1250) == "Sperrholz C+/C, 18 mm, 2500 x 1250 mm"


@pytest.mark.parametrize("name", ["KVH C24 60x80", "KVH C24 4000 mm", "KVH 60x80 3/4/5 m"])
def test_a_name_with_a_part_of_its_size_gets_the_whole(name: str) -> None:
    assert bar(name, 60, 80, 5000) == f"{name}, 60 x 80 x 5000 mm"


def test_a_class_is_no_size() -> None:
    assert bar("Kantholz C24 48 mm, 3 m", 24, 48, 3000).endswith("24 x 48 x 3000 mm")
    assert sheet("OSB/3 Platte", 3, 3000, 1250).endswith("3 mm, 3000 x 1250 mm")


@pytest.mark.parametrize(
    "name", ["KVH 60x80x4000", "KVH C24 60 x 80 mm, 4 m", "KVH 6/8 cm 4,00 m", "KVH 60/80 L=4000mm"]
)
def test_a_name_that_tells_its_size_stays(name: str) -> None:
    assert bar(name, 60, 80, 4000) == name


def test_a_size_is_not_the_beginning_of_another() -> None:
    assert bar("KVH 60x80x4000", 60, 80, 400) == "KVH 60x80x4000, 60 x 80 x 400 mm"
    assert bar("KVH 600x80x4000", 60, 80, 4000) == "KVH 600x80x4000, 60 x 80 x 4000 mm"


def test_a_name_in_feet_and_inches_stays() -> None:
    assert bar("Lumber 2x4 SPF No.2, 8 ft", 38, 89, 2438) == "Lumber 2x4 SPF No.2, 8 ft"
    assert sheet('Plywood 3/4" 4x8', 18, 2438, 1219) == 'Plywood 3/4" 4x8'


def test_the_examples_names_tell_their_sizes() -> None:
    catalog = read_catalog()
    assert [bar_name(one) for one in catalog.timber] == [one.name for one in catalog.timber]
    assert [sheet_name(one) for one in catalog.sheets] == [one.name for one in catalog.sheets]
