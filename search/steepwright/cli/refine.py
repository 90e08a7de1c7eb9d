"""``steepwright refine``: what a grid of 1 mm gains round one design of a finished search."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from steepwright.cli.console import out
from steepwright.cli.options import FOLDER, quiet_option, workers_option
from steepwright.cli.progress import telling
from steepwright.errors import InputError, UsageError

EXAMPLE = """\b
Example:
  steepwright refine reports/loft --design W01
"""


@click.command(name="refine", epilog=EXAMPLE)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--design", "name", metavar="ID", required=True, help="The design, such as W17.")
@click.option(
    "--catalog",
    "catalog_dir",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="The catalogue that was searched  [default: the shipped one].",
)
@click.option(
    "--out",
    "out_dir",
    metavar="DIR",
    type=FOLDER,
    help="Where to write the report  [default: refined-ID in DIR].",
)
@workers_option
@quiet_option
def refine(folder: Path, name: str, **options: Any) -> int:
    """Look at all walls near one design by the millimetre, exactly.

    DIR is what a search has written. Prints what the finer grid saves or gains, and writes the
    walls found as a report of their own.
    """
    from steepwright.catalog import read_catalog
    from steepwright.optimise.refine import refine as run
    from steepwright.optimise.refine import what_it_gains
    from steepwright.report import write_outputs
    from steepwright.report.finished import read_document
    from steepwright.room.plain import room_from_plain

    document = read_document(folder)
    design = next((d for d in document["designs"] if d["id"] == name), None)
    if design is None:
        message = f"--design {name}: {folder} has no such design; its designs.csv lists them"
        raise UsageError(message)
    try:
        room = room_from_plain(document["room"])
    except ValueError as error:
        message = f"{folder / 'designs.json'}: {error}. Run steepwright search once more."
        raise InputError(message) from error
    if room.yard.catalog and options["catalog_dir"] is None:
        message = f"--catalog: name the folder of the catalogue {document['catalog']['name']!r}"
        raise UsageError(message)
    catalog = read_catalog(options["catalog_dir"]) if options["catalog_dir"] else read_catalog()
    _same_prices(document, catalog.name, catalog.date)
    with telling(options["quiet"]) as progress:
        fine = run(room, catalog, design, workers=options["workers"], progress=progress).document
    for line in what_it_gains(design, fine):
        out(line)
    for path in write_outputs(fine, options["out_dir"] or folder / f"refined-{name}"):
        out(str(path))
    return 0


def _same_prices(document: dict[str, Any], name: str, date: str) -> None:
    searched = document["catalog"]["name"], document["catalog"]["date"]
    if searched != (name, date):
        message = (
            f"--catalog: {name!r} of {date} is not the catalogue that was searched,"
            f" {searched[0]!r} of {searched[1]}"
        )
        raise UsageError(message)
