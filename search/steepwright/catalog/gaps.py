"""What a catalogue lacks: tables that the shipped example stands in for, articles nobody sells."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from steepwright.catalog.families import (
    frame_screws,
    lip_bolts,
    sheet_families,
    sheet_screws,
    timber_sections,
)
from steepwright.catalog.heading import Heading
from steepwright.catalog.rows import CATALOG_FILES, HARDWARE, SCREWS, TRIPS_FILE, did_you_mean
from steepwright.catalog.types import Catalog
from steepwright.findings import Finding

NEEDED_KINDS = ("tnut", "hinge", "rope", "pulley", "brake", "latch", "strap")
"""Hardware that a wall is made of; bolts and pads are bought as one likes."""


def stand_in(
    folder: Path, file: str, own: Heading | None, shipped: Heading | None
) -> Iterable[Finding]:
    """Yield what the user must know when the shipped example's table is used for a missing one."""
    known = (*CATALOG_FILES, TRIPS_FILE)
    like = [p.name for p in sorted(folder.glob("*.csv")) if p.name not in known]
    hint = next((name for name in like if did_you_mean(name, [file])), "")
    step = f"rename {hint} to {file}" if hint else f"add a {file} with your yard's prices"
    message = (
        f"the catalogue has no {file}, so the shipped example's invented prices are used for it"
    )
    place = str(folder / file)
    yield Finding("catalog-shipped-instead", "assumption", message, place, next_step=step)
    if own and shipped and own.currency != shipped.currency:
        yield Finding(
            "catalog-currency",
            "warning",
            f"those prices are in {shipped.currency} and count one to one as {own.currency}, "
            "which makes totals wrong",
            place,
            seen=shipped.currency,
            expected=own.currency,
            next_step=step,
        )


def gaps(catalog: Catalog, folder: Path) -> Iterable[Finding]:
    """Yield a warning for products that can't be fixed and for each part that nobody sells."""
    thick = {f.thickness_mm for f in sheet_families(catalog)}
    wide = {s.width_mm for s in timber_sections(catalog)}
    loose_sheets = sorted(t for t in thick if not sheet_screws(catalog, t))
    loose_bars = sorted(w for w in wide if not frame_screws(catalog, w))
    if loose_sheets:
        yield _no_screw(folder, "sheet", f"sheets {_listed(loose_sheets)} mm thick")
    if loose_bars:
        yield _no_screw(folder, "frame", f"timber {_listed(loose_bars)} mm wide")
    unbolted = sorted(w for w in wide if not lip_bolts(catalog, w))
    if unbolted:
        yield Finding(
            "catalog-no-lip-bolt",
            "assumption",
            f"no bolt for mounts fits lip rails {_listed(unbolted)} mm wide, so bolts bought"
            " elsewhere are assumed and aren't on the bill",
            str(folder / HARDWARE.file),
            key="length_mm",
            next_step="add the bolt with its diameter and length",
        )
    sold = {row.kind for row in catalog.hardware}
    for kind in NEEDED_KINDS:
        if kind not in sold:
            yield Finding(
                "catalog-no-hardware",
                "warning",
                f"the catalogue has no {kind}, so no wall that needs one can be priced",
                str(folder / HARDWARE.file),
                key="kind",
                next_step="add a row for it",
            )


def _listed(numbers: Iterable[int]) -> str:
    return ", ".join(map(str, numbers))


def _no_screw(folder: Path, role: str, what: str) -> Finding:
    return Finding(
        "catalog-no-screw",
        "warning",
        f"no {role} screw is long enough for {what}, so no wall is made of them",
        str(folder / SCREWS.file),
        key="length_mm",
        next_step=f"add a longer screw with the role {role}",
    )
