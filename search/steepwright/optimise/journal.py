"""The units a search has finished, one line each, so that a killed search can be taken up again.

Every line carries a checksum. A line that is cut off or damaged ends what is believed; it and all
behind it are done again. What is read are numbers only: a damaged or foreign file can waste time,
never run anything.

One search at a time has a journal. It holds the file as long as it runs, and its head says which
process that is; a second one is refused. The head is written over in one call when a search is
taken up.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import zlib
from collections.abc import Callable
from dataclasses import asdict, astuple
from pathlib import Path
from typing import Any, BinaryIO
from weakref import WeakSet

from steepwright.catalog.types import Catalog
from steepwright.errors import UsageError
from steepwright.optimise.branch import Tally
from steepwright.optimise.exact import SheetChoice
from steepwright.optimise.found import Found
from steepwright.optimise.front import Score
from steepwright.optimise.units import Harvest
from steepwright.room.types import Room
from steepwright.writing import held_elsewhere, naming

NAME = "search.journal"

FORMAT = "steepwright journal 3"

_BY = "process"


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

    Raises
    ------
    UsageError
        When another search has it open.
    """

    def __init__(self, path: Path, key: str, tell: Callable[[str], None]) -> None:
        self._path, self._key = path, key
        self._known: dict[tuple[int, int], Harvest] = {}
        self._made = [folder for folder in path.parents if not folder.exists()]
        path.parent.mkdir(parents=True, exist_ok=True)
        self._file = _held(path)
        _open_ones.add(self)
        head = _head(key, os.getpid())
        whole = self._read(head, tell)
        self._file.truncate(whole)
        self._file.seek(0)
        self._write(head)
        self._file.seek(max(whole, len(head)))

    def _read(self, head: bytes, tell: Callable[[str], None]) -> int:
        """Read what is whole and belongs to this search; return how many bytes that is."""
        lines = self._file.read().splitlines(keepends=True)
        if not lines or lines[0] != _head(self._key, _process(lines[0])):
            if lines:
                tell(f"{self._path}: from another search, begun anew")
            return 0
        whole = len(lines[0])
        for number, line in enumerate(lines[1:], start=2):
            try:
                index, harvest = _unpacked(_content(line, self._key))
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
        if os.name == "nt":  # which removes no open file
            self._file.close()
        self._path.unlink(missing_ok=True)  # still held, so it is no other search's
        self._file.close()
        with contextlib.suppress(OSError):
            for folder in self._made:
                folder.rmdir()


_open_ones: WeakSet[Journal] = WeakSet()


def _let_go() -> None:
    """Close the journals in a forked process, so that they are held no longer than asked for."""
    for journal in list(_open_ones):
        journal.close()


if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=_let_go)


def _held(path: Path) -> BinaryIO:
    """Open the file, made if need be, for one search alone.

    Unbuffered: every line is with the system before the next unit is looked at.
    """
    while True:
        file = open(path, "r+b", buffering=0, opener=_opened)  # noqa: SIM115  held as long as open
        if held_elsewhere(file):
            process = _process(file.readline())
            who = f"process {process}" if process else "another program"
            message = (
                f"{path}: {who} is searching into this folder. Wait until it is done, stop it, or"
                " give another folder with --out; what it has found so far stays."
            )
            raise UsageError(message)
        # The search that held it before may just have removed it.
        with contextlib.suppress(FileNotFoundError):
            if os.path.samestat(os.fstat(file.fileno()), path.stat()):
                return file
        file.close()


def _opened(path: str, flags: int) -> int:
    return os.open(path, flags | os.O_CREAT, 0o666)


def _head(key: str, process: int) -> bytes:
    """Return the first line, of the same length for every process."""
    return _line({"format": FORMAT, "key": key, _BY: f"{process:>10}"})


def _process(line: bytes) -> int:
    """Return which process wrote a first line; 0 for what isn't one."""
    try:
        return int(_content(line)[_BY])
    except (KeyError, TypeError, ValueError):
        return 0


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
