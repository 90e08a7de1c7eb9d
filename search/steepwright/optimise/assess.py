"""Every check for one wall that the builder already has in mind, pass or fail."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.catalog.families import ties_on_offer
from steepwright.catalog.types import Catalog, Hardware
from steepwright.findings import Finding, Findings, nearest
from steepwright.geometry import board_for_angle_mm
from steepwright.geometry.layout import Split
from steepwright.optimise.access import fits_vehicle
from steepwright.optimise.assess_margins import margins_of
from steepwright.optimise.document import Document, design_document, document_head
from steepwright.optimise.evaluate import (
    Workshop,
    batch_of,
    cost_cents,
    holds,
    price,
)
from steepwright.optimise.exact import ExactCosts
from steepwright.optimise.grading import grading_assumptions
from steepwright.optimise.mend import mending
from steepwright.optimise.mend_room import room_mending
from steepwright.optimise.own_places import place_problems
from steepwright.optimise.rigs_told import beam_stuck
from steepwright.optimise.space import Space, least_width_mm, limit_range
from steepwright.optimise.standing import hanging
from steepwright.optimise.why_bought import bar_short, lacking, sheet_short
from steepwright.optimise.wishes import reach_margin_mm
from steepwright.optimise.yards import in_market, markets, trip_assumptions
from steepwright.pricing.bill import counts_of
from steepwright.pricing.hardware import UNAVAILABLE_CENTS, build_pricer
from steepwright.pricing.market import Market, build_market
from steepwright.pricing.wall import Wall, bar_parts, columns_of, frame_shape, rows_of
from steepwright.room import check_with_catalog
from steepwright.room.types import FACINGS, Room
from steepwright.structure import assumptions, build_tables

_DEFAULTS: dict[str, Any] = {
    "facing": "+x",
    "columns": 1,
    "rows": 1,
    "grain": "any",
    "mount_count": 2,
    "kicker_mm": 0,
}


def assess(room: Room, catalog: Catalog, design: Mapping[str, Any]) -> Document:
    """Return the document of one design with all checks, its fit in the room and its bill.

    Parameters
    ----------
    design
        ``board_mm`` or ``angle_deg``, ``kicker_mm``, ``width_mm``, ``beam``, ``facing``,
        ``columns``, ``rows``, ``sheet``, ``stud``, ``stud_count``, ``mount``, ``mount_count``,
        ``screw_mm``, ``tie_back``, ``tie_at_mm``, ``eye_mm``; what is left out is assumed and
        told, but for the last three.

    Raises
    ------
    InputError
        When a name is not known, or the wall can't exist at all.
    """
    check_with_catalog(room, catalog)
    market = build_market(room, catalog)
    problems = Findings()
    wall = _wall(market, design, problems)
    problems.raise_if_errors("The design")
    assert wall is not None
    shop = _shop(market, wall)
    if math.isnan(float(shop.standing(wall).angle[0])):
        least = wall.board_mm + math.ceil(-float(reach_margin_mm(shop.standing(wall))[0]))
        expected = f"at least {least}, which reaches the beam"
        problems.add(_problem("board_mm", str(wall.board_mm), expected))
    _divides(shop, wall, problems)
    problems.extend(place_problems(shop.space, wall))
    problems.raise_if_errors("The design")
    shop, wall = _best_bought(wall, room, catalog, design.get("delivered"))
    _can_be_had(shop, wall, problems)
    problems.raise_if_errors("The design")
    if design.get("delivered") is None:
        problems.add(_assumed("delivered", str(wall.delivered).lower()))
    return _document(shop, wall, problems)


def _best_bought(
    wall: Wall, room: Room, catalog: Catalog, delivered: bool | None
) -> tuple[Workshop, Wall]:
    """Return the wall bought where and taken home how it is cheapest, trips and all.

    A wall that holds comes first, then one that fits the vehicle or is delivered; of equally good
    ways the first, so the one of fewer yards and without delivery. What can't be had at all is
    returned as bought from every yard and, if that is open, delivered.
    """
    ways = [False, True] if room.yard.vehicle_max_mm is not None else [False]
    made = []
    for market in markets(room, catalog):
        for way in ways if delivered is None else [delivered]:
            own = in_market(replace(wall, delivered=way), market)
            if own is None:
                continue
            shop = _shop(market, own)
            fits = own.delivered or fits_vehicle(shop.space, own)
            made.append(((not holds(shop, own), not fits, cost_cents(shop, own)), shop, own))
    score, shop, best = min(made, key=lambda option: option[0])
    if score[2] >= UNAVAILABLE_CENTS:
        _, shop, best = made[-1]
    return shop, best


def _shop(market: Market, wall: Wall) -> Workshop:
    def one(value: int) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
        return np.array([value], dtype=np.int64)

    places = tuple((beam, facing) for beam in range(len(market.room.beams)) for facing in FACINGS)
    space = Space(market, one(wall.board_mm), one(wall.kicker_mm), one(wall.width_mm), places, ())
    tables = build_tables(market.catalog, market.room, market.families, market.sections)
    most = replace(
        counts_of(market, wall),
        studs=one(max(wall.stud_count, limit_range(market, "studs")[-1])),
        mounts=one(max(wall.mount_count, space.mount_counts[-1])),
        screw_mm=one(min(wall.screw_mm, space.screws_mm[-1])),
    )
    return Workshop(space, build_pricer(market, most), tables, ExactCosts(space))


def _divides(shop: Workshop, wall: Wall, problems: Findings) -> None:
    try:
        batch_of(shop, wall)
    except ValueError as error:
        problems.add(
            Finding("design-split", "error", str(error), key="columns", next_step="split it less")
        )
        return


def _can_be_had(shop: Workshop, wall: Wall, problems: Findings) -> None:
    """Tell what can't be cut or bought, and by how much it is too large."""
    if price(shop, wall) is not None:
        return
    market = shop.space.market
    family, section = market.families.index(wall.sheet), market.sections.index(wall.section)
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    rows = rows_of(wall.split, wall.board_mm, market.limits)
    assert columns is not None
    assert rows is not None
    piece = max(rows), max(columns)
    lengths = wall.board_mm, wall.width_mm
    short = (
        sheet_short(market, family, wall.grain, piece),
        bar_short(market, section, lengths, delivered=wall.delivered),
    )
    told = [words for over, words in short if over > 0]
    missing = lacking(market, shop.pricer, ([family], [section]), counts_of(market, wall))
    told += [text for text in (missing, beam_stuck(shop.space, wall.beam)) if text]
    if bar_parts(frame_shape(wall, columns), market.limits) is None:
        least = market.limits.min_upright_mm
        told.append(f"a stud, a blocking or a kicker's upright is shorter than {least} mm")
    why = ": " + " and ".join(told) if told else ": the yard has too few sheets or bars (limit)"
    problems.add(
        Finding(
            "design-uncuttable",
            "error",
            f"this wall can't be made from what is on offer{why}",
            key="columns",
            next_step="change what is named, divide the board otherwise, or take another yard",
        )
    )


