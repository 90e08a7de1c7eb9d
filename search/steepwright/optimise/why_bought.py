"""Why no wall can be bought: an article is missing, or no stock is large enough for a piece."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields

import numpy as np

from steepwright.cutting.records import SheetStock
from steepwright.optimise.access import board_pieces
from steepwright.optimise.entries import Entries
from steepwright.optimise.found import Found
from steepwright.optimise.model import Model
from steepwright.pricing.hardware import Counts, HardwarePricer, quantities
from steepwright.pricing.market import Market

Solve = Callable[[Model, Entries], tuple[Found | None, int]]

MOST_TRIED = 50
"""Walls that are cut for real to tell whether the yard's stock runs out."""

_NAMES = {
    "tnut": "T-nuts",
    "hinge": "hinges for the kicker",
    "rope": "rope to fold the board up",
    "pulley": "pulleys to fold the board up",
    "brake": "rope brake to fold the board up",
    "latch": "latches to fold the board up",
    "strap": "slings to fold the board up",
}


def missing_articles(model: Model) -> str:
    """Return the small parts that every wall needs and nobody sells, in words; empty if none."""
    market = model.space.market
    boards = [n for n, allowed in enumerate(market.board_allowed) if allowed]
    sections = list(range(len(market.sections)))
    first = Entries(*(np.zeros(1, dtype=np.int64) for _ in fields(Entries)))
    return lacking(market, model.pricer, (boards, sections), model.counts(first))


def lacking(
    market: Market, pricer: HardwarePricer, use: tuple[list[int], list[int]], counts: Counts
) -> str:
    """Return the small parts that nobody sells, in words; empty if none.

    `use` holds the sheet families and the sections of which one must have its screws.
    """
    boards, sections = use
    factors = market.catalog.materials.factors
    told = []
    if all(pricer.sheet_tables[n] is None for n in boards):
        thin = min(market.families[n].thickness_mm for n in boards)
        told.append(_screw("sheet", factors["sheet_screw_length_factor"] * thin))
    if all(pricer.frame_tables[n] is None for n in sections):
        thin = min(market.sections[n].width_mm for n in sections)
        told.append(_screw("frame", factors["frame_screw_length_factor"] * thin))
    need = quantities(pricer.rules, counts)
    told += [
        f"no {_NAMES.get(kind, kind)} (kind {kind} in hardware.csv)"
        for kind, table in pricer.other_tables.items()
        if table is None and int(need[kind][0])
    ]
    return "the catalogue sells " + ", ".join(told) if told else ""


def _screw(role: str, least_mm: float) -> str:
    return f"no {role} screw of at least {least_mm:g} mm (role {role} in screws.csv)"


def cutting_reason(model: Model, strong: Entries, solve: Solve) -> str:
    """Return why walls that are strong enough can't be cut from what is on offer.

    `solve` prices one wall for real.
    """
    sheets: dict[tuple[int, int], tuple[int, str]] = {}
    rows = np.stack([strong.sheeting, strong.row]).T.tolist()
    for sheeting, row in {(s, r) for s, r in rows}:
        sheets[sheeting, row] = _sheet_short(model, sheeting, row)
    bars = {
        (section, row): _bar_short(model, section, row)
        for section, row in {*zip(strong.section.tolist(), strong.row.tolist(), strict=True)}
    }
    short = [
        (sheets[s, r], bars[j, r]) for (s, r), j in zip(rows, strong.section.tolist(), strict=True)
    ]
    both = [n for n, (sheet, bar) in enumerate(short) if sheet[0] <= 0 and bar[0] <= 0]
    start = "Walls fit the room and are strong enough, but none can be cut: "
    if both:
        return start + _stock_runs_out(model, strong.take(np.array(both[:MOST_TRIED])), solve)
    least = min(short, key=lambda pair: max(pair[0][0], pair[1][0]))
    words = " and ".join(text for over, text in least if over > 0)
    more = "Allow more columns or rows, or take a yard with larger sheets."
    if least[0][0] <= 0:
        more = "Allow shorter boards, or take a yard with longer bars."
    return f"{start}{words}. {more}"


def _stock_runs_out(model: Model, some: Entries, solve: Solve) -> str:
    for n in range(len(some)):
        found, _ = solve(model, some.take(np.array([n])))
        if found is not None:
            return (
                "the walls that can be are ruled out by two constraints at once. Loosen one of the"
                " wall's ranges."
            )
    return (
        "every piece has a sheet or bar as large, but the yard has too few of them (limit), or the"
        " saw's kerf (yard.kerf_mm) leaves too little. Take another yard or allow other kinds."
    )


def _sheet_short(model: Model, number: int, row: int) -> tuple[int, str]:
    """Return by how much the largest piece exceeds the best sheet [mm], and words."""
    sheeting = model.space.sheetings[number]
    piece = board_pieces(model.space, sheeting, model.access.widest_mm[number])[row]
    return sheet_short(model.space.market, sheeting.family, sheeting.grain, piece)


def sheet_short(
    market: Market, family: int, grain_need: str, piece: tuple[int, int]
) -> tuple[int, str]:
    """Return by how much a board piece exceeds the sheet that comes nearest [mm], and words."""
    options = market.sheet_stock[family]
    over = min((min(_over(stock, piece, grain_need)) for stock in options), default=max(piece))
    label = market.families[family].label
    grain = ", face grain across the wall," if grain_need == "across" else ""
    return over, (
        f"a piece of {piece[0]} x {piece[1]} mm{grain} is {over} mm larger than the sheet of"
        f" {label} that comes nearest"
    )


def _over(stock: SheetStock, piece: tuple[int, int], grain: str) -> Iterator[int]:
    sides = (stock.length_mm, stock.width_mm)
    along, across = sides if stock.face_grain == "length" else sides[::-1]
    yield max(piece[1] - along, piece[0] - across)
    if grain == "any":
        yield max(piece[0] - along, piece[1] - across)


def _bar_short(model: Model, section: int, row: int) -> tuple[int, str]:
    space = model.space
    return bar_short(
        space.market, section, (int(space.boards_mm[row]), space.width_mm), delivered=True
    )


def bar_short(
    market: Market, section: int, lengths_mm: tuple[int, int], *, delivered: bool
) -> tuple[int, str]:
    """Return by how much the longest bar of a frame exceeds what is on offer [mm], and words.

    `lengths_mm` are the board's length and width.
    """
    bar = market.sections[section]
    stud = max(lengths_mm[0] - 2 * bar.width_mm, lengths_mm[1])
    longest = max((stock.length_mm for stock in market.bar_stock(bar, delivered)), default=0)
    over = stud - longest
    if not delivered and not longest:
        shortest = min(product.length_mm for product in bar.products)
        over = max(shortest - max(market.room.yard.vehicle_max_mm or (shortest,)), 1)
        return (
            over,
            f"the shortest {bar.label}, {shortest} mm, is {over} mm too long for your vehicle",
        )
    if not delivered and longest < max(p.length_mm for p in bar.products):
        words = f"a bar of {stud} mm is {over} mm longer than the longest {bar.label} that your"
        return over, f"{words} vehicle takes"
    return over, f"a bar of {stud} mm is {over} mm longer than the longest {bar.label} on offer"
