"""``steepwright search``: the main job, from a room to every wall worth having."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from steepwright.cli.console import INTERRUPTED, cents_option, note, out, write_json
from steepwright.cli.invented import print_example_money
from steepwright.cli.lengths import measured_as, teller_of
from steepwright.cli.loading import read_both
from steepwright.cli.options import (
    FOLDER,
    Count,
    angle_option,
    catalog_option,
    max_cost_option,
    quiet_option,
    room_argument,
    time_limit_option,
    workers_option,
)
from steepwright.cli.progress import telling
from steepwright.errors import InfeasibleError

NUMBERS = (
    ("id", False),
    ("angle\ndeg", True),
    ("cost\n{currency}", True),
    ("fall space{mm}", True),
    ("board{mm}", True),
    ("kicker{mm}", True),
    ("width{mm}", True),
)
CHOICES = (
    ("beam", False),
    ("split", False),
    ("sheet", False),
    ("stud", False),
    ("governing check", False),
)
WIDE = 150
"""Columns of a terminal from which numbers and choices stand in one table."""

PRINTED_CHANGES = 3
"""Changes that are printed; the report has more of them."""

EXAMPLE = """\b
Example:
  steepwright new loft
  steepwright search loft/room.toml --angle 40 --max-cost 700
"""


@click.command(name="search", epilog=EXAMPLE)
@room_argument
@catalog_option
@angle_option
@max_cost_option
@click.option(
    "--top",
    metavar="N",
    type=Count(1),
    default=10,
    show_default=True,
    help="How many designs to print; the files hold all of them.",
)
@click.option(
    "--out",
    "out_dir",
    metavar="DIR",
    type=FOLDER,
    help="Where to write the report  [default: reports/<room name>].",
)
@click.option(
    "--json", "as_json", is_flag=True, help="Print the document alone; files only with --out."
)
@workers_option
@click.option(
    "--tolerance",
    "tolerance_mm",
    metavar="MM",
    type=Count(0, 200),
    help="Keep only walls that fit even if every measure of the room is wrong by so much.",
)
@click.option(
    "--changes/--no-changes",
    default=True,
    show_default=True,
    help="Look, too, at what would change the answer: one thing let go at a time.",
)
@time_limit_option
@quiet_option
def search(**options: Any) -> int:
    """Find every wall that is worth having in a room.

    Prints the cheapest walls at or above the angle, and writes the whole front, with drawings,
    cut plans, bills and checks, as report.html, designs.json and designs.csv. certificate.json
    holds the proof that nothing cheaper was missed; steepwright verify checks it.
    """
    budget = cents_option(options["max_cost"], "--max-cost")
    room, catalog = read_both(options["room_file"], options["catalog_dir"])
    if options["tolerance_mm"] is not None:
        room = replace(room, wall=replace(room.wall, tolerance_mm=options["tolerance_mm"]))
    from steepwright.optimise import search as find
    from steepwright.optimise.journal import NAME, Journal, key_of
    from steepwright.optimise.search import in_range

    in_range(room, options["angle_deg"])  # before a stopped search's journal is taken up
    folder = options["out_dir"] or Path("reports") / folder_name(room.name)
    wants_files = not options["as_json"] or options["out_dir"] is not None
    written = []
    with telling(options["quiet"]) as progress:
        journal = Journal(folder / NAME, key_of(room, catalog), progress) if wants_files else None
        try:
            result = find(
                room,
                catalog,
                angle_deg=options["angle_deg"],
                max_cost_cents=budget,
                workers=options["workers"],
                progress=progress,
                changes=options["changes"],
                certify=wants_files,
                time_limit_s=options["time_limit_s"],
                journal=journal,
                earlier=_found_before(folder, progress) if wants_files else (),
            )
            if wants_files:
                from steepwright.report import write_outputs

                written = write_outputs(result.document, folder, result.certificate)
            if journal is not None and result.document["complete"]:
                journal.remove()
        except InfeasibleError as error:
            if journal is not None:  # the search is done, and leaves nothing behind
                journal.remove()
            raise InfeasibleError(measured_as(room.units)(str(error))) from None
    _print(result, options, budget, written)
    return _ended(result.document)


def _found_before(folder: Path, progress: Callable[[str], None]) -> list[dict[str, Any]]:
    """Return the designs that an earlier search left in the folder; they only spare time."""
    from steepwright.errors import InputError
    from steepwright.report.finished import read_document

    if not (folder / "designs.json").exists():
        return []
    try:
        designs: list[dict[str, Any]] = read_document(folder)["designs"]
    except InputError:
        return []  # what can't be read is of no use, and is written anew in the end
    progress(f"starting from the {len(designs)} walls that the last search in {folder} found")
    return designs


def _ended(document: dict[str, Any]) -> int:
    """Tell on stderr how a search ended that was stopped; return the exit code."""
    if document["complete"]:
        return 0
    interrupted = document["stopped"] == "interrupted"
    done = sum(angle["settled"] for angle in document["angles"])
    note(
        f"{'Interrupted' if interrupted else 'The time is up'}: what was found so far is kept and"
        f" marked incomplete; {done} of {len(document['angles'])} angles are settled. The same"
        " command takes the search up again where it stopped."
    )
    return INTERRUPTED if interrupted else 0


def _print(result: Any, options: dict[str, Any], budget: int | None, written: list[Path]) -> None:
    document = result.document
    if options["as_json"]:
        write_json(document)
        for path in written:
            note(str(path))
        return
    affordable = [
        design
        for design in result.cheapest(options["angle_deg"], None)
        if budget is None or design["cost_cents"] <= budget
    ]
    told = teller_of(document)
    _print_designs(affordable[: options["top"]], document, told)
    print_example_money(document, affordable[: options["top"]])
    _print_changes(document.get("changes", []), told)
    if not document["complete"]:
        _print_angles(document)
    for caution in document["cautions"]:
        out(caution)
    out()
    for path in written:
        out(str(path))
    page = next((path for path in written if path.suffix == ".html"), None)
    out(f"Next: open {page}" if page else "Next: steepwright search ROOM --out DIR")


def _print_changes(changes: list[dict[str, Any]], told: Callable[[str], str]) -> None:
    if changes:
        out("What would change the answer:")
    for change in changes[:PRINTED_CHANGES]:
        out(f"  {told(change['text'])}")
    if changes:
        out()


def _print_designs(
    designs: list[dict[str, Any]], document: dict[str, Any], told: Callable[[str], str]
) -> None:
    from steepwright.cli.tables import columns_wide, print_table

    title = f"The {len(designs)} cheapest of {len(document['designs'])} walls worth having"
    in_feet = told("1 mm") != "1 mm"
    if in_feet:
        title += ", in feet and inches to the nearest 1/16 in"
    words = {"currency": document["currency"], "mm": "" if in_feet else "\nmm"}
    heads = [(head.format(**words), right) for head, right in NUMBERS]
    numbers, choices = [_numbers(d, told) for d in designs], [_choices(d, told) for d in designs]
    if columns_wide() >= WIDE:
        together = [one + two for one, two in zip(numbers, choices, strict=True)]
        print_table((*heads, *CHOICES), together, title)
        return
    print_table(heads, numbers, title)
    named = [(one[0], *two) for one, two in zip(numbers, choices, strict=True)]
    print_table((NUMBERS[0], *CHOICES), named)


def _print_angles(document: dict[str, Any]) -> None:
    """Print for each whole degree whether it is settled, and if not how much may be missed."""
    from steepwright.cli.tables import print_table
    from steepwright.units import money

    heads = [("degrees\nor more", True), (f"cheapest\n{document['currency']}", True), ("", False)]
    rows = []
    for angle in document["angles"]:
        found, gap = angle["found_cents"], angle["gap_cents"]
        state = f"open: may be up to {money(gap)} cheaper" if gap else "open: none found yet"
        rows.append(
            (
                str(angle["angle_deg"]),
                "-" if found is None else money(found),
                "settled" if angle["settled"] else state,
            )
        )
    print_table(heads, rows, "How far the search got")


def _numbers(design: dict[str, Any], told: Callable[[str], str]) -> tuple[str, ...]:
    from steepwright.units import degrees_down, money

    lengths = ("fall_space_mm", "board_mm", "kicker_mm", "width_mm")
    return (
        design["id"],
        degrees_down(design["angle_deg"]),
        money(design["cost_cents"]),
        *(told(f"{design[key]} mm").removesuffix(" mm") for key in lengths),
    )


def _choices(design: dict[str, Any], told: Callable[[str], str]) -> tuple[str, ...]:
    return (
        f"{design['beam']} {design['facing']}",
        f"{design['columns']} x {design['rows']}",
        design["sheet"],
        told(f"{design['stud_count']} of {design['stud']}"),
        design["governing_check"] + ("" if design["settled"] else " (not settled)"),
    )


def folder_name(room: str) -> str:
    """Return a room's name as the name of a folder: small letters, digits and dashes, 200 bytes."""
    plain = re.sub(r"[^\w]+", "-", room.lower()).strip("-_")
    return plain.encode()[:200].decode(errors="ignore") or "room"
