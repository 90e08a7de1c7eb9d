"""The guided session's questions, how an answer is read and checked, and the file it ends in."""

from __future__ import annotations

import itertools
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel
from pydantic_core import PydanticCustomError

from steepwright.findings import Finding
from steepwright.room import schema
from steepwright.room.checks import check_things
from steepwright.room.checks_wall import check_wall
from steepwright.room.fields import Field, Flag, Pair, Real, Whole
from steepwright.room.lines import KeyPath
from steepwright.room.parts import good_parts
from steepwright.room.problems import Source, key_text

Data = dict[str, Any]

_TABLES: dict[str, type[BaseModel]] = {
    "room": schema.RoomTable,
    "beams": schema.BeamTable,
    "joists": schema.JoistsTable,
    "slabs": schema.SlabTable,
    "frames": schema.FrameTable,
    "climber": schema.ClimberTable,
    "wall": schema.WallTable,
    "access": schema.AccessTable,
    "doors": schema.DoorTable,
    "yard": schema.YardTable,
}

MOST_ROWS = {"beams": 12, "joists": 4, "slabs": 4, "frames": 4}
"""Tables of what a wall may hang from, and how many of each the session asks for.

More are written into the file by hand.
"""

HUNG = {
    "beams": ("name", "x_mm", "underside_mm", "width_mm", "depth_mm", "span_mm", "grade",
              "existing_load_n_per_m"),
    "joists": ("name", "first_mm", "spacing_mm", "count", "width_mm", "depth_mm", "span_mm",
               "grade", "existing_load_n_per_m", "lining_mm", "found"),
    "slabs": ("name", "first_mm", "spacing_mm", "count", "thickness_mm", "anchor_rated_n",
              "anchor_least_mm"),
    "frames": ("name", "first_mm", "spacing_mm", "count", "underside_mm", "width_mm", "depth_mm",
               "span_mm", "grade", "post_mm", "brace_mm", "brace_up_mm", "foot_mm",
               "floor_rated_n", "owned"),
}  # fmt: skip
"""What is asked of each, in order."""

_OFFERED = {
    "grade": "unknown",
    "existing_load_n_per_m": "",
    "lining_mm": "0",
    "found": "no",
    "anchor_rated_n": "",
    "anchor_least_mm": "",
    "floor_rated_n": "",
    "owned": "no",
}
_OFFERED_OF = {("frames", "spacing_mm"): "250", ("frames", "count"): "1"}

CALLED = {"beams": "beam", "joists": "joists", "slabs": "slab", "frames": "frame"}
"""What one table of each is called; with its number it is the name that is offered."""


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to be told: where it goes, and the answer that is offered ("" leaves it out)."""

    path: KeyPath
    offered: str | None = None

    @property
    def name(self) -> str:
        """What a flag calls it: the first beam's place is ``beams.1.x_mm``."""
        return ".".join(str(p + 1) if isinstance(p, int) else p for p in self.path)

    @property
    def words(self) -> str:
        """What it is, as the room file's own description has it."""
        about = (_model(self.path).model_fields[str(self.path[-1])].description or "").rstrip(".")
        kind = _kind(self.path)
        two = isinstance(kind, Pair) and not kind.single
        more = [", two numbers" if two else "", ", or nothing" if self.offered == "" else ""]
        which = "The last door on the way in. " if "doors" in self.path else ""
        return which + " ".join(about.split()) + "".join(more)

    @property
    def table(self) -> str:
        """The table of the room file that it belongs to."""
        return str(self.path[0])


def questions(rows: Mapping[str, int]) -> tuple[Question, ...]:
    """Return what is asked for a room, in order; `rows` counts what a wall may hang from."""
    asked = [Question(("room", "name"), "My room")]
    asked += [Question(("room", key)) for key in ("length_mm", "width_mm", "ceiling_mm")]
    for table, keys in HUNG.items():
        for n in range(rows.get(table, 0)):
            asked += [Question((table, n, key), _offered(table, n, key)) for key in keys]
    asked += [
        Question(("climber", "mass_kg"), "80"),
        Question(("climber", "span_mm"), "1750"),
        Question(("wall", "angle_deg"), "30 45"),
        Question(("wall", "kicker_mm"), "150 400"),
        Question(("wall", "fold_up"), "no" if rows.get("frames") else "yes"),
        Question(("wall", "min_fall_space_mm"), "2000"),
        # Last: with it the table is whole, and is held against the room.
        Question(("wall", "width_mm"), "1200 2400"),
        Question(("access", "max_piece_mm"), ""),
        Question(("access", "carriers"), "2"),
        Question(("access", "doors", 0, "width_mm"), ""),
        Question(("access", "doors", 0, "height_mm"), ""),
        Question(("yard", "vehicle_max_mm"), ""),
    ]
    return tuple(asked)


