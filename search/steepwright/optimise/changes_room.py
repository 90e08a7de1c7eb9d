"""Changes of the room, of what is asked for and of the way in."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace
from typing import Any

from steepwright.catalog.types import Catalog
from steepwright.geometry import carry_limit_kg
from steepwright.optimise.changes_types import Change, always
from steepwright.room.types import Access, Beam, Room

Group = tuple[Change, ...]

WAYS = ("doors", "corridors", "stairs", "landings", "lifts", "windows")
"""The tables of narrow places; what has ``width`` in its name lies across the way."""


def beam_changes(room: Room, catalog: Catalog) -> list[Group]:
    """Return each beam higher, and every mount hanging lower."""
    by = int(catalog.materials.factors["change_beam_mm"])
    beams = [(number, beam) for number, beam in enumerate(room.beams) if beam.seen]
    higher = tuple(_higher(number, beam, by) for number, beam in beams)

    def lower(room: Room, catalog: Catalog) -> tuple[Room, Catalog]:
        mounts = tuple(replace(mount, drop_mm=mount.drop_mm + by) for mount in catalog.mounts)
        return room, replace(catalog, mounts=mounts)

    words = f"With mounts that hang {by} mm lower at the same price"
    return [*([higher] if higher else []), (Change("Longer mounts", words, lower, always),)]


def _higher(number: int, beam: Beam, by_mm: int) -> Change:
    def change(room: Room, catalog: Catalog) -> tuple[Room, Catalog]:
        old = room.beams[number]
        left, right = old.underside_mm
        new = replace(old, underside_mm=(left + by_mm, right + by_mm))
        beams = (*room.beams[:number], new, *room.beams[number + 1 :])
        return replace(room, beams=beams), catalog

    return Change(
        "A higher beam",
        f"With the beam “{beam.name}” {by_mm} mm higher",
        change,
        lambda _, better: better.beam == beam.name,
    )


def asked_changes(room: Room, catalog: Catalog) -> list[Group]:
    """Return what is asked for, a little less strict: fall space, angles and kicker; width."""
    factors, wall = catalog.materials.factors, room.wall
    fall, step = int(factors["change_fall_mm"]), int(factors["change_length_mm"])
    turn = factors["change_angle_deg"]
    least, most = wall.angle_deg
    limits: list[Change] = []
    if wall.min_fall_space_mm >= fall:
        words = f"With {fall} mm less fall space asked for"
        limits.append(_asked("Less fall space", words, min_fall_space_mm=-fall))
    wider = -min(turn, least), turn
    words = f"With angles from {least + wider[0]:g} to {most + turn:g} degrees allowed"
    limits.append(_asked("A wider range of angles", words, angle_deg=wider))
    low, high = wall.kicker_mm
    words = f"With a kicker of up to {high + step} mm allowed"
    limits.append(_asked("A higher kicker", words, kicker_mm=(0, step)))
    if low >= step:
        words = f"With a kicker of {low - step} mm allowed"
        limits.append(_asked("A lower kicker", words, kicker_mm=(-step, 0)))
    if wall.width_mm[0] > 2 * step and not wall.min_width_spans:
        words = f"With a width of {wall.width_mm[0] - step} mm allowed"
        limits.append(_asked("A narrower wall", words, width_mm=(-step, 0)))
    return [(change,) for change in limits]


def _asked(what: str, words: str, **by: Any) -> Change:
    """Return the change of limits by so much."""

    def moved(now: Any, by: Any) -> Any:
        if isinstance(by, tuple):
            return tuple(one + more for one, more in zip(now, by, strict=True))
        return now + by

    def change(room: Room, catalog: Catalog) -> tuple[Room, Catalog]:
        values = {name: moved(getattr(room.wall, name), step) for name, step in by.items()}
        return replace(room, wall=replace(room.wall, **values)), catalog

    return Change(what, words, change, always)


def way_changes(room: Room, catalog: Catalog) -> list[Group]:
    """Return a wider way in, one more pair of hands and a larger vehicle."""
    by = int(catalog.materials.factors["change_way_mm"])
    access = room.access
    ways = []
    if access.max_piece_mm is not None:
        long, short = access.max_piece_mm
        words = f"If pieces of {long + by} x {short + by} mm get in"
        ways.append(_way("A larger piece", words, _larger_piece(by)))
    if any(getattr(access, table) for table in WAYS):
        words = f"If every narrow place on the way in were {by} mm wider"
        ways.append(_way("A wider way in", words, _wider(by)))
    factors, more = catalog.materials.factors, access.carriers + 1
    if carry_limit_kg(replace(access, carriers=more), factors) > carry_limit_kg(access, factors):
        words = f"With {more} people to carry"
        ways.append(_way("One more to carry", words, lambda a: replace(a, carriers=more)))
    groups: list[Group] = [tuple(ways)] if ways else []
    if room.yard.vehicle_max_mm is not None:
        groups.append((Change("A larger vehicle", "With a vehicle that takes all", _van, always),))
    return groups


def _van(room: Room, catalog: Catalog) -> tuple[Room, Catalog]:
    return replace(room, yard=replace(room.yard, vehicle_max_mm=None)), catalog


def _way(what: str, words: str, wider: Callable[[Access], Access]) -> Change:
    def change(room: Room, catalog: Catalog) -> tuple[Room, Catalog]:
        return replace(room, access=wider(room.access)), catalog

    return Change(what, words, change, always)


def _larger_piece(by_mm: int) -> Callable[[Access], Access]:
    def wider(access: Access) -> Access:
        long, short = access.max_piece_mm or (0, 0)
        return replace(access, max_piece_mm=(long + by_mm, short + by_mm))

    return wider


def _wider(by_mm: int) -> Callable[[Access], Access]:
    def wider(access: Access) -> Access:
        rows: dict[str, Any] = {
            table: tuple(widened(place, by_mm) for place in getattr(access, table))
            for table in WAYS
        }
        return replace(access, **rows)

    return wider


def widened(place: Any, by_mm: int) -> Any:
    """Return a narrow place so much wider [mm] in all that lies across the way."""
    across = [field.name for field in fields(place) if "width" in field.name]
    return replace(place, **{name: getattr(place, name) + by_mm for name in across})
