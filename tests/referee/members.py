"""Masses, and studs, rails and ceiling beam by the clauses of EN 1995-1-1 and statics.

Clauses as cited in catalogs/materials/sources.csv (ec5, ec5-recalled); the formulas are written
out here once more. Loads are characteristic unless a name says otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from hanging import Hung, beside_lost, hung_of
from ledger import Ledger
from places import across, standing_rad
from plans import studs_mm
from shop import Row, Shop, num
from ties import Tied, tie_beam, tied_part

Doc = dict[str, Any]
G = 9.80665  # ISO 80000-3
PLACES = 1e-3
"""The search tries loads at 12 places in each bay; the worst place of all is so much worse."""


@dataclass(frozen=True)
class Timber:
    """A rectangle on edge: sizes [mm] and its class."""

    b: float
    h: float
    grade: Row

    def fm_d(self, f: dict[str, float], kmod: float) -> float:
        """Return kmod kh fm,k / gamma_M [MPa], (2.14), (3.1)."""
        kh = min(1.3, max(1.0, (150.0 / self.h) ** 0.2))
        return kmod * kh * num(self.grade, "fm_k_mpa") / f["gamma_m_solid"]

    def kcrit(self, free: float) -> float:
        """Return kcrit of a span free to tilt, lef = 0.9 l (6.30 to 6.34, Table 6.1)."""
        critical = 0.78 * self.b**2 / (self.h * 0.9 * free) * num(self.grade, "e0_05_mpa")
        slender = math.sqrt(num(self.grade, "fm_k_mpa") / critical)
        if slender <= 0.75:
            return 1.0
        return 1.56 - 0.75 * slender if slender <= 1.4 else 1.0 / slender**2

    def moment_d(self, f: dict[str, float], kmod: float, free: float) -> float:
        """Return the design moment [Nmm]."""
        return self.fm_d(f, kmod) * self.b * self.h**2 / 6.0 * self.kcrit(free)

    def shear_d(self, f: dict[str, float], kmod: float) -> float:
        """Return the design shear force [N], (6.13a)."""
        stress = kmod * num(self.grade, "fv_k_mpa") / f["gamma_m_solid"]
        return stress * f["kcr_solid"] * self.b * self.h / 1.5

    def axial_d(self, f: dict[str, float], kmod: float, free: float) -> float:
        """Return the lesser of tension and of compression with buckling [N], 6.3.2.

        Out of the board's face; sideways the sheet holds the stud at every screw.
        """
        tension = num(self.grade, "ft0_k_mpa")
        slender = free / (self.h / math.sqrt(12.0)) / math.pi
        slender *= math.sqrt(num(self.grade, "fc0_k_mpa") / num(self.grade, "e0_05_mpa"))
        k = 0.5 * (1.0 + 0.2 * (slender - 0.3) + slender**2)
        kc = 1.0 / (k + math.sqrt(k**2 - slender**2)) if slender > 0.3 else 1.0
        weakest = min(tension, min(1.0, kc) * num(self.grade, "fc0_k_mpa"))
        return kmod * weakest / f["gamma_m_solid"] * self.b * self.h

    def with_axial(self, f: dict[str, float], bend: float, axial: float, free: float) -> float:
        """Return the use of bending with a load along the bar (6.17, 6.23)."""
        return bend + axial / self.axial_d(f, f["kmod_solid_short"], free)

    def without_axial(self, f: dict[str, float], use: float, axial: float, free: float) -> float:
        """Return the use of bending in a use by both."""
        return use - axial / self.axial_d(f, f["kmod_solid_short"], free)

    @property
    def ei(self) -> float:
        """Bending stiffness [Nmm2]."""
        return num(self.grade, "e0_mean_mpa") * self.b * self.h**3 / 12.0

    @property
    def n_per_mm(self) -> float:
        """Own weight [N/mm]."""
        return self.b * self.h * num(self.grade, "rho_mean_kg_m3") * 1e-9 * G


@dataclass(frozen=True)
class Wall:
    """What the checks need to know of one design."""

    bar: Timber
    board: float
    rows: int
    lean: float  # sin of the angle
    bay: float
    climber_n: float  # with the dynamic factor
    static_n: float
    climbers: int
    push: float  # square to the board, per weight of one climber, all together
    area_n: float  # sheet and holds per mm2
    board_n: float
    kicker_n: float
    lever: float


def timber_of(shop: Shop, size_mm: Sequence[int], grade: Row) -> Timber:
    """Return a bar with the strengths of the shop's design code."""
    from nds import NdsTimber

    kind = NdsTimber if shop.code == "NDS" else Timber
    return kind(float(size_mm[0]), float(size_mm[1]), grade)


