"""Looks up whole columns of keys at once, and reads masks."""

from __future__ import annotations

import base64
import zlib
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]


def looked_up(known: dict[tuple[int, ...], int], keys: Sequence[IntArray]) -> IntArray:
    """Return the known value of every row of the keys, 0 where there is none."""
    if not len(keys[0]) or not known:
        return np.zeros(len(keys[0]), dtype=np.int64)
    sizes = tuple(int(key.max()) + 1 for key in keys)
    flat = np.ravel_multi_index(tuple(keys), sizes)
    unique, index = np.unique(flat, return_inverse=True)
    rows = np.stack(np.unravel_index(unique, sizes)).T.tolist()
    return np.array([known.get(tuple(row), 0) for row in rows], dtype=np.int64)[index]


def unpacked(text: str, count: int) -> npt.NDArray[np.bool_]:
    """Return the first so many bits of a mask: packed, zlib, base 64."""
    bits = np.frombuffer(zlib.decompress(base64.b64decode(text, validate=True)), np.uint8)
    return np.unpackbits(bits)[:count].astype(np.bool_)
