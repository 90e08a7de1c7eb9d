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
_BY_NDS = (
    "Lumber ({names}) has the reference design values of the NDS{recalled}, of dimension lumber 2"
    " to 4 in thick; a beam built up from it counts as one piece. Beams and posts sawn thicker have"
    " other values (Supplement, Table 4D): ask for those."
)
_LEFT_OUT = "Timber without NDS reference design values ({names}) is left out."
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
    unrated = {bar.strength_class for bar in catalog.timber} - set(catalog.materials.nds_lumber)
    if room.code == "NDS" and unrated:
        told.append(_LEFT_OUT.format(names=", ".join(sorted(unrated))))
    if lumber:
        sources = catalog.materials.sources
        memory = [row.name for row in lumber if sources[row.source].memory]
        recalled = f" (recalled for {', '.join(memory)})" if memory else ""
        names = ", ".join(row.name for row in lumber)
        text = _BY_NDS if room.code == "NDS" else _LUMBER
        told.append(text.format(names=names, recalled=recalled))
    if rated:
        told.append(_PANELS.format(names=", ".join(sorted(rated))))
    damp = {panels[one].kind for one in sold if not fits_service_class(room, catalog, one)}
    if damp:
        told.append(_DAMP.format(names=", ".join(sorted(damp)), number=room.service_class))
    return tuple(told)
