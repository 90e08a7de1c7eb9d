"""The units a search has finished, one line each, so that a killed search can be taken up again.

Every line carries a checksum. A line that is cut off or damaged ends what is believed; it and all
behind it are done again. What is read are numbers only: a damaged or foreign file can waste time,
never run anything.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import zlib
from collections.abc import Callable
from dataclasses import asdict, astuple
from pathlib import Path
from typing import Any, BinaryIO

from steepwright.catalog.types import Catalog
from steepwright.optimise.branch import Tally
from steepwright.optimise.exact import SheetChoice
from steepwright.optimise.found import Found
from steepwright.optimise.front import Score
from steepwright.optimise.units import Harvest
from steepwright.room.types import Room
from steepwright.writing import naming

NAME = "search.journal"

FORMAT = "steepwright journal 2"


class Journal:
    """One search's journal, open for adding to.

    Parameters
    ----------
    path
        The file; it is begun anew when it belongs to another search.
    key
        What the search depends on, see `key_of`.
    tell
        Told what was found in the file, a sentence at a time.
    """

    def __init__(self, path: Path, key: str, tell: Callable[[str], None]) -> None:
        self._path, self._key = path, key
        self._known: dict[tuple[int, int], Harvest] = {}
        self._made = [folder for folder in path.parents if not folder.exists()]
        path.parent.mkdir(parents=True, exist_ok=True)
        whole = self._read(key, tell) if path.exists() else 0
        # Unbuffered: every line is with the system before the next unit is looked at.
        self._file: BinaryIO = path.open("r+b" if whole else "wb", buffering=0)
        self._file.seek(whole)
        self._file.truncate()
        if not whole:
            self._write(_line({"format": FORMAT, "key": key}))

    def _read(self, key: str, tell: Callable[[str], None]) -> int:
        """Read what is whole and belongs to this search; return how many bytes that is."""
        lines = self._path.read_bytes().splitlines(keepends=True)
        head = _content(lines[0]) if lines else None
        if head != {"format": FORMAT, "key": key}:
            if lines:
                tell(f"{self._path}: from another search, begun anew")
            return 0
        whole = len(lines[0])
        for number, line in enumerate(lines[1:], start=2):
            try:
                index, harvest = _unpacked(_content(line, key))
            except (KeyError, TypeError, ValueError):
                tell(f"{self._path}: line {number} is damaged; what follows is searched again")
                break
            self._known[index] = harvest
            whole += len(line)
        if self._known:
            tell(f"taking up a search of which {len(self._known)} parts are done")
        return whole

    def harvests(self, market: int) -> dict[int, Harvest]:
        """Return what the finished units of one market found, by their number."""
        return {
            unit: harvest for (number, unit), harvest in self._known.items() if number == market
        }

    def add(self, market: int, unit: int, harvest: Harvest) -> None:
        """Write down what a unit found."""
        self._write(_line(_packed((market, unit), harvest), self._key))

    def _write(self, line: bytes) -> None:
        with naming(self._path):
            self._file.write(line)

    def close(self) -> None:
        """Close the file and keep it."""
        self._file.close()

    def remove(self) -> None:
        """Remove the file, and folders made for it that are still empty: the search is done."""
        self._file.close()
        self._path.unlink(missing_ok=True)
        with contextlib.suppress(OSError):
            for folder in self._made:
                folder.rmdir()


def key_of(room: Room, catalog: Catalog) -> str:
    """Return a hash of all that a search depends on: room, catalogue and this program's text."""
    from steepwright.resources import program_hash

    inputs = json.dumps([asdict(room), asdict(catalog)], sort_keys=True, default=_sorted)
    return hashlib.sha256((program_hash() + inputs).encode()).hexdigest()


def _sorted(value: Any) -> Any:
    if isinstance(value, set | frozenset):
        return sorted(value)
    message = f"{type(value).__name__} has no place in a journal's key"
    raise TypeError(message)


def _packed(index: tuple[int, int], harvest: Harvest) -> dict[str, Any]:
    return {
        "market": index[0],
        "unit": index[1],
        "members": [[astuple(score), _numbers(found)] for score, found in harvest.members],
        "tally": astuple(harvest.tally),
    }


def _numbers(found: Found) -> list[Any]:
    *choice, sheets = (getattr(found, name) for name in Found.__slots__)
    return [*choice, sheets.cost_cents, sheets.kicker_family]


def _unpacked(row: Any) -> tuple[tuple[int, int], Harvest]:
    members = tuple((Score(*score), _found(numbers)) for score, numbers in row["members"])
    return (row["market"], row["unit"]), Harvest(members, Tally(*row["tally"]))


def _found(numbers: list[Any]) -> Found:
    *choice, cents, family = numbers
    return Found(*(*choice, SheetChoice(cents, family)))


def _line(row: dict[str, Any], key: str = "") -> bytes:
    """Return a line; its checksum is that of key and content, so that it holds for one search."""
    text = json.dumps(row, separators=(",", ":")).encode()
    return b"%08x %s\n" % (_check(text, key), text)


def _content(line: bytes, key: str = "") -> Any:
    """Return a line's content, None when the line is damaged, cut off or another search's."""
    check, _, text = line.rstrip(b"\n").partition(b" ")
    if not line.endswith(b"\n") or check != b"%08x" % _check(text, key):
        return None
    return json.loads(text)


def _check(text: bytes, key: str) -> int:
    return zlib.crc32(text, zlib.crc32(key.encode()))
