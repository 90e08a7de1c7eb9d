"""What would change the answer: one thing let go at a time, and what that saves or gains."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from steepwright.catalog.types import Catalog
from steepwright.optimise.changes_fresh import Before
from steepwright.optimise.changes_offers import bar_changes, offcut_changes, sheet_changes
from steepwright.optimise.changes_room import asked_changes, beam_changes, way_changes
from steepwright.optimise.changes_search import Ahead, Aim, Better, better_walls
from steepwright.optimise.changes_types import Change, Document
from steepwright.optimise.model import Model
from steepwright.optimise.workers import shared_out
from steepwright.optimise.yards import markets
from steepwright.room.types import Room
from steepwright.units import degrees_down, money


@dataclass(frozen=True, slots=True)
class Told:
    """What a change saves or gains against one aim: before and after."""

    what: str
    words: str
    aim: Aim
    after_cents: int | None
    after_mdeg: int | None

    @property
    def saved_cents(self) -> int:
        """What is saved [cents]."""
        return 0 if self.after_cents is None else self.aim.cost_cents - self.after_cents

    @property
    def gained_mdeg(self) -> int:
        """How much steeper the wall is [1/1000 degree]."""
        return 0 if self.after_mdeg is None else self.after_mdeg - self.aim.angle_mdeg


def what_would_change(
    document: Document,
    room: Room,
    catalog: Catalog,
    like: Model,
    *,
    workers: int,
    progress: Callable[[str], None],
) -> list[Document]:
    """Return the changes that save most or gain most, as rows of the document.

    Each is the result of an exact search of the changed room or price list.

    Parameters
    ----------
    document
        The finished search; its designs are the walls to beat.
    like
        The model that was searched.
    """
    factors = catalog.materials.factors
    aims = aims_of(document, catalog)
    designs = [_cheapest(document, aim) for aim in aims]
    groups = _groups(room, catalog, designs)
    progress("looking at what would change the answer")

    def look(number: int) -> list[Told]:
        return told_of(groups[number], room, catalog, aims, like)

    found = [told for rows in shared_out(look, len(groups), workers) for told in rows]
    found += _less_steep(document, aims, factors["change_angle_deg"])
    return _rows(found, document["currency"])[: int(factors["change_told"])]


def told_of(
    group: tuple[Change, ...], room: Room, catalog: Catalog, aims: tuple[Aim, ...], like: Model
) -> list[Told]:
    """Return what a group's changes save or gain.

    All are tried at once and, if that helps, those that the walls rest on each alone.

    Parameters
    ----------
    aims
        Walls to beat.
    like
        The model of the unchanged room, none of whose walls beats one.
    """
    before = Before(like, markets(room, catalog))
    changed, better = _try(group, room, catalog, aims, before, Ahead())
    if len(group) == 1:
        return _told(group[0], changed, aims, better)
    rests = [{n for n, change in enumerate(group) if change.used(changed, w)} for w in better]
    told = []
    for number in sorted(set().union(*rests)):
        had = tuple(w for w, its in zip(better, rests, strict=True) if its <= {number})
        ahead = Ahead(better, had) if group[number].adds else Ahead()
        alone, walls = _try((group[number],), room, catalog, aims, before, ahead)
        told += _told(group[number], alone, aims, walls)
    return told


def aims_of(document: Document, catalog: Catalog) -> tuple[Aim, ...]:
    """Return what was asked for, as walls to beat.

    The cheapest wall at the angle asked for; with a budget alone the steepest wall it buys; with
    neither the cheapest wall, and the one that gives most degrees for the money from there.
    """
    factors, designs = catalog.materials.factors, document["designs"]
    target, budget = document["target_angle_deg"], document["max_cost_cents"]
    worth = round(100 * factors["change_least_price"]), round(1000 * factors["change_least_deg"])

    def aim(least_mdeg: int, design: Document, most_cents: int, any_angle: bool) -> Aim:
        angles = [_mdeg(d) for d in designs if d["cost_cents"] <= most_cents]
        return Aim(least_mdeg, design["cost_cents"], max(angles), most_cents, *worth, any_angle)

    if target is None and budget is not None:
        fits = [d for d in designs if d["cost_cents"] <= budget]
        best = min(fits, key=lambda d: (-d["angle_deg"], d["cost_cents"]))
        return (aim(_mdeg(best), best, budget, False),)
    least_deg = document["room"]["wall"]["angle_deg"][0] if target is None else target
    least = round(1000 * least_deg)
    steep = [d for d in designs if _mdeg(d) >= least]
    best = min(steep, key=lambda d: (d["cost_cents"], -d["angle_deg"]))
    first = aim(least, best, best["cost_cents"], target is None)
    knee = _knee(best, designs, first.gain_mdeg) if target is None else None
    return (first,) if knee is None else (first, aim(_mdeg(knee), knee, knee["cost_cents"], False))


def _knee(start: Document, designs: list[Document], gain_mdeg: int) -> Document | None:
    steeper = [d for d in designs if _mdeg(d) - _mdeg(start) >= gain_mdeg]
    dearer = [d for d in steeper if d["cost_cents"] > start["cost_cents"]]

    def cents_per_mdeg(design: Document) -> tuple[float, int]:
        more = design["cost_cents"] - start["cost_cents"]
        return more / (_mdeg(design) - _mdeg(start)), design["cost_cents"]

    return min(dearer, key=cents_per_mdeg, default=None)


def _mdeg(design: Document) -> int:
    return round(1000 * float(design["angle_deg"]))


def _cheapest(document: Document, aim: Aim) -> Document:
    steep = [d for d in document["designs"] if _mdeg(d) >= aim.least_mdeg]
    best: Document = min(steep, key=lambda d: (d["cost_cents"], -d["angle_deg"]))
    return best


def _groups(room: Room, catalog: Catalog, designs: list[Document]) -> list[tuple[Change, ...]]:
    offcuts: dict[tuple[str, ...], tuple[Change, ...]] = {}
    for design in designs:
        for group in offcut_changes(room, catalog, design):
            offcuts.setdefault(tuple(change.words for change in group), group)
    return [
        *asked_changes(room, catalog),
        *beam_changes(room, catalog),
        *offcuts.values(),
        sheet_changes(catalog),
        bar_changes(catalog),
        *way_changes(room, catalog),
    ]


def _try(
    group: tuple[Change, ...],
    room: Room,
    catalog: Catalog,
    aims: tuple[Aim, ...],
    before: Before,
    ahead: Ahead,
) -> tuple[Room, tuple[Better, ...]]:
    for change in group:
        room, catalog = change.apply(room, catalog)
    moved = tuple(_moved(aim, room) for aim in aims)
    return room, better_walls(room, catalog, moved, before, ahead)


def _moved(aim: Aim, room: Room) -> Aim:
    least = round(1000 * room.wall.angle_deg[0])
    return replace(aim, least_mdeg=least) if aim.any_angle else aim


def _told(
    change: Change, room: Room, aims: tuple[Aim, ...], walls: tuple[Better, ...]
) -> list[Told]:
    told = []
    for aim in aims:
        least = _moved(aim, room).least_mdeg
        cents = [w.cost_cents for w in walls if w.angle_mdeg >= least]
        mdeg = [w.angle_mdeg for w in walls if w.cost_cents <= aim.most_cents]
        cheap = [c for c in cents if aim.cost_cents - c >= aim.saving_cents]
        steep = [m for m in mdeg if m - aim.angle_mdeg >= aim.gain_mdeg]
        after_cents, after_mdeg = min(cheap, default=None), max(steep, default=None)
        if after_cents is not None or after_mdeg is not None:
            told.append(Told(change.what, change.words, aim, after_cents, after_mdeg))
    return told


def _less_steep(document: Document, aims: tuple[Aim, ...], turn_deg: float) -> list[Told]:
    """Return what a target less steep would save: the finished front knows."""
    target = document["target_angle_deg"]
    if target is None or target - turn_deg < document["room"]["wall"]["angle_deg"][0]:
        return []
    aim = aims[0]
    least = aim.least_mdeg - round(1000 * turn_deg)
    after = min(d["cost_cents"] for d in document["designs"] if _mdeg(d) >= least)
    if aim.cost_cents - after < aim.saving_cents:
        return []
    words = f"If {target - turn_deg:g} degrees will do"
    return [Told("A little less steep", words, replace(aim, any_angle=True), after, None)]


def _rows(found: list[Told], currency: str) -> list[Document]:
    """Return a row per change: most money first, then most angle."""
    changes: dict[str, list[Told]] = {}
    for told in found:
        changes.setdefault(told.words, []).append(told)
    ranked = sorted(
        changes.values(),
        key=lambda rows: (
            -max(row.saved_cents for row in rows),
            -max(row.gained_mdeg for row in rows),
            rows[0].words,
        ),
    )
    return [_row(rows, currency) for rows in ranked]


def _row(rows: list[Told], currency: str) -> Document:
    saves = max(rows, key=lambda row: row.saved_cents)
    gains = max(rows, key=lambda row: row.gained_mdeg)
    row: Document = {"what": rows[0].what, "text": ""}
    parts = []
    if saves.after_cents is not None:
        row |= {"before_cents": saves.aim.cost_cents, "after_cents": saves.after_cents}
        prices = money(saves.after_cents, currency), money(saves.aim.cost_cents, currency)
        parts.append(f"{_subject(saves.aim)} costs {prices[0]} instead of {prices[1]}")
    if gains.after_mdeg is not None:
        before, after = gains.aim.angle_mdeg / 1000, gains.after_mdeg / 1000
        row |= {"before_deg": before, "after_deg": after, "at_most_cents": gains.aim.most_cents}
        parts.append(
            f"{money(gains.aim.most_cents, currency)} buys {degrees_down(after)} degrees"
            f" instead of {degrees_down(before)}"
        )
    row["text"] = f"{rows[0].words}, {', and '.join(parts)}."
    return row


def _subject(aim: Aim) -> str:
    if aim.any_angle:
        return "the cheapest wall"
    least = degrees_down(aim.least_mdeg / 1000).removesuffix(".0")
    return f"the cheapest wall of {least} degrees or more"