def _document(shop: Workshop, wall: Wall, problems: Findings) -> Document:
    room = shop.space.market.room
    margins = margins_of(shop, wall)
    findings = (*room.findings, *shop.space.market.catalog.findings, *problems.sorted())
    wishes = {"method": "assessed", "complete": True, "counts": {}, "room_margins": margins}
    catalog = shop.space.market.catalog
    assumed = (
        *assumptions(shop.tables),
        *grading_assumptions(room, catalog),
        *trip_assumptions(room, catalog),
    )
    head = document_head(shop.space, assumed, findings, wishes)
    design = design_document(shop, wall, "A01")
    design |= mending(shop, wall)
    design["mend_room"] = room_mending(shop, wall, partial(_shop, shop.space.market))
    failing = [one["check"] for one in design["mend_checks"]]
    failing += [name for name, margin in margins.items() if margin < 0]
    design["passes"], design["failing"] = not failing, failing
    return head | {"cloud": [], "designs": [design]}


@dataclass(frozen=True, slots=True)
class _Choice:
    """A named thing to pick, and what to take when none is named."""

    key: str
    names: Sequence[str]
    default: int


def _pick(choice: _Choice, design: Mapping[str, Any], problems: Findings) -> int:
    wanted = design.get(choice.key)
    if wanted is None:
        problems.add(_assumed(choice.key, choice.names[choice.default]))
        return choice.default
    if wanted in choice.names:
        return list(choice.names).index(wanted)
    near = nearest(str(wanted), choice.names)
    problems.add(
        Finding(
            "design-unknown-name",
            "error",
            f"there is no {choice.key} of this name",
            key=choice.key,
            seen=repr(wanted),
            expected="one of: " + ", ".join(choice.names),
            next_step=f"did you mean {near!r}?" if near else "",
        )
    )
    return choice.default


