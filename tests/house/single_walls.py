"""Walls at random grid points of a small room, judged by the search's rules and the checker's."""

from __future__ import annotations

import json
import random
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
import small_rooms

from steepwright.catalog.types import Code
from steepwright.optimise.certificate.built import CHECKS, UPHELD
from steepwright.optimise.certificate.document import _space, certified
from steepwright.optimise.certificate.given import given_document
from steepwright.optimise.certificate.ways import candidates, no_room
from steepwright.optimise.document import room_document
from steepwright.optimise.entries import Entries
from steepwright.optimise.fold import own_beam_margin_mm
from steepwright.optimise.model import Model, build_wide_model
from steepwright.optimise.space import build_space
from steepwright.optimise.standing import hanging, stand
from steepwright.optimise.widths import hung_between
from steepwright.pricing.market import build_market
from steepwright.structure.rows import look_up
from steepwright.structure.wall import RULES
from steepwright.verify.bounds import Bounds
from steepwright.verify.built import Built, Said
from steepwright.verify.choices import Choices, Size
from steepwright.verify.declared import axes_of
from steepwright.verify.mounts import Levered
from steepwright.verify.stair import Stair
from steepwright.verify.strength import CHECKS as OF_BOXES
from steepwright.verify.strength import Corners, Loads, hold_insert
from steepwright.verify.verdict import Verdict
from steepwright.verify.walk import Walk

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]

WALLS = 300


@dataclass(frozen=True)
class Judged:
    """Uses by rule, and which walls fit the room: the search's, the checker's."""

    uses: dict[str, tuple[FloatArray, FloatArray]]
    room: tuple[BoolArray, BoolArray]


def both_ways(kind: str, seed: int, code: Code, tolerance_mm: int = 0) -> Judged:
    """Judge walls of a kind of small room, each with a fixing picked at random.

    The room's measures may be wrong by the tolerance.
    """
    room = getattr(small_rooms, f"{kind}_room")(seed)
    room = replace(room, wall=replace(room.wall, tolerance_mm=tolerance_mm))
    catalog = getattr(small_rooms, f"{kind}_catalog", small_rooms.tiny_catalog)(seed)
    market = build_market(*small_rooms.in_code(code, room, catalog))
    model = certified(build_wide_model(build_space(market)))
    entries = _picked(model, random.Random(seed))
    built, choices, corners = _checker(model, entries)
    uses = {name: (theirs, np.zeros(len(entries))) for name, theirs in _theirs(model, entries)}
    fits = np.zeros(len(entries), dtype=np.bool_)
    fixing = model.fixing(entries)
    loads = Loads(built.known, replace(corners, screw_mm=fixing.screw_mm.astype(float)))
    own = {name: mine for name, (_, mine) in uses.items()}
    own["mount screws' room"][:] = built.mounts.room_use[choices.beam, choices.mount]
    own["sheet screw combined"][:] = OF_BOXES["sheet screw combined"](loads)
    own["hold insert"][:] = hold_insert(loads)
    wide = model.space.widths_mm[entries.width].astype(float)
    said = Said(choices, corners, np.zeros(len(choices), dtype=np.int64), Size(1, 1))
    for facing in ("+x", "-x"):
        rows = np.array([f == facing for _, f in model.space.places])[entries.place]
        fits[rows] = built.has_room(facing, choices, corners)[rows]
        own["hand force on the hoist"][rows] = built.pulled(facing, choices, loads)[rows]
        for count in model.space.mount_counts:
            some = rows & (fixing.mounts == count)
            hooks = built.hooks[facing].least(choices, count, said.size)
            levered = Levered(count, wide, hooks.outer, hooks.lost, hooks.lost_weight)
            how = loads, (choices.beam, choices.mount), levered
            own["mount working load"][some] = built.mounts.rated(*how)[some]
            own["mount pull-out and shear"][some] = built.mounts.pulled_and_sheared(*how)[some]
            own["one mount lost"][some] = built.mounts.beside_lost(*how)[some]
            for name, use in built.uses_upheld(facing, said, count).items():
                own[name][some] = use[some]
        for tie, (told, _) in enumerate(built.bent(facing, choices, loads)):
            some = rows & (fixing.tie == tie)
            for name, use in told.items():
                own[name][some] = use[some]
    return Judged(uses, (~no_room(model, entries, 1), fits))


