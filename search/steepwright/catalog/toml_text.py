"""TOML text as data: one kind of error for all that may be wrong with it."""

from __future__ import annotations

import tomllib
from typing import Any

_EXTREME = "this can't be read as TOML: a number is very long, or very many brackets are open"


def toml_data(text: str) -> dict[str, Any]:
    """Return the data of TOML text.

    Raises
    ------
    ValueError
        When it is no TOML, with the place; also for numbers of thousands of digits and for lists
        nested thousands deep, at which `tomllib` fails otherwise.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        raise
    except (ValueError, RecursionError, OverflowError):
        raise ValueError(_EXTREME) from None