def panel_of(shop: Shop, label: str) -> Row:
    """Return the panel behind a family such as 'birch 18 mm'."""
    kind, thick, _ = label.rsplit(" ", 2)
    rows = (r for r in shop.panels.values() if r["kind"] == kind and r["thickness_mm"] == thick)
    return next(rows)


def sheet_n(panel: Row) -> float:
    """Return the weight of a sheet [N/mm2]."""
    return num(panel, "mean_thickness_mm") * num(panel, "rho_mean_kg_m3") * 1e-9 * G


def wall_of(shop: Shop, document: Doc, design: Doc) -> Wall:
    """Work out the loads of a design from its plan."""
    f, climber = shop.factors, document["room"]["climber"]
    row = next(shop.timber[bar["sku"]] for bar in design["cut_plan"]["timber"])
    bar = timber_of(shop, design["stud_mm"], shop.classes[row["strength_class"]])
    holds = f["hold_mass_kg_m2"] * 1e-6 * G
    area = sheet_n(panel_of(shop, design["sheet"])) + holds
    lengths = {"board": 0.0, "kicker": 0.0}
    for rod in design["cut_plan"]["timber"]:
        for name, length in zip(rod["pieces"], rod["pieces_mm"], strict=True):
            lengths["kicker" if name.startswith("kicker") else "board"] += length
    board_n = design["board_mm"] * design["width_mm"] * area + lengths["board"] * bar.n_per_mm
    kicker_n = lengths["kicker"] * bar.n_per_mm
    if design["kicker_mm"]:
        face = sheet_n(panel_of(shop, design["kicker_sheet"]))
        kicker_n += design["kicker_mm"] * design["width_mm"] * face
    angle = standing_rad(shop, document, design)[0]
    centres = studs_mm(design)
    mass = climber["mass_kg"] * G
    reference = f["lip_reference_board_mm"]
    return Wall(
        bar=bar,
        board=float(design["board_mm"]),
        rows=design["rows"],
        lean=math.sin(angle),
        bay=max(right - left for left, right in pairwise(centres)),
        climber_n=mass * climber["dynamic_factor"],
        static_n=mass,
        climbers=climber["climbers"],
        push=max(math.sin(angle), f["hold_pull_factor"]) * climber["climbers"],
        area_n=area,
        board_n=board_n,
        kicker_n=kicker_n,
        lever=reference / (reference - num(shop.mounts[design["mount"]], "setback_mm")),
    )


