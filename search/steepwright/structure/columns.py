"""Records whose fields are arrays of one shape, and rows taken out of them."""

from __future__ import annotations

from typing import Any, Self, cast

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]


class Columns:
    """Base of records whose fields are arrays of one shape; `take` looks rows up."""

    __slots__ = ()

    def take(self, *index: IntArray) -> Self:
        """Return the record of the indexed rows; a field is looked up when first asked for."""
        return cast("Self", _Taken(self, index if len(index) > 1 else index[0]))


class _Taken:
    """Stands for the record that it takes from: most checks of a batch ask for a few fields."""

    def __init__(self, columns: object, where: IntArray | tuple[IntArray, ...]) -> None:
        self._columns, self._where = columns, where

    def __len__(self) -> int:
        return len(self._where[0] if isinstance(self._where, tuple) else self._where)

    def __getattr__(self, name: str) -> npt.NDArray[Any]:
        if name.startswith("_"):
            raise AttributeError(name)
        column: npt.NDArray[Any] = getattr(self._columns, name)[self._where]
        setattr(self, name, column)
        return column

    def take(self, *index: IntArray) -> _Taken:
        return _Taken(self, index if len(index) > 1 else index[0])