def _offered(table: str, number: int, key: str) -> str | None:
    if key == "name":
        return f"{CALLED[table]} {number + 1}"
    return _OFFERED_OF.get((table, key), _OFFERED.get(key))


def read_answer(question: Question, text: str) -> Any:
    """Return the answer as the room file holds it; None leaves the key out.

    Raises
    ------
    ValueError
        With what is wrong and what was expected, when it can't be that.
    """
    text = text.strip()
    if not text and question.offered == "":
        return None
    kind = _kind(question.path)
    try:
        kind.check(value := _value(kind, text))
    except PydanticCustomError as error:
        about = error.context or {}
        parts = [str(about.get("say", "")), f"expected: {about.get('expected', '')}"]
        message = "; ".join(part for part in parts if part)
        raise ValueError(message) from None
    return value


def trouble(data: Data) -> Finding | None:
    """Return the first thing that does not fit together among the answers so far."""
    parts = good_parts(data)
    source = Source("your answers")
    found = (f for check in (check_things, check_wall) for f in check(parts, source))
    return next((f for f in found if f.severity == "error"), None)


def put(data: Data, path: KeyPath, value: Any) -> Data:
    """Return the answers with one more; None takes it out."""
    here: Any = json.loads(json.dumps(data))
    top = here
    for part, following in itertools.pairwise(path):
        empty: Any = [] if isinstance(following, int) else {}
        if isinstance(part, int):
            here.extend({} for _ in range(part + 1 - len(here)))
            here = here[part]
        else:
            here = here.setdefault(part, empty)
    if value is None:
        here.pop(path[-1], None)
    else:
        here[path[-1]] = value
    return dict(top)


def blamed(finding: Finding, asked: tuple[Question, ...]) -> list[Question]:
    """Return the questions whose answers a finding is about, if any.

    A row that goes beyond the room may begin too far off, or be too long.
    """
    wrong = [q for q in asked if key_text(q.path) == finding.key]
    rows = [q.path[:-1] for q in wrong if q.path[-1] == "first_mm"]
    return wrong + [q for q in asked if q.path[:-1] in rows and q.path[-1] == "count"]


def room_text(data: Data) -> str:
    """Return the answers as a commented room file, with the copied catalogue beside it."""
    data = put(data, ("yard", "catalog"), "catalog")
    door = data.get("access", {}).get("doors", [{}])[0]
    if "width_mm" not in door or "height_mm" not in door:
        data.get("access", {}).pop("doors", None)
    else:
        door.setdefault("name", "door")
    rows = [
        "# Written by steepwright new --ask. x runs along the room, y across it, z up from the",
        "# finished floor; lengths are whole millimetres. What else may stand here shows in the",
        "# room.toml that steepwright new writes without --ask. A wall can hurt someone: nothing",
        "# that comes out of this file is an approval.",
    ]
    for name in ("room", *HUNG, "access", "climber", "wall", "yard"):
        if name in HUNG and name not in data:
            continue
        tables = data.get(name, {})
        for table in tables if isinstance(tables, list) else [tables]:
            mark = f"[[{name}]]" if isinstance(tables, list) else f"[{name}]"
            rows += ["", mark, *_keys(name, table)]
            for inner in table.get("doors", []):
                rows += ["", "[[access.doors]]", *_keys("doors", inner)]
    return "\n".join(rows) + "\n"


def _keys(table: str, values: Mapping[str, Any]) -> list[str]:
    fields = _TABLES[table].model_fields
    return [
        f"{key} = {_toml(value)}  # {' '.join((fields[key].description or '').split())}"
        for key, value in values.items()
        if key != "doors"
    ]


def _toml(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def _model(path: KeyPath) -> type[BaseModel]:
    names = [part for part in path[:-1] if isinstance(part, str)]
    return _TABLES[names[-1]]


def _kind(path: KeyPath) -> Field:
    about = _model(path).model_fields[str(path[-1])]
    return next(item for item in about.metadata if isinstance(item, Field))


def _value(kind: Field, text: str) -> Any:
    """Return an answer's text as the value that its kind checks."""
    if isinstance(kind, Flag):
        return {"yes": True, "y": True, "no": False, "n": False}.get(text.lower(), text)
    if isinstance(kind, Pair):
        between = r"[,;]+" if re.search(r"['′’\"″”a-wyz]", text) else r"[\s,;x]+"
        values = [_number(part.strip()) for part in re.split(between, text.strip("[] ")) if part]
        return values[0] if kind.single and len(values) == 1 else values
    return _number(text) if isinstance(kind, Whole | Real) else text


def _number(text: str) -> Any:
    try:
        number = float(text)
    except ValueError:
        return text
    return int(number) if number.is_integer() else number
