"""Reading a command's room and catalogue, and telling the problems of both at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from steepwright.errors import InputError

if TYPE_CHECKING:
    from steepwright.catalog.types import Catalog
    from steepwright.room import Room

Read = TypeVar("Read")


def read_both(room_file: Path, catalog_dir: Path | None) -> tuple[Room, Catalog]:
    """Return room and catalogue, checked alone and against each other.

    `catalog_dir` takes the place of the folder that the room file names; None leaves it.

    Raises
    ------
    InputError
        With every problem of both.
    """
    from steepwright.catalog import read_catalog
    from steepwright.room import catalog_folder, check_with_catalog, read_room

    problems: list[InputError] = []
    room = _attempt(lambda: read_room(room_file), problems)
    folder = catalog_dir if room is None or catalog_dir is not None else catalog_folder(room)
    catalog = None
    if folder is not None:
        catalog = _attempt(lambda: read_catalog(folder), problems)
    if room is None or catalog is None:
        raise _together(problems)
    check_with_catalog(room, catalog)
    return room, catalog


def read_pairs(
    room_files: Sequence[Path], catalog_dirs: Sequence[Path]
) -> list[tuple[Room, Catalog, tuple[Path, Path]]]:
    """Return every room with every catalogue, or with the one it names when none is given.

    With each stands whence it was read: room file and catalogue's folder.

    Raises
    ------
    InputError
        With every problem of all files, each told once.
    """
    from steepwright.catalog import read_catalog
    from steepwright.room import catalog_folder, check_with_catalog, read_room

    problems: list[InputError] = []
    found = [_attempt(partial(read_room, file), problems) for file in room_files]
    rooms = [(f, room) for f, room in zip(room_files, found, strict=True) if room is not None]
    folders = [tuple(catalog_dirs) or (catalog_folder(room),) for _, room in rooms]
    every = dict.fromkeys([*catalog_dirs, *(one for many in folders for one in many)])
    catalogs = {folder: _attempt(partial(read_catalog, folder), problems) for folder in every}
    pairs = []
    for (file, room), its in zip(rooms, folders, strict=True):
        for folder in its:
            catalog = catalogs[folder]
            if catalog is not None:
                _attempt(partial(check_with_catalog, room, catalog), problems)
                pairs.append((room, catalog, (file, folder)))
    if problems:
        raise _together(problems)
    return pairs


def _attempt(read: Callable[[], Read], problems: list[InputError]) -> Read | None:
    try:
        return read()
    except InputError as error:
        problems.append(error)
        return None


def _together(problems: list[InputError]) -> InputError:
    message = "\n".join(str(problem) for problem in problems)
    return InputError(message, tuple(f for problem in problems for f in problem.findings))
