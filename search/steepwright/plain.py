"""Records as plain data, for documents and pages."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

_ATOMS = frozenset({str, int, float, bool, type(None)})


def plain(value: Any) -> Any:
    """Return a record as a dictionary and tuples as lists, also within; nothing is shared.

    What `dataclasses.asdict` does slowly, since it copies what can't be changed, too.
    """
    kind: Any = type(value)
    if kind in _ATOMS:
        return value
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    names = _names(kind)
    return value if names is None else {name: plain(getattr(value, name)) for name in names}


@cache
def _names(kind: type) -> tuple[str, ...] | None:
    """Return the names of a record's fields; None for what isn't a record."""
    return tuple(f.name for f in fields(kind)) if is_dataclass(kind) else None
