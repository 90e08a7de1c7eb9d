"""``steepwright batch``: many rooms by many price lists."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from steepwright.cli.console import INTERRUPTED, cents_option, note, out
from steepwright.cli.loading import read_pairs
from steepwright.cli.options import (
    FOLDER,
    angle_option,
    max_cost_option,
    quiet_option,
    time_limit_option,
    workers_option,
)
from steepwright.cli.progress import telling
from steepwright.cli.search import folder_name

SUMMARY = "summary.csv"

EXAMPLE = """\b
Example:
  steepwright batch loft/room.toml garage/room.toml --catalog north --catalog south --out answers
"""


@click.command(name="batch", epilog=EXAMPLE)
@click.argument(
    "room_files", metavar="ROOM...", nargs=-1, required=True, type=click.Path(path_type=Path)
)
@click.option(
    "--catalog",
    "catalog_dirs",
    metavar="DIR",
    multiple=True,
    type=click.Path(path_type=Path),
    help="A yard's catalogue; give it as often as you like  [default: the one each ROOM names].",
)
@angle_option
@max_cost_option
@click.option(
    "--out",
    "out_dir",
    metavar="DIR",
    type=FOLDER,
    default=Path("reports"),
    show_default=True,
    help="Where to write a folder for each pair, and summary.csv.",
)
@workers_option
@time_limit_option
@quiet_option
def batch(**options: Any) -> int:
    """Search every room at every price list.

    Writes one folder for each pair, with what search writes, and a table of all of them,
    summary.csv, which names each pair's room file and catalogue. A pair without a wall has a row
    that says why; nothing is written to its folder.
    """
    budget = cents_option(options["max_cost"], "--max-cost")
    pairs = read_pairs(options["room_files"], options["catalog_dirs"])
    from steepwright.optimise.many import search_many
    from steepwright.report import write_outputs
    from steepwright.report.summary import summary_csv, summary_row
    from steepwright.writing import write_whole

    asked = {
        "angle_deg": options["angle_deg"],
        "max_cost_cents": budget,
        "workers": options["workers"],
        "certify": True,
        "time_limit_s": options["time_limit_s"],
    }
    rows: list[dict[str, Any]] = []
    taken: set[str] = set()
    interrupted = False
    with telling(options["quiet"]) as progress:
        for number, (room, catalog, files) in enumerate(pairs, start=1):
            progress(f"pair {number} of {len(pairs)}: {files[0]} ({room.name}), {catalog.name}")
            pair = next(iter(search_many([room], [catalog], **asked, progress=progress)))
            folder, document = _folder(f"{room.name} {catalog.name}", taken), None
            if pair.result is not None:
                document = pair.result.document
                write_outputs(document, options["out_dir"] / folder, pair.result.certificate)
                interrupted = document.get("stopped") == "interrupted"
            row = summary_row((room.name, catalog.name), folder, document, pair.reason)
            rows.append(row | {"room_file": str(files[0]), "catalog_dir": str(files[1])})
            write_whole(options["out_dir"] / SUMMARY, summary_csv(rows))
            if interrupted:
                break
    out(str(options["out_dir"] / SUMMARY))
    if interrupted:
        note(f"Interrupted: {len(rows)} of {len(pairs)} pairs are in the table, the last in part.")
        return INTERRUPTED
    return 0


def _folder(name: str, taken: set[str]) -> str:
    """Return a name of its own for a pair's folder."""
    wanted = folder_name(name)
    free = (f"{wanted}-{n}" if n else wanted for n in (0, *range(2, len(taken) + 3)))
    chosen = next(folder for folder in free if folder not in taken)
    taken.add(chosen)
    return chosen
