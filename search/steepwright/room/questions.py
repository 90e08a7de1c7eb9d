"""The guided session's questions, how an answer is read and checked, and the file it ends in."""

from __future__ import annotations

import itertools
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from pydantic import BaseModel
from pydantic_core import PydanticCustomError

from steepwright.findings import Finding
from steepwright.imperial import lengths_written
from steepwright.room import schema
from steepwright.room.checks import check_things
from steepwright.room.checks_wall import check_wall
from steepwright.room.fields import Choice, Field, Flag, Pair, Real, Whole
from steepwright.room.lines import KeyPath
from steepwright.room.parts import good_parts
from steepwright.room.problems import Source, key_text, says_inches
from steepwright.room.told import in_room_units

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
    "stairs": schema.StairTable,
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
_IN_INCHES = {
    "span_mm": "5 ft 9 in",
    "mass_kg": "175 lb",
    "kicker_mm": "8 in, 16 in",
    "min_fall_space_mm": "6 ft 6 in",
    "width_mm": "4 ft, 8 ft",
    "spacing_mm": "10 in",
}
"""What is offered to who measures in inches where millimetres are offered to others."""
_CUSTOMARY = {
    "_mm": ("[mm]", "[feet and inches]", "8 ft 2 1/2 in or 2500 mm"),
    "_kg": ("[kg]", "[lb]", "165 lb or 75 kg"),
    "_n_per_m": ("[N per m", "[lb/ft", "60 lb/ft or 900 N/m"),
}
"""By the ends of keys: the unit in words, that of who measures in inches, and answers with both."""

_WAYS = {"doors": "The last door on the way in. ", "stairs": "The worst stairs on the way in. "}
"""What is asked of the way in once, each ended by an empty first answer."""

_STAIRS = (
    "width_mm", "headroom_mm", "rise_mm", "going_mm", "height_below_mm", "height_above_mm",
)  # fmt: skip
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
        which = next((_WAYS[part] for part in self.path if part in _WAYS), "")
        return which + " ".join(about.split()) + "".join(more)

    @property
    def table(self) -> str:
        """The table of the room file that it belongs to."""
        return str(self.path[0])


def questions(rows: Mapping[str, int], units: str = "mm") -> tuple[Question, ...]:
    """Return what is asked for a room, in order.

    `rows` counts what a wall may hang from; with the `units` "inch" other answers are offered, but
    no other questions. The units are asked first of all.
    """
    nds = units == "inch" and not rows.get("frames")
    asked = [
        Question(("room", "units"), "mm"),
        Question(("room", "name"), "My room"),
        Question(("room", "code"), "NDS" if nds else "EN 1995"),
        Question(("room", "service_class"), "1"),
    ]
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
        *(Question(("access", "stairs", 0, key), "") for key in _STAIRS),
        Question(("yard", "vehicle_max_mm"), ""),
    ]
    return tuple(map(_in_inches, asked) if units == "inch" else asked)


def _in_inches(question: Question) -> Question:
    offered = _IN_INCHES.get(str(question.path[-1]))
    return replace(question, offered=offered) if offered and question.offered else question


def words_for(question: Question, inches: bool) -> str:
    """Return what a question asks for, with the unit in which it is answered."""
    words = question.words
    for metric, customary, _ in _CUSTOMARY.values() if inches else ():
        words = words.replace(metric, customary)
    return words


def lacks_unit(question: Question, value: Any) -> str:
    """Return how to write an answer of who measures in inches; nothing if it has its unit, or is 0.

    A number alone would count as millimetres, kilograms or newtons.
    """
    key = str(question.path[-1])
    example = next((one[-1] for end, one in _CUSTOMARY.items() if key.endswith(end)), "")
    values = value if isinstance(value, list) else [value]
    return example if any(isinstance(one, int | float) and one for one in values) else ""


def needless(question: Question, value: Any, waiting: Question) -> bool:
    """Tell whether a question need not be asked, as there is no such door or flight of stairs."""
    kind = question.path[1]
    return value is None and kind in _WAYS and waiting.path[:3] == question.path[:3]


def _offered(table: str, number: int, key: str) -> str | None:
    if key == "name":
        return f"{CALLED[table]} {number + 1}"
    return _OFFERED_OF.get((table, key), _OFFERED.get(key))


def read_answer(question: Question, text: str, inches: bool = False) -> Any:
    """Return the answer as the room file holds it; None leaves the key out.

    With `inches` what was expected is told in feet and inches.

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
        say, expected = (str(about.get(part, "")) for part in ("say", "expected"))
        found = Finding(error.type, "error", say, key=question.name, expected=expected)
        found = in_room_units(found) if inches else found
        message = f"{found.message}; expected: {found.expected}"
        raise ValueError(message) from None
    return value


def trouble(data: Data) -> Finding | None:
    """Return the first thing that does not fit together among the answers so far."""
    parts = good_parts(data)
    source = Source("your answers", inches=says_inches(data))
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
    for way in _WAYS:
        table = data.get("access", {}).get(way, [{}])[0]
        asked = ("width_mm", "height_mm") if way == "doors" else _STAIRS
        if set(asked) <= set(table):
            table["name"] = way.removesuffix("s") if way == "doors" else way
        else:
            data.get("access", {}).pop(way, None)
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
            for way in _WAYS:
                for inner in table.get(way, []):
                    rows += ["", f"[[access.{way}]]", *_keys(way, inner)]
    return "\n".join(rows) + "\n"


def wall_text(data: Data) -> str:
    """Return a design file for `assess` of one wall in the answered room, to be changed by hand."""
    wall = data["wall"]
    table = next(name for name in HUNG if data.get(name))
    first = data[table][0]
    beam = first["name"] if table == "beams" else f"{first['name']} 1"
    rows = [
        "# One wall for the room beside this file: steepwright assess room.toml --design wall.toml",
        "# What is left out, the checks assume and tell. Change what you have in mind.",
        "",
        f"angle_deg = {_toml(wall['angle_deg'][0])}  # or board_mm, the board's length",
        f"kicker_mm = {_toml(wall['kicker_mm'][0])}",
        f"width_mm = {_toml(wall['width_mm'][0])}",
        f"beam = {_toml(beam)}  # a beam's name, as in room.toml",
        "rows = 2  # board pieces above each other; 1 where a whole sheet is long enough",
        "# Names of these are in the catalogue; a wrong one gets you the list of them:",
        '# sheet = "birch 18 mm"',
        '# stud = "..."',
        "# stud_count = 4",
        '# mount = "..."',
        "# mount_count = 2",
    ]
    return "\n".join(rows) + "\n"


def _keys(table: str, values: Mapping[str, Any]) -> list[str]:
    fields = _TABLES[table].model_fields
    return [
        f"{key} = {_toml(value)}  # {' '.join((fields[key].description or '').split())}"
        for key, value in values.items()
        if key not in _WAYS
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
        if written := lengths_written(text.strip("[] ")):
            return written[0] if kind.single and len(written) == 1 else written
        between = r"[,;]+" if re.search(r"['′’\"″”a-wyz]", text) else r"[\s,;x]+"
        values = [_number(part.strip()) for part in re.split(between, text.strip("[] ")) if part]
        return values[0] if kind.single and len(values) == 1 else values
    if isinstance(kind, Choice):
        return next((word for word in kind.words if word.lower() == text.lower()), text)
    return _number(text) if isinstance(kind, Whole | Real) else text


def _number(text: str) -> Any:
    try:
        number = float(text)
    except ValueError:
        return text
    return int(number) if number.is_integer() else number
