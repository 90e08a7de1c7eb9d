"""What a yard sells and what it is made of: shipped tables and a builder's own, as typed rows."""

from steepwright.catalog.materials import read_materials
from steepwright.catalog.read import read_catalog
from steepwright.catalog.rows import CATALOG_FILES
from steepwright.catalog.types import (
    Catalog,
    Factors,
    Hardware,
    Materials,
    Mount,
    Panel,
    Screw,
    SheetProduct,
    Source,
    TimberClass,
    TimberProduct,
)
from steepwright.catalog.write import write_catalog

__all__ = [
    "CATALOG_FILES",
    "Catalog",
    "Factors",
    "Hardware",
    "Materials",
    "Mount",
    "Panel",
    "Screw",
    "SheetProduct",
    "Source",
    "TimberClass",
    "TimberProduct",
    "read_catalog",
    "read_materials",
    "write_catalog",
]
