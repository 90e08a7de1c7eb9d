"""The base of the look-up tables: records whose fields are arrays of one shape."""

from __future__ import annotations

from dataclasses import fields
from typing import Any, Self


class Columns:
    """Base of records whose fields are arrays of one shape; `take` looks rows up."""

    __slots__ = ()

    def take(self, *index: Any) -> Self:
        """Return the record of the indexed rows, one array look-up per field."""
        where = index if len(index) > 1 else index[0]
        names = [f.name for f in fields(self)]  # type: ignore[arg-type]
        return type(self)(*(getattr(self, name)[where] for name in names))