def _wall(market: Market, design: Mapping[str, Any], problems: Findings) -> Wall | None:
    room, mounts = market.room, market.catalog.mounts
    values = {key: design.get(key, default) for key, default in _DEFAULTS.items()}
    for key, default in _DEFAULTS.items():
        if key not in design:
            problems.add(_assumed(key, f"{default} mm" if key.endswith("_mm") else default))
    beam = _pick(_Choice("beam", [b.name for b in room.beams], 0), design, problems)
    sheet = _pick(_Choice("sheet", [f.label for f in market.families], 0), design, problems)
    stud = _pick(_Choice("stud", [s.label for s in market.sections], 0), design, problems)
    mount = _pick(_Choice("mount", [m.name for m in mounts], 0), design, problems)
    if values["facing"] not in FACINGS:
        problems.add(_problem("facing", values["facing"], "+x or -x"))
    bays = _bays(design, int(values["columns"]), problems)
    if problems.errors:
        return None
    wall = Wall(
        beam=beam,
        facing=values["facing"],
        sheet=market.families[sheet],
        grain=values["grain"],
        split=Split(int(values["columns"]), 0, int(values["rows"]), 0),
        bays=bays,
        section=market.sections[stud],
        mount=mounts[mount],
        mount_count=int(values["mount_count"]),
        screw_mm=_screw_mm(market, design, problems),
        tie=_tie(market, design, problems),
        tie_at_mm=design.get("tie_at_mm"),
        eye_mm=design.get("eye_mm"),
        kicker_sheet=market.families[sheet],
        delivered=bool(design.get("delivered")),
        board_mm=int(design.get("board_mm", 0)),
        kicker_mm=int(values["kicker_mm"]),
        width_mm=int(design.get("width_mm", least_width_mm(room))),
    )
    return wall if wall.board_mm else _with_board(market, wall, design, problems)


def _screw_mm(market: Market, design: Mapping[str, Any], problems: Findings) -> int:
    usual = int(market.catalog.materials.factors["sheet_screw_spacing_mm"])
    if "screw_mm" not in design:
        problems.add(_assumed("screw_mm", f"{usual} mm"))
    return int(design.get("screw_mm", usual))


def _tie(market: Market, design: Mapping[str, Any], problems: Findings) -> Hardware | None:
    offers = ties_on_offer(market.catalog) if market.room.tie_beam is not None else ()
    if design.get("tie_back") is None:
        return None
    if not offers:
        problems.add(
            _problem("tie_back", str(design["tie_back"]), "no ties: none can be made here")
        )
        return None
    choice = _Choice("tie_back", [tie.name for tie in offers], 0)
    return offers[_pick(choice, design, problems)]


def _bays(design: Mapping[str, Any], columns: int, problems: Findings) -> int:
    studs = int(design.get("stud_count", 2 * columns + 1))
    if studs < 3 or (studs - 1) % columns:
        problems.add(
            _problem(
                "stud_count",
                str(studs),
                f"at least 3, and one more than a multiple of {columns} column(s), so that a stud"
                " lies under every seam",
            )
        )
        return 1
    return (studs - 1) // columns


def _with_board(
    market: Market, wall: Wall, design: Mapping[str, Any], problems: Findings
) -> Wall | None:
    if "angle_deg" not in design:
        problems.add(_problem("board_mm", "nothing", "board_mm or angle_deg"))
        return None
    shop = _shop(market, wall)
    place, mount = shop.place_index(wall), market.catalog.mounts.index(wall.mount)
    hangs = hanging(shop.space, place, mount, wall.sheet.thickness_mm)

    def lengths(angles_deg: npt.ArrayLike) -> npt.NDArray[np.float64]:
        return board_for_angle_mm(
            np.radians(angles_deg),
            wall.kicker_mm,
            hangs.pivot_height_mm,
            hangs.setback_mm,
            hangs.behind_mm,
        )

    length = float(lengths(float(design["angle_deg"])))
    if math.isnan(length):
        tried = np.arange(0.0, 70.5, 0.5)
        good = tried[~np.isnan(lengths(tried))]
        expected = f"from {good[0]:g} to {good[-1]:g} degrees" if len(good) else "a lower kicker"
        expected += " under this beam with this mount and sheet"
        problems.add(_problem("angle_deg", str(design["angle_deg"]), expected))
        return None
    board = math.ceil(length)
    problems.add(_assumed("board_mm", f"{board} mm"))
    return replace(wall, board_mm=board)


def _assumed(key: str, value: object) -> Finding:
    return Finding(
        "design-assumed",
        "assumption",
        f"not given, so {value} is assumed",
        key=key,
        next_step="write it into the design file if it is different",
    )


def _problem(key: str, seen: str, expected: str) -> Finding:
    return Finding(
        "design-value", "error", "this can't be built", key=key, seen=seen, expected=expected
    )
