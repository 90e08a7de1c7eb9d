"""A room read back from the plain data of a document, which `asdict` made of it."""

from __future__ import annotations

import types
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from steepwright.room.types import Room

Record = TypeVar("Record")


def room_from_plain(data: Mapping[str, Any]) -> Room:
    """Return the room behind the room table of a designs.json.

    Raises
    ------
    ValueError
        When a key is missing that has no default, or a value is of another shape.
    """
    try:
        return _record(Room, data)
    except (KeyError, TypeError, AttributeError) as error:
        message = f"this is no room that steepwright wrote ({type(error).__name__}: {error})"
        raise ValueError(message) from error


def _record(kind: type[Record], data: Mapping[str, Any]) -> Record:
    hints = get_type_hints(kind)
    known = {f.name for f in fields(cast(Any, kind))}
    return kind(**{key: _value(hints[key], data[key]) for key in data if key in known})


def _value(kind: Any, value: Any) -> Any:
    if value is None:
        return None
    if get_origin(kind) in (Union, types.UnionType):
        kind = next(one for one in get_args(kind) if one is not type(None))
    if get_origin(kind) is tuple:
        inner = get_args(kind)
        each = inner[:1] * len(value) if inner[-1] is Ellipsis else inner
        return tuple(_value(one, item) for one, item in zip(each, value, strict=True))
    return _record(kind, value) if is_dataclass(kind) and isinstance(kind, type) else value
