"""From a trade thickness or nominal section to what structure can reckon with."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from steepwright.catalog.types import Materials, Panel
from steepwright.resources import catalogs_dir

_OVER_MM, _UNDER_MM, _PER_MM = Decimal("0.2"), Decimal("0.4"), Decimal("0.03")
"""EN 315 tolerance of a sanded sheet of t mm: + (0.2 + 0.03 t), - (0.4 + 0.03 t) mm [M].

A size within it is that nominal sheet."""


@dataclass(frozen=True, slots=True)
class PanelChoice:
    """The panel to reckon with; `note` says when it is not simply the printed thickness."""

    panel: Panel
    note: str = ""


def panel_for(kind: str, thickness_mm: Decimal, materials: Materials) -> PanelChoice | None:
    """Return the panel of a kind for a printed thickness; None when none comes near.

    The same nominal thickness, else the one within whose tolerance it lies, else the next
    thinner one that is at most 2 mm off, which errs on the safe side.
    """
    panels = {
        panel.thickness_mm: panel for panel in materials.panels.values() if panel.kind == kind
    }
    if thickness_mm == thickness_mm.to_integral_value() and int(thickness_mm) in panels:
        return PanelChoice(panels[int(thickness_mm)])
    for nominal, panel in sorted(panels.items()):
        spread = _PER_MM * nominal
        if nominal - _UNDER_MM - spread <= thickness_mm <= nominal + _OVER_MM + spread:
            return PanelChoice(panel, f"{thickness_mm:.1f} mm is sold as nominal {nominal} mm")
    thinner = [nominal for nominal in panels if nominal < thickness_mm <= nominal + 2]
    if not thinner:
        return None
    nominal = max(thinner)
    return PanelChoice(panels[nominal], f"{thickness_mm:.1f} mm is reckoned as {nominal} mm")


@cache
def _nominal() -> dict[tuple[str, str], tuple[int, int, str]]:
    path = catalogs_dir() / "pricelist" / "nominal.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        return {
            (row["country"], row["nominal"]): (
                int(row["width_mm"]),
                int(row["depth_mm"]),
                row["surface"],
            )
            for row in csv.DictReader(stream)
        }


def nominal_section(
    country: str, inches: tuple[Decimal, Decimal], surface: str, is_cls: bool
) -> tuple[int, int, str] | None:
    """Return the actual section [mm] and surface of a nominal lumber size; None when unknown."""
    narrow, deep = sorted(inches)
    key = f"{narrow.normalize():f}x{deep.normalize():f}"
    tables = [country]
    if country == "uk":
        tables = ["uk cls"] if is_cls else ["uk planed"] if surface == "planed" else ["uk"]
    for table in tables:
        found = _nominal().get((table, key))
        if found:
            return found
    return None
