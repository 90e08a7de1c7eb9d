"""What stands beside the great checks: holds and moves, rolling shear, the mounts' screws."""

from __future__ import annotations

import math
from typing import Any

import nds
import numpy as np
from ledger import Ledger
from members import beam_loads, checks_of, panel_of, wall_of
from places import standing_rad
from shop import Shop, num

Doc = dict[str, Any]


def climbing(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check where the hands start and how many moves lead up."""
    f, told = shop.factors, design["climbing"]
    angle, wall = standing_rad(shop, document, design)[0], document["room"]["wall"]
    drawn, rows = sorted({u for _, u in design["holds"]["free_mm"]}), rows_mm(f, wall, design)
    book.same("rows of holds", drawn, rows)
    start = design["kicker_mm"] + rows[0] * math.cos(angle)
    book.near("height of the start", told["start_height_mm"], start, 0.5001)
    gain = f["move_span_share"] * document["room"]["climber"]["span_mm"]
    book.same("moves", told["moves"], math.floor((rows[-1] - rows[0]) / gain + 1e-9))
    book.true("moves asked for", told["moves"] >= wall["min_moves"])
    if wall["max_start_mm"] is not None:
        book.true("start asked for", start <= wall["max_start_mm"] + 1e-6)


def rows_mm(f: Doc, wall: Doc, design: Doc) -> list[int]:
    """Return the rows of holds clear of rails and blocking: every shift by whole mm is tried.

    Most rows, then fewest in the timber's way, then nearest to the middle, then the lowest.
    """
    board, half = design["board_mm"], design["stud_mm"][0] / 2
    clear, edge = int(f["hold_clear_mm"]), int(f["hold_edge_margin_mm"])
    step = wall["hold_spacing_mm"]
    bars, ranked = [half, board - half, *np.cumsum(design["row_lengths_mm"])[:-1].tolist()], []
    for first in range(edge, edge + step):
        every = range(first, board - edge + 1, step)
        rows = [u for u in every if all(abs(u - bar) >= half + clear for bar in bars)]
        middle = abs(every[0] + every[-1] - board)
        ranked.append((-len(rows), len(every), middle, first, rows))
    return min(ranked)[-1]


def rolling_shear(book: Ledger, shop: Shop, design: Doc) -> None:
    """Check the sheet's strength in rolling shear, along the studs' bays (6.1.7)."""
    f, panel = shop.factors, panel_of(shop, design["sheet"])
    family = panel["kmod_family"]
    along, over = num(panel, "fv_planar_mpa"), num(panel, "fv_planar_across_mpa")
    strength = along if design["grain"] == "across" else min(along, over)
    own = f[f"kmod_{family}_short"] * strength / f[f"gamma_m_{family}"]
    book.ratio("rolling shear strength", checks_of(design)["sheet rolling shear"][1], own)


def mount_screws(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check the mounts' screws pulled out and sideways at once, thin plate (8.9), (8.28)."""
    f, mount, stated = shop.factors, shop.mounts[design["mount"]], checks_of(design)
    timber, _, _, hung = beam_loads(shop, document, design)
    wall, density = wall_of(shop, document, design), num(timber.grade, "rho_k_kg_m3")
    deep = min(num(mount, "thread_mm"), timber.h)
    d = 1.1 * num(mount, "root_mm")  # effective diameter, 8.7.1(3)
    if d > 6.0:  # predrilled, square to the grain (8.31 to 8.33)
        embedment = 0.082 * (1 - 0.01 * d) * density / (1.35 + 0.015 * d)
    else:
        embedment = 0.082 * density * d**-0.3
    bending = 0.3 * num(mount, "tensile_mpa") * d**2.6
    one = min(0.4 * embedment * deep * d, 1.15 * math.sqrt(2 * bending * embedment * d))
    if shop.code == "NDS":
        one = nds.lag_n(mount, deep, density / 1000)
    strength = f["kmod_solid_short"] / f["gamma_m_connection"] * num(mount, "screws") * one
    climb = wall.climber_n * wall.climbers * wall.lever
    pull = f["gamma_q"] * f["hold_pull_factor"] * climb * max(hung.heavy)
    demand, capacity = stated["mount pull-out"]
    # Two spans' weight beside a lost mount, as the pull-out has it of one, or the whole lip's.
    weight = (demand - f["gamma_q"] * climb * max(hung.heavy)) / f["gamma_g"]
    both = min(2 * weight, wall.board_n / 2 * wall.lever) * hung.lost_weight
    accident = f["gamma_accidental"] * (climb * max(hung.lost) + both)
    for name in ("one mount lost", "lip bolts, one mount lost"):
        book.ratio(name, stated[name][0], accident, 1e-3)
    # The plate turns about its edge; the row farthest from it pulls alone, the others come along.
    row, drop = float(mount["row_gap_mm"] or 0), num(mount, "drop_mm")
    plate = float(mount["plate_mm"] or f["mount_plate_d"] * num(mount, "diameter_mm"))
    arm = f["prise_arm_share"] * (plate / 2 + row / 2)
    tension = pull * min(float(mount["stiff_mm"] or drop), drop) / arm
    prised = demand + (2 * tension if row else tension)
    book.ratio("mount plate prised off", stated["mount plate prised off"][0], prised, 1e-4)
    own = math.hypot(prised / capacity, pull / strength)
    book.ratio("mount pull-out and shear", stated["mount pull-out and shear"][0], own, 1e-4)


def twisted_beam(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check the ceiling beam's twisting by level pulls below it (6.14), alone and with shear."""
    f, mount, stated = shop.factors, shop.mounts[design["mount"]], checks_of(design)
    timber, _, _, hung = beam_loads(shop, document, design)
    beam = next(b for b in document["room"]["beams"] if b["name"] == design["beam"])
    wall = wall_of(shop, document, design)
    low, high = sorted(beam["underside_mm"])
    lever = timber.h / 2 + beam.get("lining_mm", 0) + num(mount, "drop_mm") + high - low
    reach = hung.reach
    pull = f["gamma_q"] * f["hold_pull_factor"] * wall.climber_n * wall.climbers * wall.lever
    twist, most = stated["ceiling beam torsion"]
    book.ratio("beam torsion", twist, pull * reach * lever, 1e-4)
    short, long = sorted((timber.b, timber.h))
    stress = f["kmod_solid_short"] * num(timber.grade, "fv_k_mpa") / f["gamma_m_solid"]
    shape = 1.0 if shop.code == "NDS" else min(1.3, 1 + 0.05 * long / short)
    # Roark's approximation of Saint-Venant's series for the largest stress, good to 4 %.
    slim = short / long
    bend = 1 + slim * (0.6095 + slim * (0.8865 + slim * (-1.8023 + 0.91 * slim)))
    own = shape * stress * f["kcr_solid"] * long * short**2 / 3 / bend
    book.ratio("beam torsion strength", most, own, 0.04)
    demand, capacity = stated["ceiling beam shear"]
    level = pull * reach / timber.shear_d(f, f["kmod_solid_short"])
    both, t = stated["ceiling beam shear and torsion"][0], twist / most
    book.ratio(
        "beam shear and torsion",
        t / both + ((demand / capacity) ** 2 + level**2) / both**2,
        1.0,
        1e-3,
    )
