"""A freestanding frame: its timber and bolts counted and bought again, and whether it stands.

The cheapest bars are found as an integer program over all ways to fill a bar, by HiGHS in scipy
(general-purpose, BSD). Statics by hand: EN 1990 6.4.1 about the foot's end and about one post.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from typing import Any

import numpy as np
from ledger import Ledger
from members import G, beam_loads, checks_of, wall_of
from scipy.optimize import LinearConstraint, milp
from shop import Row, Shop, cents, least_cents, num, pieces

Doc = dict[str, Any]
Side = tuple[int, int]


def beam_of(document: Doc, design: Doc) -> Doc:
    """Return what a design hangs from."""
    return dict(next(b for b in document["room"]["beams"] if b["name"] == design["beam"]))


def timber_needed(shop: Shop, beam: Doc) -> Counter[tuple[Side, str, int]]:
    """Return the frame's pieces by section, name and length [mm]."""
    f, s = shop.factors, beam.get("stand")
    if beam.get("ledger"):
        return ledger_timber(shop, beam)
    if beam.get("spreader"):
        low, high = min(beam["width_mm"], beam["depth_mm"]), max(beam["width_mm"], beam["depth_mm"])
        under = beam["spreader"]
        d, places = under["screw_mm"][0] + f["spreader_screw_over_mm"], under["joists_mm"]
        # Table 8.6: a1,CG = 10 d; Table 8.4: a3,t of bolts; NDS 12.5.1: 4 D.
        past = max(f["spreader_end_d"] * d, f["spreader_end_mm"], under["joist_mm"][0] / 2)
        whole = max(places) - min(places) + 2 * math.ceil(past)
        return Counter({((low, high), "spreader", whole): 1})
    d, (across, along) = f["frame_bolt_mm"], s["post_mm"]
    head = beam["width_mm"], beam["depth_mm"]
    past = (f["frame_bolts_per_joint"] - 1) * 5 * d + 2 * 7 * d  # Table 8.4: a1, a3,t
    leg, rise = s["foot_mm"] - f["frame_toe_mm"], s["brace_up_mm"]
    long = math.sqrt(leg * leg + rise * rise)
    cheek = f["frame_cheek_mm"] + head[1] / 2 + 7 * d
    rows = [
        (head, "frame head beam", beam["span_mm"] + across, 1),
        (s["post_mm"], "frame post", min(beam["underside_mm"]) - along, 2),
        (s["post_mm"], "frame foot", 2 * s["foot_mm"], 2),
        (s["brace_mm"], "frame brace", math.ceil(long + past), 4),
        (s["brace_mm"], "frame knee brace", math.ceil(2**0.5 * f["frame_knee_mm"] + past), 2),
        (s["brace_mm"], "frame head cheek", math.ceil(cheek), 4),
        (s["brace_mm"], "frame foot cheek", math.ceil(along / 2 + 3 * 7 * d), 4),
    ]
    need: Counter[tuple[Side, str, int]] = Counter()
    for section, name, length, count in rows:
        need[(min(section), max(section)), name, int(length)] += count
    return need


def ledger_timber(shop: Shop, beam: Doc) -> Counter[tuple[Side, str, int]]:
    """Return a beam from wall to wall and its two ledgers."""
    ledger = beam["ledger"]
    row = ledger["apart_mm"] * (ledger["fixings"] - 1) + round(2 * shop.factors["ledger_end_mm"])
    need: Counter[tuple[Side, str, int]] = Counter()
    for sides, name, length, count in (
        ((beam["width_mm"], beam["depth_mm"]), "ledger beam", beam["span_mm"], 1),
        (ledger["section_mm"], "ledger", row, 2),
    ):
        need[(min(sides), max(sides)), name, length] += count
    return need


