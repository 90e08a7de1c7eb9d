"""Reading a room file: text, tables, cross checks, records; every problem told at once."""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from steepwright.errors import InputError
from steepwright.findings import Findings
from steepwright.resources import shipped_catalog_dir
from steepwright.room.assumptions import assumed
from steepwright.room.build import build_room
from steepwright.room.checks import check_hung, check_things
from steepwright.room.checks_wall import check_wall, check_yard
from steepwright.room.parts import good_parts
from steepwright.room.problems import Source, model_findings, says_inches
from steepwright.room.schema import RoomFile
from steepwright.room.syntax import parse_toml, read_text
from steepwright.room.types import Room


def read_room(path: Path) -> Room:
    """Return the room that a TOML file describes.

    Parameters
    ----------
    path
        The file; a relative catalogue folder in it counts from the file's own folder.

    Returns
    -------
    Room
        With assumptions (unknown grades and loads, defaults that matter) as its findings.

    Raises
    ------
    InputError
        With every problem of the file, each with line, key, value seen, what was expected and
        the next step.
    """
    path = Path(path)
    findings = Findings()
    what = f"The room file {path}"
    text = read_text(path, "room file", findings)
    document = None if text is None else parse_toml(text, str(path), findings)
    tables: RoomFile | None = None
    if document is not None:
        source = Source(str(path), document, inches=says_inches(document.data))
        parts = good_parts(document.data)
        try:
            tables = RoomFile.model_validate(document.data)
        except ValidationError as error:
            findings.extend(model_findings(error, RoomFile, source))
        findings.extend(check_hung(source))
        for check in (check_things, check_wall, check_yard):
            findings.extend(check(parts, source))
        if tables is not None:
            findings.extend(assumed(tables, document.data, source))
    findings.raise_if_errors(what)
    if tables is None:  # every way to here has left an error behind
        message = f"{what} can't be read"
        raise InputError(message, findings.sorted())
    return build_room(tables, str(path), findings.sorted())


def catalog_folder(room: Room) -> Path:
    """Return the folder of the room's catalogue: named relative to the room file, or shipped."""
    if not room.yard.catalog:
        return shipped_catalog_dir()
    return Path(room.file).parent / room.yard.catalog
