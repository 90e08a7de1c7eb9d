"""Checks that need more than one row: articles twice, materials that don't exist or don't match."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from steepwright.catalog.rows import Product, did_you_mean
from steepwright.catalog.types import Materials, SheetProduct, TimberProduct
from steepwright.findings import Finding


@dataclass(frozen=True, slots=True)
class Placed:
    """A record and where it was read."""

    path: Path
    line: int
    record: Product


def doubles(placed: Iterable[Placed]) -> Iterable[Finding]:
    """Yield a finding for each sku that an earlier article of the catalogue has."""
    first: dict[str, Placed] = {}
    for item in placed:
        earlier = first.setdefault(item.record.sku, item)
        if earlier is not item:
            yield Finding(
                "catalog-double-sku",
                "error",
                f"this sku is already used in {earlier.path.name} line {earlier.line}",
                str(item.path),
                item.line,
                "sku",
                seen=item.record.sku,
                expected="every article of the catalogue has a sku of its own",
                next_step="rename one of the two or remove the row that is there twice",
            )


def materials_of(placed: Iterable[Placed], materials: Materials) -> Iterable[Finding]:
    """Yield a finding for each sheet or bar whose material is unknown or doesn't match."""
    for item in placed:
        if isinstance(item.record, SheetProduct):
            yield from _sheet(item, item.record, materials)
        elif isinstance(item.record, TimberProduct):
            yield from _bar(item, item.record, materials)


def _sheet(item: Placed, sheet: SheetProduct, materials: Materials) -> Iterable[Finding]:
    kinds = sorted({panel.kind for panel in materials.panels.values()})
    panel = materials.panels.get(sheet.panel)
    if sheet.kind not in kinds:
        yield _wrong(
            item,
            ("kind", sheet.kind),
            "this kind of sheet is not known",
            f"one of {', '.join(kinds)}",
            did_you_mean(sheet.kind, kinds),
        )
        return
    same_kind = [p for p in materials.panels.values() if p.kind == sheet.kind]
    ids = ", ".join(p.id for p in same_kind)
    if panel is None:
        step = did_you_mean(sheet.panel, materials.panels)
        yield _wrong(item, ("panel", sheet.panel), "this panel is not known", f"one of {ids}", step)
    elif panel.kind != sheet.kind:
        message = f"this panel is {panel.kind}, but the kind of this row is {sheet.kind}"
        yield _wrong(item, ("panel", sheet.panel), message, f"one of {ids}", "")
    elif panel.thickness_mm != sheet.thickness_mm:
        fit = [p.id for p in same_kind if p.thickness_mm == sheet.thickness_mm]
        yield _wrong(
            item,
            ("thickness_mm", str(sheet.thickness_mm)),
            f"the thickness does not match the panel {panel.id}",
            f"{panel.thickness_mm}",
            f"or write the panel {fit[0]}" if fit else "",
        )


def _bar(item: Placed, bar: TimberProduct, materials: Materials) -> Iterable[Finding]:
    if bar.strength_class not in materials.timber_classes:
        like = _nearest_class(bar.strength_class, tuple(materials.timber_classes))
        yield _wrong(
            item,
            ("strength_class", bar.strength_class),
            "this is no strength class of structural softwood, so nothing can be calculated",
            f"one of {', '.join(materials.timber_classes)}",
            f"ask the yard for the grading stamp; the nearest class is {like}"
            if like
            else "ask the yard for timber with a grading stamp",
        )


def _nearest_class(word: str, known: Sequence[str]) -> str:
    """Return the nearest class that promises no more, when the word looks like a class."""
    digits = re.fullmatch(r"[cC] ?([0-9]{1,2})", word)
    if not digits:
        return ""
    numbered = [name for name in known if re.fullmatch(r"C[0-9]+", name)]
    below = [name for name in numbered if int(name[1:]) <= int(digits.group(1))]
    return below[-1] if below else numbered[0]


def _wrong(
    item: Placed, cell: tuple[str, str], message: str, expected: str, next_step: str
) -> Finding:
    key, seen = cell
    place = (str(item.path), item.line, key, seen)
    return Finding("catalog-material-unknown", "error", message, *place, expected, next_step)