def masses(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check the mass of every piece and of the whole."""
    wall = wall_of(shop, document, design)
    # A bar's int() of half millimetres is in its pieces, not in the sum of the sections.
    book.near("mass", design["mass_kg"], (wall.board_n + wall.kicker_n) / G, 0.0501 + 0.02)
    labels = {"board": design["sheet"], "kicker": design["kicker_sheet"]}
    for piece in design["pieces"]:
        size = piece["length_mm"] * piece["width_mm"]
        if piece["kind"] == "sheet":
            own = size * sheet_n(panel_of(shop, labels[piece["name"].split()[0]])) / G
        else:
            own = piece["length_mm"] * wall.bar.n_per_mm / G
        if piece["name"].startswith(("frame ", "ledger", "spreader")):
            bars = design["cut_plan"]["stand"]
            sku = next(bar["sku"] for bar in bars if piece["name"] in bar["pieces"])
            rho = num(shop.classes[shop.timber[sku]["strength_class"]], "rho_mean_kg_m3")
            own = size * piece["thickness_mm"] * rho * 1e-9
        book.near(f"mass of {piece['name']}", piece["mass_kg"], own, 0.0501)
    counted = sum(piece["count"] for piece in design["pieces"])
    plan = design["cut_plan"]
    parts = sum(len(s["parts"]) for s in plan["sheets"])
    bars = sum(len(b["pieces"]) for b in [*plan["timber"], *plan.get("stand", [])])
    book.same("number of pieces", counted, parts + bars)


def checks_of(design: Doc) -> dict[str, tuple[float, float]]:
    """Return demand and capacity of every check."""
    return {row["name"]: (row["demand"], row["capacity"]) for row in design["checks"]}


def every_use(book: Ledger, design: Doc) -> None:
    """Check that uses are demand over capacity, none above 1, the largest one governing."""
    for row in design["checks"]:
        book.ratio(f"use of {row['name']}", row["use"], row["demand"] / row["capacity"], 6e-4)
        book.true(f"{row['name']} fails", row["use"] <= 1.0)
    worst = max(row["use"] for row in design["checks"])
    governing = {r["name"] for r in design["checks"] if r["use"] >= worst - 1e-9}
    book.true("governing check", design["governing_check"] in governing)
    book.same("settled", design["settled"], all(row["settled"] for row in design["checks"]))


def beside_a_stud(columns: int, bays: int) -> float:
    """Return the most that one stud gets of a load at the studs' ends, where none gives way [-].

    The sheet is a beam over equal bays on rigid supports, hinged over the seams; its influence
    line rises a little above 1 beside a support. Solved by the direct stiffness method.
    """
    steps, supports = 24, columns * bays + 1
    part = np.array([[12, 6, -12, 6], [6, 4, -6, 2], [-12, -6, 12, -6], [6, 2, -6, 4]], float)
    nodes = (supports - 1) * steps + 1
    sag, turn = list(range(nodes)), [nodes + i for i in range(nodes)]
    turn_after, size = list(turn), 2 * nodes
    for seam in range(1, columns):  # over a seam both sheets turn by themselves
        turn_after[seam * bays * steps] = size
        size += 1
    stiffness = np.zeros((size, size))
    for i in range(nodes - 1):
        place = [sag[i], turn_after[i], sag[i + 1], turn[i + 1]]
        stiffness[np.ix_(place, place)] += part
    held = np.arange(supports) * steps
    free = np.setdiff1d(np.arange(size), held)
    # Influence line by Mueller-Breslau: push one support down by 1, look at the deflection.
    worst = 1.0
    for support in held:
        push = np.linalg.solve(stiffness[np.ix_(free, free)], -stiffness[free, support])
        whole = np.zeros(size)
        whole[free], whole[support] = push, 1.0
        worst = max(worst, float(whole[:nodes].max()))
    return worst


def studs(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check the studs: exactly where a seam ends all sharing, within its ends otherwise."""
    f, wall, stated = shop.factors, wall_of(shop, document, design), checks_of(design)
    bar, span, short = wall.bar, wall.board, f["kmod_solid_short"]
    line = f["self_weight_continuity"] * wall.bay * wall.area_n + bar.n_per_mm
    strong, climb = bar.moment_d(f, short, span), f["gamma_q"] * wall.push * wall.climber_n
    weight = f["gamma_g"] * line * span**2 / 8.0
    axial = f["gamma_q"] * wall.climber_n * wall.climbers + f["gamma_g"] * line * span
    rest = weight * wall.lean / strong
    most = beside_a_stud(design["columns"], (design["stud_count"] - 1) // design["columns"])
    left = Tied(1.0, 1.0, 0.0)
    if "tie_back" in design:
        elastic = num(grade_of(shop, tie_beam(document)), "e0_mean_mpa")
        left = tied_part(shop, document, design, bar.ei, elastic)
    axial += climb * left.along
    alone = bar.with_axial(f, most * left.moment * climb * span / 4.0 / strong + rest, axial, span)
    shared = climb * span / 4.0 / strong / design["stud_count"] + rest
    even = bar.with_axial(f, shared, axial, span)
    bending = stated["stud bending"][0]
    soft = span**3 / (48.0 * bar.ei)
    creep = 5 / 8 * line * span * soft * wall.lean * (1.0 + f["kdef_solid"])
    alone_mm = most * left.sag * wall.push * wall.static_n * soft + creep
    sag, limit = stated["stud deflection"]
    if wall.rows > 1:
        book.ratio("stud bending", bending, alone, PLACES)
        book.ratio("stud deflection", sag, alone_mm, PLACES)
    else:
        book.true("stud bending below an even share", even <= bending <= alone * (1 + PLACES))
        book.true("stud deflection above a stud alone", creep < sag <= alone_mm * (1 + PLACES))
    book.ratio("stud deflection's limit", limit, span / f["deflection_stud_ratio"])
    demand, capacity = stated["stud, parked"]
    book.ratio("stud, parked", demand, weight)
    book.ratio("stud, parked: strength", capacity, bar.moment_d(f, f["kmod_solid_permanent"], span))
    demand, capacity = stated["stud shear"]
    own = most * climb + f["gamma_g"] * line * wall.lean * span / 2.0
    book.ratio("stud shear", demand, own, PLACES)
    book.ratio("stud shear strength", capacity, bar.shear_d(f, short))


def sheet(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check the sheet between studs under one climber on one hold."""
    f, wall, stated = shop.factors, wall_of(shop, document, design), checks_of(design)
    panel = panel_of(shop, design["sheet"])
    osb = panel["kmod_family"] == "osb3"
    kmod = f["kmod_osb3_short" if osb else "kmod_plywood_short"]
    gamma = f["gamma_m_osb3" if osb else "gamma_m_plywood"]
    along, over = num(panel, "fm_along_mpa"), num(panel, "fm_across_mpa")
    strength = along if design["grain"] == "across" else min(along, over)
    strip = min(f["sheet_strip_ratio"] * wall.bay, f["sheet_strip_limit_mm"])
    one = f["gamma_q"] * wall.push / wall.climbers * wall.climber_n
    thick = num(panel, "mean_thickness_mm")
    stress = one * wall.bay / 4.0 / (strip * thick**2 / 6.0)
    demand, capacity = stated["sheet bending"]
    book.true("sheet bending too low", demand >= stress * (1 - 1e-5))
    book.true("sheet bending far too high", demand <= stress * 1.1)  # own weight of the sheet
    book.ratio("sheet strength", capacity, kmod * strength / gamma)


def least_of_the_yard(shop: Shop) -> Row:
    """Return a class that is no better than any of the standards that the yard's bars follow."""
    sold = {bar["strength_class"] for bar in shop.timber.values()}
    here = {shop.classes[name]["standard"] for name in sold}
    rows = [row for row in shop.classes.values() if row["standard"] in here]
    numbers = [n for n in rows[0] if n not in ("name", "standard", "source", "sized")]
    least = {name: str(min(num(row, name) for row in rows)) for name in numbers}
    most = max(num(row, "rho_mean_kg_m3") for row in rows)
    return least | {"rho_mean_kg_m3": str(most)}


def grade_of(shop: Shop, beam: Doc) -> Row:
    """Return a beam's class, or what all of the yard's classes have at least."""
    return least_of_the_yard(shop) if beam["grade"] is None else shop.classes[beam["grade"]]


def beam_loads(shop: Shop, document: Doc, design: Doc) -> tuple[Timber, float, float, Hung]:
    """Return the ceiling beam, its dead and live load [N/mm] and what hangs where."""
    f, room = shop.factors, document["room"]
    beam = next(b for b in room["beams"] if b["name"] == design["beam"])
    grade = grade_of(shop, beam)
    timber = timber_of(shop, (beam["width_mm"], beam["depth_mm"]), grade)
    given = beam["existing_load_n_per_m"]
    load = (f["beam_unknown_load_n_per_m"] if given is None else given) / 1000.0
    share = f["beam_permanent_share"]
    ends = [
        y - (room["width_mm"] - beam["span_mm"]) / 2.0 for y in across(room, design["width_mm"])
    ]
    studs, places, heavy = hung_of(shop, design)
    span = float(beam["span_mm"])

    def along(mm: list[float]) -> list[float]:
        # From the climber's left, which is the end at y = 0 only if the wall faces +x.
        at = [ends[0] + c if design["facing"] == "+x" else ends[1] - c for c in mm]
        return [min(max(place, 0.0), span) for place in at]

    reach = max(max(x, span - x) for x in along(studs)) / span
    hung = Hung(along(places), heavy, reach, *beside_lost(design, studs, places, heavy))
    return timber, share * load + timber.n_per_mm, (1.0 - share) * load, hung


def ceiling_beam(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check the ceiling beam's strengths and what stands on it without the wall."""
    f, wall, stated = shop.factors, wall_of(shop, document, design), checks_of(design)
    timber, dead, live, hung = beam_loads(shop, document, design)
    room = document["room"]
    beam = next(b for b in room["beams"] if b["name"] == design["beam"])
    span, short = float(beam["span_mm"]), f["kmod_solid_short"]
    even = f["gamma_g"] * dead + f["gamma_q"] * live
    strong = timber.moment_d(f, short, span)
    demand, capacity = stated["ceiling beam without the wall"]
    book.ratio("beam without the wall", demand, even * span**2 / 8.0)
    book.ratio("beam's strength", capacity, strong)
    climb = wall.climber_n * wall.climbers * wall.lever
    half = wall.board_n / 2.0 * wall.lever
    # The level pull bends the beam sideways, where the same bar is b/h as strong.
    level = f["hold_pull_factor"] * climb * timber.h / timber.b
    arms = [x * (span - x) / span for x in hung.at]
    board = half * hung.lost_weight * max(n * x for n, x in zip(hung.heavy, arms, strict=True))
    climbing = (climb + level) * max(n * x for n, x in zip(hung.lost, arms, strict=True))
    lost = f["gamma_accidental"] * (climbing + board)
    demand, capacity = stated["ceiling beam, one mount lost"]
    book.ratio("beam, one mount lost", demand, even * span**2 / 8.0 + lost, 1e-4)
    accidental = f["kmod_solid_instantaneous"] / f["gamma_m_accidental"]
    own = strong / short * f["gamma_m_solid"] * accidental
    book.ratio("beam, one mount lost: strength", capacity, own)
    capacity = stated["ceiling beam, permanent loads"][1]
    book.ratio("beam, permanent: strength", capacity, strong / short * f["kmod_solid_permanent"])
    demand, capacity = stated["ceiling beam shear"]
    centre = sum(across(room, design["width_mm"])) / 2.0 - (room["width_mm"] - span) / 2.0
    middle = max(centre, span - centre) / span
    own = even * span / 2.0 + f["gamma_q"] * climb * hung.reach + f["gamma_g"] * half * middle
    book.ratio("beam shear", demand, own, 1e-4)
    book.ratio("beam shear strength", capacity, timber.shear_d(f, short))
    limit = stated["ceiling beam deflection"][1]
    book.ratio("beam deflection's limit", limit, span / f["deflection_beam_ratio"])
    contact = f["beam_bearing_mm"]
    area = timber.b * (contact + min(f["bearing_extra_mm"], contact))
    crush = short * num(timber.grade, "fc90_k_mpa") / f["gamma_m_solid"] * area
    book.ratio("beam bearing strength", stated["ceiling beam bearing"][1], crush)