def _picked(model: Model, r: random.Random) -> Entries:
    """Return walls at random, most of them at grid points where some wall fits.

    None that is flatter than asked for, and none whose frame reaches above its own beam: the
    checker ends these before.
    """
    space, rows = model.space, []
    fitting = np.argwhere(model.reach.angle_mdeg[1] >= 0)
    for n in range(WALLS):
        row, column = r.randrange(model.grid[0]), r.randrange(model.grid[1])
        if n % 4 and len(fitting):
            _, row, column = r.choice(fitting.tolist())
        sheeting = r.randrange(len(space.sheetings))
        studs = space.sheetings[sheeting].studs
        ways = [i for i, (mounts, *_) in enumerate(space.fixings) if mounts <= studs]
        hung = r.randrange(len(space.places)), r.randrange(len(space.market.catalog.mounts))
        made = sheeting, r.randrange(len(space.market.sections)), 0
        least, last = int(model.sheetings.narrowest[sheeting]), space.searched - 1
        width = r.randrange(least, last + 1)
        rows.append((*hung, *made, row, column, 0, r.choice(ways), width, last))
    entries = Entries(*np.array(rows, dtype=np.int64).T)
    steep = model.steepest_rad(entries) >= np.radians(space.market.room.wall.angle_deg[0])
    entries = entries.take(steep)
    return entries.take(~_above(model, entries))


def _above(model: Model, entries: Entries) -> BoolArray:
    market, above = model.space.market, []
    for n in range(len(entries)):
        one = entries.take(np.array([n]))
        mount, section = int(one.mount[0]), int(one.section[0])
        sheet = market.families[model.sheetings.family[one.sheeting[0]]].thickness_mm
        hangs = hanging(model.space, int(one.place[0]), mount, sheet)
        boards, kickers = model.space.boards_mm[one.row], model.space.kickers_mm[one.column]
        wall = stand(int(one.place[0]), hangs, boards, kickers)
        depth = sheet + market.sections[section].depth_mm
        above.append(own_beam_margin_mm(model.space, wall, depth)[0] < 0)
    return np.array(above)


BY_MOUNTS = ("mount working load", "mount pull-out and shear", "one mount lost")
"""Checks of the search whose use depends on how far apart the mounts are."""


def _theirs(model: Model, entries: Entries) -> list[tuple[str, FloatArray]]:
    rows = look_up(model.tables, candidates(model, entries, model.fixing(entries)))
    rules = {rule.name: rule for rule in RULES}
    # Where mounts hang along the beam is that of each wall's own width.
    own = entries.between(entries.width, entries.width)
    hung = look_up(model.tables, hung_between(model, own, model.batch(own, model.fixing(own))))
    found = [
        (name, rules[name].evaluate(hung if name in BY_MOUNTS else rows).use) for name in CHECKS
    ]
    timber = np.where(model.tables.beams.slab[hung.batch.beam], 0.0, 1.0)
    found += [
        (name, rules[name].evaluate(hung).use * (timber if rules[name].of == "timber" else 1.0))
        for name in UPHELD
    ]
    return [(name, np.broadcast_to(use, len(entries))) for name, use in found]


def _checker(model: Model, entries: Entries) -> tuple[Built, Choices, Corners]:
    """Return the checker's own view of the same walls, from what the files tell."""
    part = {"given": given_document(model), "space": _space(model.space)}
    part |= {"checks": [], "open_boxes": [], "levels": []}
    part, room = json.loads(json.dumps([part, room_document(model.space.market.room)]))
    bounds = Bounds(part, room, axes_of(part, room))
    none = np.zeros(0, dtype=np.int64)
    walk = Walk(part, bounds, Stair(none, none), Verdict())
    beams = np.array([beam for beam, _ in model.space.places], dtype=np.int64)
    family = entries.mount, entries.sheeting, entries.section, entries.delivered
    corner = entries.row, entries.column, entries.width
    choices = Choices(beams[entries.place], *family, *corner)
    return walk.ground.built, choices, walk.ground.corners(choices, 200)
