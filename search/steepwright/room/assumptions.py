"""What the builder left open and we assumed: told once, kept on the room."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.build import known_grade
from steepwright.room.lines import KeyPath
from steepwright.room.parts import is_written
from steepwright.room.problems import Source

_DEFAULTS: tuple[tuple[str, str, str], ...] = (
    ("room", "service_class", "the room is heated (service class {})"),
    ("climber", "mass_kg", "the heaviest climber weighs {} kg"),
    ("climber", "dynamic_factor", "a climber loads the wall with {} times the weight"),
    ("wall", "min_fall_space_mm", "at least {} mm of clear floor in front of the lip are wanted"),
    ("wall", "side_passage_mm", "{} mm of clear passage beside the wall are wanted"),
    ("yard", "kerf_mm", "a saw cut is {} mm wide"),
)


def assumed(tables: schema.RoomFile, data: dict[str, Any], source: Source) -> Iterator[Finding]:
    """Yield an assumption for each value that matters to safety or cost and was not given."""
    for place, beam in enumerate(tables.beams):
        yield from _timber(beam, f"the beam “{beam.name}”", ("beams", place), source)
    for place, joists in enumerate(tables.joists):
        what = f"each of the joists “{joists.name}”"
        yield from _timber(joists, what, ("joists", place), source)
        if not joists.found:
            say = f"where the joists “{joists.name}” lie has not been verified"
            step = "Find both edges of each joist, then write found = true."
            yield _assumption(("joists", place, "found"), "joists-unverified", say, step, source)
    for place, slab in enumerate(tables.slabs):
        for key in ("anchor_rated_n", "anchor_least_mm"):
            if getattr(slab, key) is None:
                say = f"what an anchor in the slab “{slab.name}” bears or needs is not known"
                step = f"Take {key} from the anchor's approval; until then nothing is settled."
                yield _assumption(("slabs", place, key), "anchor-unknown", say, step, source)
    yield from _frames(tables, source)
    yield from _ledgers(tables, source)
    yield from _spreaders(tables, source)
    for table, key, sentence in _DEFAULTS:
        if not is_written(data, (table, key)):
            value = getattr(getattr(tables, table), key)
            say = "assumed, for it is not given: " + sentence.format(f"{value:g}")
            yield _assumption((table, key), "default", say, "Give your own value.", source)


def _frames(tables: schema.RoomFile, source: Source) -> Iterator[Finding]:
    for place, frame in enumerate(tables.frames):
        frame_path: KeyPath = ("frames", place)
        if known_grade(frame.grade) is None:
            say = f"the strength class of the frame “{frame.name}” is not known"
            step = "Buy timber with a stamp; until then the weakest class is taken."
            yield _assumption((*frame_path, "grade"), "grade-unknown", say, step, source)
        if frame.floor_rated_n is None:
            say = f"what holds the feet of the frame “{frame.name}” to the floor is not known"
            step = "Give floor_rated_n, the level load it is rated for; until then nothing hung"
            step += " from it is settled."
            yield _assumption((*frame_path, "floor_rated_n"), "floor-unknown", say, step, source)


def _ledgers(tables: schema.RoomFile, source: Source) -> Iterator[Finding]:
    for place, row in enumerate(tables.ledgers):
        path: KeyPath = ("ledgers", place)
        if known_grade(row.grade) is None:
            say = f"the strength class of the ledgers “{row.name}” and their beam is not known"
            step = "Buy timber with a stamp; until then the weakest class is taken."
            yield _assumption((*path, "grade"), "grade-unknown", say, step, source)
        if row.wall == "masonry" and row.anchor_rated_n is None:
            say = f"what an anchor of the ledgers “{row.name}” bears is not known"
            step = "Take anchor_rated_n from the anchor's approval; until then nothing is settled."
            yield _assumption((*path, "anchor_rated_n"), "anchor-unknown", say, step, source)


def _spreaders(tables: schema.RoomFile, source: Source) -> Iterator[Finding]:
    settle = "Nothing hung from them is settled until someone qualified has looked at them."
    for place, row in enumerate(tables.spreaders):
        path: KeyPath = ("spreaders", place)
        if known_grade(row.grade) is None:
            say = f"the strength class of the timber “{row.name}” is not known"
            step = "Buy timber with a stamp; until then the weakest class is taken."
            yield _assumption((*path, "grade"), "grade-unknown", say, step, source)
        if known_grade(row.joist_grade) is None:
            say = f"the strength class of the joists over “{row.name}” is not known"
            yield _assumption((*path, "joist_grade"), "grade-unknown", say, settle, source)
        if row.joist_load_n_per_m is None:
            say = f"what each of the joists over “{row.name}” already carries is not known"
            yield _assumption((*path, "joist_load_n_per_m"), "load-unknown", say, settle, source)
        if not row.found:
            say = f"where the joists over “{row.name}” lie has not been verified"
            step = "Find both edges of each joist, then write found = true."
            yield _assumption((*path, "found"), "joists-unverified", say, step, source)


def _timber(
    table: schema.BeamTable | schema.JoistsTable, what: str, path: KeyPath, source: Source
) -> Iterator[Finding]:
    it = "the beam" if isinstance(table, schema.BeamTable) else "the joists"
    settle = f"Nothing hung from it is settled until someone qualified has looked at {it}."
    if known_grade(table.grade) is None:
        say = f"the strength class of {what} is not known"
        yield _assumption((*path, "grade"), "grade-unknown", say, settle, source)
    if table.existing_load_n_per_m is None:
        say = f"what {what} already carries is not known"
        yield _assumption((*path, "existing_load_n_per_m"), "load-unknown", say, settle, source)


def _assumption(path: KeyPath, code: str, say: str, step: str, source: Source) -> Finding:
    base = source.finding(path, code, say, next_step=step)
    return Finding(
        base.code, "assumption", say, base.file, base.line, base.key, next_step=step
    )  # fmt: skip
