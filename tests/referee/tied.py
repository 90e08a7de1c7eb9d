"""Ties to a second beam: what pulls at them, their bolts, and that beam."""

from __future__ import annotations

import math
from typing import Any

from ledger import Ledger
from members import PLACES, Timber, Wall, beside_a_stud, checks_of, grade_of, wall_of
from shop import Shop, num
from ties import Stud, place_of, runs, tie_beam

Doc = dict[str, Any]


def undone_alone(f: dict[str, float], wall: Wall, line: float, most: float) -> float:
    """Return the use of a stud that nothing helps, as an accident: the neighbours only help."""
    bar, span, kmod = wall.bar, wall.board, f["kmod_solid_instantaneous"]
    raised = f["gamma_accidental"] * f["gamma_m_accidental"] / f["gamma_m_solid"]
    moment = most * wall.push * wall.climber_n * span / 4 + line * span**2 / 8 * wall.lean
    axial = wall.climber_n * wall.climbers + line * span
    return raised * (moment / bar.moment_d(f, kmod, span) + axial / bar.axial_d(f, kmod, span))


def ties(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check how ties run, what pulls at them, the studs without them, and the second beam."""
    stated = checks_of(design)
    if "tie_back" not in design:
        book.same("checks of ties", [name for name in stated if "tie" in name.split()], [])
        return
    f, wall = shop.factors, wall_of(shop, document, design)
    told, tie = design["tie_back"], shop.hardware[design["tie_back"]["sku"]]
    length, square, along = runs(shop, document, design)
    book.near("length of a tie", told["length_mm"], length, 0.5001)
    book.true("a tie before the board", square > 0)
    book.true("a tie that pulls the board down", along >= 0)
    book.true("a tie too far askew", square >= f["tie_least_cos"] * length)
    book.ratio("tie length", stated["tie length"][0], length)
    book.ratio("a tie's reach", stated["tie length"][1], num(tie, "length_mm"))
    most = beside_a_stud(design["columns"], (design["stud_count"] - 1) // design["columns"])
    line = f["self_weight_continuity"] * wall.bay * wall.area_n + wall.bar.n_per_mm
    firm = Stud(wall.board, 1.0, place_of(design)).firm()
    climb = most * firm.load * wall.push * wall.climber_n * length / square
    weight = firm.weight * line * wall.lean * wall.board * length / square
    demand, capacity = stated["tie working load"]
    book.ratio("a tie's pull", demand, climb + weight, PLACES)
    book.ratio("a tie's rating", capacity, num(tie, "rated_n"))
    pull = f["gamma_q"] * climb + f["gamma_g"] * weight
    short, gamma, d = f["kmod_solid_short"], f["gamma_m_connection"], f["lip_bolt_mm"]
    thin = bolt_n(wall.bar.b, num(wall.bar.grade, "rho_k_kg_m3"), d, f["lip_bolt_tensile_mpa"])
    own = undone_alone(f, wall, line, most)
    undone = stated["stud bending, ties undone"][0]
    if wall.rows > 1:
        book.ratio("studs with their ties undone, no neighbours", undone, own, PLACES)
    book.true("studs with their ties undone", undone <= own * (1 + PLACES))
    demand, capacity = stated["tie bolt at the stud"]
    book.ratio("a tie's design pull", demand, pull, PLACES)
    book.ratio("a bolt across a stud", capacity, short / gamma * thin)
    split = 14 * wall.bar.b * math.sqrt(wall.bar.h) * short / f["gamma_m_solid"]
    book.ratio("stud splitting", stated["stud splitting at the tie"][1], split)
    whole = f["gamma_g"] * firm.weight * wall.board_n * wall.lean * length / square
    second_beam(book, shop, document, stated, f["gamma_q"] * climb + whole)


def second_beam(
    book: Ledger, shop: Shop, document: Doc, stated: dict[str, tuple[float, float]], pull: float
) -> None:
    """Check the beam that the ties pull at with a design force [N]."""
    f, beam, short = shop.factors, tie_beam(document), shop.factors["kmod_solid_short"]
    timber = Timber(float(beam["width_mm"]), float(beam["depth_mm"]), grade_of(shop, beam))
    given, share = beam["existing_load_n_per_m"], f["beam_permanent_share"]
    load = (f["beam_unknown_load_n_per_m"] if given is None else given) / 1000.0
    even = f["gamma_g"] * (share * load + timber.n_per_mm) + f["gamma_q"] * (1 - share) * load
    span = float(beam["span_mm"])
    point = pull * math.hypot(1.0, timber.h / timber.b)
    moment = even * span**2 / 8 + point * span / 4
    own = moment / timber.moment_d(f, short, span)
    book.ratio("tie beam bending", stated["tie beam bending"][0], own, PLACES)
    own = (even * span / 2 + pull) / timber.shear_d(f, short)
    book.ratio("tie beam shear", stated["tie beam shear"][0], own, PLACES)


def bolt_n(thick: float, rho: float, d: float, tensile: float) -> float:
    """Return Fv,Rk of a bolt through a thin plate, square to the grain [N], (8.9), (8.31)."""
    embedment = 0.082 * (1 - 0.01 * d) * rho / (1.35 + 0.015 * d)
    bent = 1.15 * math.sqrt(2 * 0.3 * tensile * d**2.6 * embedment * d)
    return min(0.4 * embedment * thick * d, bent)
