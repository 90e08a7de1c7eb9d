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
    "climber": schema.ClimberTable,
    "wall": schema.WallTable,
    "access": schema.AccessTable,
    "doors": schema.DoorTable,
    "yard": schema.YardTable,
}

MOST_BEAMS = 12
"""Beams that the session asks for; more are written into the file by hand."""


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


def questions(beams: int) -> tuple[Question, ...]:
    """Return what is asked for a room with so many beams, in order."""
    asked = [Question(("room", "name"), "My room")]
    asked += [Question(("room", key)) for key in ("length_mm", "width_mm", "ceiling_mm")]
    for n in range(beams):
        asked.append(Question(("beams", n, "name"), f"beam {n + 1}"))
        keys = ("x_mm", "underside_mm", "width_mm", "depth_mm", "span_mm")
        asked += [Question(("beams", n, key)) for key in keys]
        asked.append(Question(("beams", n, "grade"), "unknown"))
        asked.append(Question(("beams", n, "existing_load_n_per_m"), ""))
    asked += [
        Question(("climber", "mass_kg"), "80"),
        Question(("climber", "span_mm"), "1750"),
        Question(("wall", "angle_deg"), "30 45"),
        Question(("wall", "kicker_mm"), "150 400"),
        Question(("wall", "width_mm"), "1200 2400"),
        Question(("wall", "fold_up"), "yes"),
        Question(("wall", "min_fall_space_mm"), "2000"),
        Question(("access", "max_piece_mm"), ""),
        Question(("access", "carriers"), "2"),
        Question(("access", "doors", 0, "width_mm"), ""),
        Question(("access", "doors", 0, "height_mm"), ""),
        Question(("yard", "vehicle_max_mm"), ""),
    ]
    return tuple(asked)


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


def blamed(finding: Finding, asked: tuple[Question, ...]) -> Question | None:
    """Return the question whose answer a finding is about."""
    return next((q for q in asked if key_text(q.path) == finding.key), None)


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
    for name in ("room", "beams", "access", "climber", "wall", "yard"):
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
