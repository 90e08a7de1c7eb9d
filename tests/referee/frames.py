"""Ceiling beam and studs in an independent frame solver (PyNiteFEA, general-purpose, BSD)."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from ledger import Ledger
from members import Timber, beam_loads, checks_of, panel_of, wall_of
from places import across
from plans import studs_mm
from Pynite import FEModel3D
from shop import Shop, num

Doc = dict[str, Any]
Loads = list[tuple[float, float]]


def beam_moment_and_sag(
    timber: Timber, span: float, even: float, loads: Loads
) -> tuple[float, float]:
    """Return the largest moment [Nmm] and deflection [mm] of a simple beam."""
    model = FEModel3D()
    model.add_material("wood", num(timber.grade, "e0_mean_mpa"), 1e9, 0.3, 0.0)  # no shear flex
    inertia = timber.b * timber.h**3 / 12.0
    model.add_section("bar", timber.b * timber.h, inertia, inertia, inertia)
    model.add_node("a", 0, 0, 0)
    model.add_node("b", span, 0, 0)
    model.def_support("a", True, True, True, True, False, False)
    model.def_support("b", False, True, True, False, False, False)
    model.add_member("beam", "a", "b", "wood", "bar")
    model.add_member_dist_load("beam", "Fy", -even, -even)
    for place, load in loads:
        model.add_member_pt_load("beam", "Fy", -load, place)
    model.analyze_linear()
    member = model.members["beam"]
    moments = (member.max_moment("Mz"), member.min_moment("Mz"))
    sags = (member.max_deflection("dy"), member.min_deflection("dy"))
    return max(abs(m) for m in moments), max(abs(d) for d in sags)


def weight_ways(at: list[float], centre: float, weight: float) -> list[Loads]:
    """Return how the lip's weight may hang: on one mount at its centre or on two around it."""
    ways: list[Loads] = [[(x, weight)] for x in at if abs(x - centre) <= 1.0]
    for left in at:
        for right in at:
            if left < centre < right:
                part = (right - centre) / (right - left)
                ways.append([(left, part * weight), (right, (1.0 - part) * weight)])
    return ways