def least_bars_cents(need: Counter[int], bars: list[tuple[int, int]], kerf: int) -> int:
    """Return the least price of bars (length, price) for some lengths, kerf between pieces."""
    lengths = sorted(need)
    ways, prices = [], []
    for long, price in bars:
        most = [min(need[mm], (long + kerf) // (mm + kerf)) for mm in lengths]
        for counts in itertools.product(*(range(n + 1) for n in most)):
            if sum(n * (mm + kerf) for n, mm in zip(counts, lengths, strict=True)) <= long + kerf:
                ways.append(counts)
                prices.append(price)
    held = LinearConstraint(np.array(ways).T, [need[mm] for mm in lengths], np.inf)
    done = milp(prices, constraints=held, integrality=np.ones(len(prices)))
    assert done.success
    return round(done.fun)


def bars(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check the frame's pieces, that their bars hold them, and that no bars are cheaper."""
    beam, yard = beam_of(document, design), document["room"]["yard"]
    plan, kerf = design["cut_plan"].get("stand", []), yard["kerf_mm"]
    rig = beam.get("stand") or beam.get("ledger") or beam.get("spreader")
    bought = rig and not rig["owned"]
    need = timber_needed(shop, beam) if bought else Counter()
    cut: Counter[tuple[Side, str, int]] = Counter()
    paid: Counter[Side] = Counter()
    for bar in plan:
        row = shop.timber[bar["sku"]]
        sides = sorted((int(row["width_mm"]), int(row["depth_mm"])))
        section = sides[0], sides[1]
        book.same(f"length of {bar['sku']}", bar["stock_mm"], int(row["length_mm"]))
        whole = sum(bar["pieces_mm"]) + kerf * (len(bar["pieces_mm"]) - 1)
        book.true(f"{bar['sku']} is too short", whole <= bar["stock_mm"])
        book.true("grade of the frame", beam["grade"] in (None, row["strength_class"]))
        paid[section] += cents(row["price"])
        for name, length in zip(bar["pieces"], bar["pieces_mm"], strict=True):
            cut[section, name, length] += 1
    book.same("timber of the freestanding frame", dict(cut), dict(need))
    for section in {section for section, _, _ in need}:
        lengths: Counter[int] = Counter()
        for (own, _, length), count in need.items():
            lengths[length] += count if own == section else 0
        stock = [_offer(row) for row in shop.timber.values() if _fits(row, section, beam)]
        vehicle = None if design["delivered"] else yard["vehicle_max_mm"]
        stock = [one for one in stock if vehicle is None or one[0] <= max(vehicle)]
        book.same(
            "price of the frame's bars", paid[section], least_bars_cents(+lengths, stock, kerf)
        )


def _offer(row: Row) -> tuple[int, int]:
    return int(row["length_mm"]), cents(row["price"])


def _fits(row: Row, section: Side, beam: Doc) -> bool:
    sides = sorted((int(row["width_mm"]), int(row["depth_mm"])))
    graded = beam["grade"] in (None, row["strength_class"])
    return (sides[0], sides[1]) == section and graded and not row["limit"]


def bolts_needed(shop: Shop, beam: Doc) -> Counter[int]:
    """Return how many bolts of each length on sale the frame takes [mm]."""
    f, s = shop.factors, beam["stand"]
    thin, (across, along) = min(s["brace_mm"]), s["post_mm"]
    sold = [int(r["length_mm"]) for r in _bolts(shop)]
    per, wide = int(f["frame_bolts_per_joint"]), max(along, beam["width_mm"])
    need: Counter[int] = Counter()
    for timber, count in (
        (thin + across, 4 * 2 * per),  # four braces, at post and foot
        (thin + wide, 2 * 2 * per),  # two braces across the room, at post and head beam
        (thin + wide + thin, 2 * 2),  # cheeks at the head beam: one bolt in each, both posts
        (thin + across + thin, 2 * 2),
    ):
        fit = [mm for mm in sold if mm >= timber + f["frame_bolt_over_mm"]]
        need[min(fit, default=0)] += count
    del need[0]
    return need


def _bolts(shop: Shop) -> list[Row]:
    d = shop.factors["frame_bolt_mm"]
    rows = [r for r in shop.hardware.values() if r["kind"] == "bolt"]
    return [r for r in rows if num(r, "diameter_mm") == d]


def bolts(book: Ledger, shop: Shop, document: Doc, design: Doc, lines: dict[str, Doc]) -> None:
    """Check the frame's bolts and take their lines off the bill's hardware."""
    beam = beam_of(document, design)
    if not beam.get("stand") or beam["stand"]["owned"]:
        return
    for length, need in bolts_needed(shop, beam).items():
        packs = [r for r in _bolts(shop) if int(r["length_mm"]) == length]
        found = [lines.pop(r["sku"]) for r in packs if r["sku"] in lines]
        paid = sum(line["amount_cents"] for line in found)
        own = least_cents([(pieces(r), cents(r["price"])) for r in packs], need)
        book.same(f"price of the frame's bolts of {length} mm", paid, own)


def stands(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check tipping both ways, sliding and the braces' pull of a wall on a frame."""
    beam, f, stated = beam_of(document, design), shop.factors, checks_of(design)
    if not beam.get("stand"):
        return
    wall, s = wall_of(shop, document, design), beam["stand"]
    timber, _, _, hung = beam_loads(shop, document, design)
    span, top = float(beam["span_mm"]), max(beam["underside_mm"]) + beam["depth_mm"]
    mm3 = sum(
        section[0] * section[1] * length * count
        for (section, _, length), count in timber_needed(shop, beam).items()
    )
    own = f["gamma_g_favourable"] * mm3 * num(timber.grade, "rho_mean_kg_m3") * 1e-9 * G / 2.0
    share = hung.reach
    everyone = f["gamma_q"] * wall.climber_n * wall.climbers * wall.lever
    climb = everyone * share
    pull, aside = f["hold_pull_factor"] * climb, f["frame_sideways_share"] * everyone
    demand, capacity = stated["frame tips over"]
    book.ratio("frame tips over", demand, pull * top, 1e-4)
    book.ratio("what holds the frame", capacity, (climb + own) * s["foot_mm"], 1e-4)
    demand, capacity = stated["frame tips sideways"]
    book.ratio("frame tips sideways", demand, aside * top, 1e-4)
    off = everyone * (1.0 - share) * span
    book.ratio("what holds the frame sideways", capacity, 2 * own * span / 2 + off, 1e-4)
    demand, capacity = stated["frame slides"]
    rub = f["friction_timber_floor"] * (climb + own)
    book.near("frame slides", demand, max(0.0, pull - rub), 1e-4 * pull)
    if s["floor_rated_n"] is not None:
        book.same("rating on the floor", capacity, s["floor_rated_n"])
    leg = s["foot_mm"] - f["frame_toe_mm"]
    along = pull * top / s["brace_up_mm"] * math.hypot(leg, s["brace_up_mm"]) / leg
    knee = aside / 2.0 * top / f["frame_knee_mm"] * math.sqrt(2.0)
    book.ratio("frame's brace", stated["frame brace"][0], max(along, knee), 1e-4)
    level = pull * (top / s["brace_up_mm"] - 1.0)
    lift = max(0.0, pull * top / leg - climb)
    joint = stated["frame post's foot joint"][0]
    book.ratio("frame's foot joint", joint, math.hypot(level, lift), 1e-4)
