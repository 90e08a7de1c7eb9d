"""``steepwright new``: a room file and a catalogue to start from."""

from __future__ import annotations

import shlex
from pathlib import Path

import click

from steepwright.cli.asking import asked_room, given_answers
from steepwright.cli.console import note, out
from steepwright.errors import UsageError
from steepwright.resources import catalogs_dir, shipped_catalog_dir
from steepwright.room.questions import room_text, wall_text
from steepwright.writing import write_together

SHIPPED_LINE, OWN_LINE = 'catalog = ""        ', 'catalog = "catalog" '


EXAMPLE = """\b
Example:
  steepwright new loft
  steepwright new loft --ask
"""


@click.command(name="new", epilog=EXAMPLE)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--ask", is_flag=True, help="Ask for every measure, with a sketch of it.")
@click.option(
    "--answer",
    "answers",
    multiple=True,
    metavar="KEY=VALUE",
    help="An answer beforehand, such as room.length_mm=6400, joists=1 or beams.1.x_mm=1890; "
    "with --ask.",
)
def new(folder: Path, ask: bool, answers: tuple[str, ...]) -> None:
    """Start a room: a commented room.toml and a catalogue to edit.

    Writes DIR/room.toml and DIR/catalog, which run as they are, and DIR/wall.toml, one wall to
    assess. Room and prices are invented: put your own in. Files that are there already are never
    overwritten.

    With --ask you are taken through measuring your room instead, in mm or in feet and inches;
    room.toml and wall.toml hold your answers, and where the NDS is to be followed DIR/catalog is
    the North American yard. Nothing is written before the last one. Every answer can be given by
    --answer: beams=, joists=, slabs= and frames= say how many there are of what a wall could
    hang from.
    """
    if answers and not ask:
        message = "--answer goes with --ask."
        raise UsageError(message)
    given, angle = given_answers(answers), 40
    files = starter_files(folder)
    taken = [path for path in files if path.exists()]
    if taken or (folder.exists() and not folder.is_dir()):
        names = ", ".join(str(path) for path in taken or [folder])
        message = f"Nothing was written, because this is there already: {names}. Name another DIR."
        raise UsageError(message)
    if ask:
        data = asked_room(given)
        if data["room"]["code"] == "NDS":
            files |= catalog_files(folder, catalogs_dir() / "yard-na")
        angle = data["wall"]["angle_deg"][0]
        files[folder / "room.toml"] = room_text(data)
        files[folder / "wall.toml"] = wall_text(data)
    write_together(files)
    for path in files:
        out(str(path))
    invented = "All prices in it" if ask else "The room and all prices in it"
    note(f"{invented} are invented; measure and ask before you build.")
    out(f"Next: steepwright search {shlex.quote(str(folder / 'room.toml'))} --angle {angle:g}")


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
    return files | catalog_files(folder, shipped_catalog_dir())


def catalog_files(folder: Path, yard: Path) -> dict[Path, str]:
    """Return path and text of each file of a shipped yard, as `new` copies it."""
    return {
        folder / "catalog" / source.name: source.read_text(encoding="utf-8")
        for source in sorted(yard.iterdir())
        if source.is_file()
    }
