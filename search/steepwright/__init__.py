"""Plan an overhanging home climbing wall and know that nothing cheaper or steeper was missed.

``from steepwright import read_room, read_catalog, search, search_many, assess`` are the public
verbs; they load their libraries only when asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from steepwright.catalog import read_catalog
    from steepwright.optimise import assess, search, search_many
    from steepwright.room import read_room

__version__ = "0.1.0"
__all__ = ["__version__", "assess", "read_catalog", "read_room", "search", "search_many"]

_HOMES = {
    "read_room": "steepwright.room",
    "read_catalog": "steepwright.catalog",
    "search": "steepwright.optimise",
    "search_many": "steepwright.optimise",
    "assess": "steepwright.optimise",
}


def __getattr__(name: str) -> Any:
    """Load a public verb when it is first used, so that ``--help`` stays light."""
    if name not in _HOMES:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    import importlib

    return getattr(importlib.import_module(_HOMES[name]), name)
