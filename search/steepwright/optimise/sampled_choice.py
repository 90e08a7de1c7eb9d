"""One sampled wall: what is chosen at random, what the exact solvers settle, and how it scores."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from steepwright.catalog.types import Hardware
from steepwright.optimise.evaluate import (
    Workshop,
    batch_of,
    cost_cents,
    holds,
    stance,
    wall_margins,
)
from steepwright.optimise.model import kicker_families
from steepwright.optimise.own_places import PARTS, eye_part, lifted_at, tie_part, tied_at
from steepwright.optimise.space import Sheeting, Space, limit_range
from steepwright.optimise.widen import splits_well
from steepwright.optimise.wishes import REACHES
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.wall import Wall, columns_of, rows_of
from steepwright.structure import worst_use

Params = Mapping[str, Any]
Document = dict[str, Any]

CONSTRAINTS = ("made", "room", "way in", "strength")
"""What may be violated, in the order it is looked at; 0 or less is kept."""


@dataclass(frozen=True, slots=True)
class Tried:
    """A sampled wall: its scores, and by how much it violates what.

    Attributes
    ----------
    wall
        None when it can't be made or bought.
    values
        Cost [cents], angle [1/1000 degree], fall space [mm].
    violations
        Per constraint: by how much it is broken, 0 when kept or not reached.
    """

    wall: Wall | None
    values: tuple[float, float, float]
    violations: Mapping[str, float]

    @property
    def fits(self) -> bool:
        """Whether nothing is violated."""
        return all(value <= 0 for value in self.violations.values())


@dataclass(frozen=True)
class Choices:
    """What there is to choose from, by names that mean the same in every run."""

    shop: Workshop
    own_places: bool = True

    @property
    def space(self) -> Space:
        """The space that the choices are taken from."""
        return self.shop.space

    @cached_property
    def names(self) -> dict[str, list[str]]:
        """The names of each choice that is no number."""
        market, room = self.space.market, self.space.market.room
        return {
            "place": [f"{room.beams[beam].name} {facing}" for beam, facing in self.space.places],
            "mount": [mount.sku for mount in market.catalog.mounts],
            "sheet": sorted({market.families[s.family].panel for s in self.space.sheetings}),
            "split": sorted({_split_name(s) for s in self.space.sheetings}),
            "grain": ["across", "any"],
            "section": [section.label for section in market.sections],
            "delivered": ["no", "yes"] if room.yard.vehicle_max_mm is not None else ["no"],
        }

    @cached_property
    def ranges(self) -> dict[str, tuple[int, int]]:
        """The least and greatest of each choice that is a number, in steps of 1."""
        space, wall = self.space, self.space.market.room.wall
        studs = limit_range(space.market, "studs")
        return {
            "studs": (studs[0], studs[-1]),
            "board_mm": (int(space.boards_mm[0]), int(space.boards_mm[-1])),
            "kicker_mm": wall.kicker_mm,
            "width_mm": (space.width_mm, wall.width_mm[1]),
        } | self.places

    @property
    def places(self) -> dict[str, tuple[int, int]]:
        """The ranges of the places that a wall may have of its own."""
        looked_for = {"tie_place": len(self.space.ties) > 1}
        looked_for["eye_place"] = self.space.market.room.wall.fold_up
        return {name: (0, PARTS) for name, here in looked_for.items() if here and self.own_places}

    @cached_property
    def _sheetings(self) -> dict[tuple[str, str, str, int], Sheeting]:
        families = self.space.market.families
        return {
            (families[s.family].panel, _split_name(s), s.grain, s.studs): s
            for s in self.space.sheetings
        }

    def try_out(self, params: Params) -> Tried:
        """Score one set of choices; kicker sheet, mounts and screws are the cheapest that do."""
        wall = self._cheapest(params)
        if wall is None:
            return _broken(None, (UNAVAILABLE_CENTS, 0, 0), "made", 1.0)
        cents = float(cost_cents(self.shop, wall))
        margins = wall_margins(self.shop, wall)
        if margins[REACHES] < 0:
            return _broken(wall, (cents, 0, 0), "room", -margins[REACHES])
        stands = stance(self.shop, wall)
        values = (cents, round(stands.angle_deg * 1000), stands.fall_space_mm)
        short = -min(margins.values())
        if short > 0:
            return _broken(wall, values, "room", short)
        if not splits_well(self.shop, wall):
            return _broken(wall, values, "way in", 1.0)
        held = self._held(self._placed(wall, params))
        if isinstance(held, float):
            return _broken(wall, values, "strength", held)
        cents = float(cost_cents(self.shop, held))
        if cents >= UNAVAILABLE_CENTS:
            return _broken(wall, values, "made", 1.0)
        return Tried(held, (cents, *values[1:]), dict.fromkeys(CONSTRAINTS, 0.0))

    def _cheapest(self, params: Params) -> Wall | None:
        key = (params["sheet"], params["split"], params["grain"], params["studs"])
        sheeting = self._sheetings.get(key)
        if sheeting is None:
            return None
        market, names = self.space.market, self.names
        if params["mount"] not in names["mount"] or params["section"] not in names["section"]:
            return None
        beam, facing = self.space.places[names["place"].index(params["place"])]
        family = market.families[sheeting.family]
        wall = Wall(
            beam=beam,
            facing=facing,
            sheet=family,
            grain=sheeting.grain,
            split=sheeting.split,
            bays=sheeting.bays,
            section=market.sections[names["section"].index(params["section"])],
            mount=market.catalog.mounts[names["mount"].index(params["mount"])],
            mount_count=self.space.mount_counts[0],
            kicker_sheet=family,
            delivered=params["delivered"] == "yes",
            board_mm=params["board_mm"],
            kicker_mm=params["kicker_mm"],
            width_mm=params["width_mm"],
            screw_mm=self.space.screws_mm[0],
        )
        if not self._divides(wall):
            return None
        others = kicker_families(self.space, sheeting.family) if wall.kicker_mm else ()
        walls = [wall, *(replace(wall, kicker_sheet=market.families[n]) for n in others)]
        walls = [w for w in walls if splits_well(self.shop, w)] or walls
        best = min(walls, key=lambda w: cost_cents(self.shop, w))
        return best if cost_cents(self.shop, best) < UNAVAILABLE_CENTS else None

    def _divides(self, wall: Wall) -> bool:
        limits = self.space.market.limits
        columns = columns_of(wall.split, wall.width_mm, limits)
        return columns is not None and rows_of(wall.split, wall.board_mm, limits) is not None

    def _placed(self, wall: Wall, params: Params) -> Wall:
        """Return the wall with ties and eyes where they were chosen; old trials chose no places."""
        if "tie_place" in params:
            wall = tied_at(self.space, wall, params["tie_place"])
        if "eye_place" in params:
            wall = lifted_at(self.space, self.shop.place_index(wall), wall, params["eye_place"])
        return wall

    def _held(self, wall: Wall) -> Wall | float:
        """Return the wall with the cheapest mounts and screws that hold, or what is too much."""
        counts = [n for n in self.space.mount_counts if n <= wall.stud_count]
        screws = self.space.screws_mm
        options = [
            replace(wall, mount_count=count, screw_mm=screw, **_tied(wall, tie))
            for tie in self.space.ties
            for count in counts
            for screw in screws
        ]
        for option in sorted(options, key=lambda option: cost_cents(self.shop, option)):
            if holds(self.shop, option):
                return option
        strongest = replace(wall, mount_count=counts[-1], screw_mm=screws[-1])
        tied = (replace(strongest, **_tied(wall, tie)) for tie in self.space.ties)
        most = (worst_use(self.shop.tables, batch_of(self.shop, one)) for one in tied)
        return max(min(float(use[0]) for use in most) - 1.0, 1e-9)

    def params_of(self, design: Document) -> dict[str, Any] | None:
        """Return the choices behind a design of an exact search, None when they are others."""
        limits = self.space.market.limits
        rows, columns = tuple(design["row_lengths_mm"]), tuple(design["column_widths_mm"])
        lengths = {key: int(design[key]) for key in ("board_mm", "kicker_mm", "width_mm")}
        for (panel, split, grain, studs), sheeting in self._sheetings.items():
            family = self.space.market.families[sheeting.family]
            if (family.label, grain, studs) != (
                design["sheet"],
                design["grain"],
                design["stud_count"],
            ):
                continue
            if (
                rows_of(sheeting.split, lengths["board_mm"], limits) == rows
                and columns_of(sheeting.split, lengths["width_mm"], limits) == columns
            ):
                mounts = {m.name: m.sku for m in self.space.market.catalog.mounts}
                chosen = {
                    "place": f"{design['beam']} {design['facing']}",
                    "mount": mounts.get(design["mount"], ""),
                    "sheet": panel,
                    "split": split,
                    "grain": grain,
                    "section": design["stud"],
                    "delivered": "yes" if design["delivered"] else "no",
                    "studs": studs,
                    **lengths,
                }
                return chosen | self._places_of(design, chosen)
        return None

    def _places_of(self, design: Document, chosen: Params) -> dict[str, int]:
        """Return the choices of ties' and eyes' places behind a design, those of `ranges`."""
        wall, found = self._cheapest(chosen), dict[str, int]()
        if "tie_place" in self.ranges:
            at = design.get("tie_back", {}).get("at_mm")
            found["tie_place"] = PARTS // 2
            if wall is not None and at is not None:
                found["tie_place"] = tie_part(self.space, wall, at)
        if "eye_place" in self.ranges:
            found["eye_place"] = PARTS
            if wall is not None and design["lift"]:
                place, eye = self.shop.place_index(wall), design["lift"]["eye_mm"]
                found["eye_place"] = eye_part(self.space, place, wall, eye)
        return found


def _tied(wall: Wall, tie: Hardware | None) -> dict[str, Any]:
    """Return what changes of a wall when its studs are tied back by a set, or by none."""
    return {"tie": tie, "tie_at_mm": wall.tie_at_mm if tie else None}


def _split_name(sheeting: Sheeting) -> str:
    split = sheeting.split
    return f"{split.columns} ({split.full_column_mm}) x {split.rows} ({split.full_row_mm})"


def _broken(wall: Wall | None, values: tuple[float, float, float], what: str, by: float) -> Tried:
    return Tried(wall, values, {name: by if name == what else 0.0 for name in CONSTRAINTS})
