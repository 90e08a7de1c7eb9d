"""From a row of the search's front to the wall it stands for."""

from __future__ import annotations

from steepwright.optimise.evaluate import Workshop
from steepwright.optimise.found import Found
from steepwright.optimise.model import Model
from steepwright.pricing.wall import Wall


def workshop(model: Model) -> Workshop:
    """Return the evaluating tools of a model."""
    return Workshop(model.space, model.pricer, model.tables, model.exact)


def wall_of(model: Model, found: Found) -> Wall:
    """Return the wall behind a row of the front."""
    space = model.space
    market = space.market
    sheeting = space.sheetings[found.sheeting]
    beam, facing = space.places[found.place]
    return Wall(
        beam=beam,
        facing=facing,
        sheet=market.families[sheeting.family],
        grain=sheeting.grain,
        split=sheeting.split,
        bays=sheeting.bays,
        section=market.sections[found.section],
        mount=market.catalog.mounts[found.mount],
        mount_count=found.mount_count,
        screw_mm=found.screw_mm,
        tie=space.ties[found.tie],
        kicker_sheet=market.families[found.sheets.kicker_family],
        delivered=found.delivered,
        board_mm=found.board_mm,
        kicker_mm=found.kicker_mm,
        width_mm=found.width_mm,
    )