def ceiling_beam(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check that the stated demands on the beam cover every way of hanging, without waste."""
    f, wall, stated = shop.factors, wall_of(shop, document, design), checks_of(design)
    timber, dead, live, hung = beam_loads(shop, document, design)
    room = document["room"]
    span = float(next(b for b in room["beams"] if b["name"] == design["beam"])["span_mm"])
    centre = sum(across(room, design["width_mm"])) / 2.0 - (room["width_mm"] - span) / 2.0
    climb = wall.climber_n * wall.climbers * wall.lever
    half = wall.board_n / 2.0 * wall.lever
    even = f["gamma_g"] * dead + f["gamma_q"] * live
    creep = 1.0 + f["kdef_solid"]
    lasting = dead * creep + live * (1.0 + f["psi2_domestic"] * f["kdef_solid"])
    static = wall.static_n * wall.climbers * wall.lever
    moments, permanent, sags = [], [], []
    for way in weight_ways(hung.at, centre, half):
        design_way = [(x, f["gamma_g"] * load) for x, load in way]
        permanent.append(beam_moment_and_sag(timber, span, f["gamma_g"] * dead, design_way)[0])
        for place, heavy in set(zip(hung.at, hung.heavy, strict=True)):
            on_it = heavy * climb
            loads = [*design_way, (place, f["gamma_q"] * on_it)]
            # Sideways the same bar is b/h as strong, and half the climbers' load pulls level.
            level = f["hold_pull_factor"] * f["gamma_q"] * on_it * timber.h / timber.b
            sideways = beam_moment_and_sag(timber, span, 0.0, [(place, level)])[0]
            moments.append(beam_moment_and_sag(timber, span, even, loads)[0] + sideways)
            loads = [*((x, creep * load) for x, load in way), (place, heavy * static)]
            sags.append(beam_moment_and_sag(timber, span, lasting, loads)[1])
    for name, own, loose in (
        ("ceiling beam bending", max(moments), 1.2),
        ("ceiling beam, permanent loads", max(permanent), 1.2),
        ("ceiling beam deflection", max(sags), 1.1),
    ):
        seen = stated[name][0]
        book.true(f"{name}: stated {seen}, a frame gives {own}", seen >= own * (1 - 1e-4))
        book.true(f"{name}: stated {seen}, only {own} in a frame", seen <= own * loose)


def studs(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check a board of one row as a grillage: no stud's moment is above the stated one."""
    if design["rows"] > 1:
        return
    f, wall, stated = shop.factors, wall_of(shop, document, design), checks_of(design)
    panel, bar, span = panel_of(shop, design["sheet"]), wall.bar, wall.board
    along, over = num(panel, "e_along_mpa"), num(panel, "e_across_mpa")
    modulus = along if design["grain"] == "across" else min(along, over)
    stiff = modulus * num(panel, "mean_thickness_mm") ** 3 / 12.0
    share = max(grillage_share(design, bar, span, stiff, i) for i in range(design["stud_count"]))
    strong = bar.moment_d(f, f["kmod_solid_short"], span)
    line = f["self_weight_continuity"] * wall.bay * wall.area_n + bar.n_per_mm
    axial = f["gamma_q"] * wall.climber_n * wall.climbers + f["gamma_g"] * line * span
    rest = f["gamma_g"] * line * span**2 / 8.0 * wall.lean / strong
    seen = (bar.without_axial(f, stated["stud bending"][0], axial, span) - rest) * strong
    seen /= f["gamma_q"] * wall.push * wall.climber_n * span / 4.0
    book.true(f"a stud's share: stated {seen}, a frame gives {share}", seen >= share * 0.98)
    book.true(f"a stud's share: stated {seen}, only {share} in a frame", seen <= share * 1.25)


def grillage_share(design: Doc, bar: Timber, span: float, stiff: float, loaded: int) -> float:
    """Return a stud's largest moment over P l / 4 with P on the middle of stud `loaded`.

    Studs on simple supports, the sheet as cross members that are hinged over seams.
    """
    places, steps = studs_mm(design), 20
    edges = [sum(design["column_widths_mm"][:i]) for i in range(1, design["columns"])]
    model = FEModel3D()
    model.add_material("wood", num(bar.grade, "e0_mean_mpa"), 1e-3, 0.3, 0.0)
    model.add_material("sheet", 1.0, 1e-3, 0.3, 0.0)
    inertia = bar.b * bar.h**3 / 12.0
    # Nothing twists: a stud on a hinge-like screw line turns freely about its own axis.
    model.add_section("stud", bar.b * bar.h, inertia, inertia, 1.0)
    strip = stiff * span / steps
    model.add_section("strip", 1e7, strip, strip, 1.0)
    for i, y in enumerate(places):
        for j in range(steps + 1):
            model.add_node(f"{i}:{j}", span * j / steps, 0.0, y)
            ends = j in (0, steps)
            # Only the deflection and the turning about the stud's cross axis are looked at.
            model.def_support(f"{i}:{j}", True, ends, True, False, True, False)
        model.add_member(f"s{i}", f"{i}:0", f"{i}:{steps}", "wood", "stud")
    for j in range(1, steps):
        for i, (left, _) in enumerate(pairwise(places)):
            name = f"c{i}:{j}"
            model.add_member(name, f"{i}:{j}", f"{i + 1}:{j}", "sheet", "strip")
            # One side of a hinge is enough; the other one keeps the node from spinning.
            model.def_releases(name, Rzi=any(abs(left - edge) < 1.0 for edge in edges))
    model.add_node_load(f"{loaded}:{steps // 2}", "FY", -1.0)
    model.analyze_linear()
    worst = 0.0
    for i in range(len(places)):
        member = model.members[f"s{i}"]
        worst = max(worst, abs(member.max_moment("Mz")), abs(member.min_moment("Mz")))
    return worst / (span / 4.0)
