"""What is said of lumber and panels not graded by European standards, or not for damp rooms."""

from __future__ import annotations

from steepwright.catalog.types import Catalog
from steepwright.room.types import Room
from steepwright.room.with_catalog import fits_service_class

LUMBER_SOURCE, PANEL_SOURCE = "nds", "apa"
"""How the ids of these sources begin."""

_LUMBER = (
    "Lumber graded in North America ({names}) is checked by EN 1995-1-1 all the same; no rule of"
    " the NDS is applied. Its strengths are the NDS reference design values{recalled}, turned into"
    " characteristic ones without the size factor and rounded down. A check by the NDS may pass"
    " where this one doesn't, and is the one that counts where the NDS is law."
)
_PANELS = (
    "Rated panels ({names}) take recalled design capacities of span rating 48/24; ask for the"
    " maker's figures before you buy."
)

_DAMP = (
    "Sheets of {names} are left out: they may be used in service class 1 only, and the room is of"
    " class {number}."
)


def grading_assumptions(room: Room, catalog: Catalog) -> tuple[str, ...]:
    """Return what has to be said of the lumber and panels on offer and of the room's beams."""
    classes, panels = catalog.materials.timber_classes, catalog.materials.panels
    asked = {bar.strength_class for bar in catalog.timber} | {beam.grade for beam in room.beams}
    used = (row for name, row in classes.items() if name in asked)
    lumber = [row for row in used if row.source.startswith(LUMBER_SOURCE)]
    sold = {sheet.panel for sheet in catalog.sheets}
    rated = {panels[one].kind for one in sold if panels[one].source.startswith(PANEL_SOURCE)}
    told = []
    if lumber:
        sources = catalog.materials.sources
        memory = [row.name for row in lumber if sources[row.source].memory]
        recalled = f" (recalled for {', '.join(memory)})" if memory else ""
        names = ", ".join(row.name for row in lumber)
        told.append(_LUMBER.format(names=names, recalled=recalled))
    if rated:
        told.append(_PANELS.format(names=", ".join(sorted(rated))))
    damp = {panels[one].kind for one in sold if not fits_service_class(room, catalog, one)}
    if damp:
        told.append(_DAMP.format(names=", ".join(sorted(damp)), number=room.service_class))
    return tuple(told)
