"""``steepwright new``: a room file and a catalogue to start from."""

from __future__ import annotations

import shlex
from pathlib import Path

import click

from steepwright.cli.console import note, out
from steepwright.errors import UsageError
from steepwright.resources import catalogs_dir, shipped_catalog_dir, write_whole

SHIPPED_LINE, OWN_LINE = 'catalog = ""        ', 'catalog = "catalog" '


EXAMPLE = """\b
Example:
  steepwright new loft
"""


@click.command(name="new", epilog=EXAMPLE)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
def new(folder: Path) -> None:
    """Start a room: a commented room.toml and a catalogue to edit.

    Writes DIR/room.toml and DIR/catalog, which run as they are, and DIR/wall.toml, one wall to
    assess. Room and prices are invented: put your own in. Files that are there already are never
    overwritten.
    """
    files = starter_files(folder)
    taken = [path for path in files if path.exists()]
    if taken or (folder.exists() and not folder.is_dir()):
        names = ", ".join(str(path) for path in taken or [folder])
        message = f"Nothing was written, because this is there already: {names}. Name another DIR."
        raise UsageError(message)
    for path, text in files.items():
        write_whole(path, text)
        out(str(path))
    note("The room and all prices in it are invented; measure and ask before you build.")
    out(f"Next: steepwright search {shlex.quote(str(folder / 'room.toml'))} --angle 40")


def starter_files(folder: Path) -> dict[Path, str]:
    """Return what `new` writes: path and text of each file."""
    example = catalogs_dir() / "example"
    room = (example / "room.toml").read_text(encoding="utf-8")
    if room.count(SHIPPED_LINE) != 1:
        message = "the shipped room.toml has no line for the shipped catalogue"
        raise LookupError(message)
    files = {
        folder / "room.toml": room.replace(SHIPPED_LINE, OWN_LINE),
        folder / "wall.toml": (example / "wall.toml").read_text(encoding="utf-8"),
    }
    for source in sorted(shipped_catalog_dir().iterdir()):
        if source.is_file():
            files[folder / "catalog" / source.name] = source.read_text(encoding="utf-8")
    return files
