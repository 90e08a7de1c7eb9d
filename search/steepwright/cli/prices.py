"""``steepwright prices``: a yard's list, as it was mailed or downloaded -> a catalogue."""

from __future__ import annotations

import datetime as dt
import re
import shlex
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from steepwright.cli.console import cents_option, note, out, write_json
from steepwright.cli.options import FOLDER
from steepwright.errors import InputError, UsageError

if TYPE_CHECKING:
    from steepwright.pricelist import Answers, PriceListReading, Question

FORMAT = "steepwright prices 1"
OPEN = 3
"""Exit code when a list can't be read or leaves a question open, as in `steepwright.errors`."""

EXAMPLE = """\b
Example:
  steepwright prices list.csv --out yard --vat 20 --prices-exclude-vat
"""

Command = TypeVar("Command", bound=Callable[..., Any])

ANSWERS = (
    ("encoding", "NAME", "Encoding of a text file, such as cp1250."),
    ("delimiter", "MARK", "What separates cells: ; , | or tab."),
    ("sheet", "NAME", "Sheet of a workbook to read, or all."),
    ("columns", "ROLES", "What the columns hold: sku,name,-,unit,price or B=name,D=price."),
    ("price-column", "COLUMN", "The price that counts: its letter or its heading."),
    ("decimal", "MARK", "Decimal mark of the prices: , or ."),
    ("currency", "CODE", "Currency of the prices, such as EUR."),
    ("vat", "PERCENT", "Rate of VAT or sales tax, such as 20."),
    ("basis", "UNIT", "What prices are for: piece, m, m2, m3, pack, 100 or 1000."),
    ("discount", "WHAT", "Whether a discount column comes off: apply or ignore."),
    ("pack-pieces", "N", "Pieces in a pack where the list does not say it."),
    ("min-quantity", "N", "Most pieces that you would buy to get a price."),
    ("strength", "CLASS", "Strength class of timber without one, such as C24, or none."),
    ("surface", "WORD", "Surface of timber without one: planed or sawn."),
    ("osb", "CLASS", "Class of OSB without one: 3 or none. Lists in dollars: rated OSB."),
    ("plywood", "WOOD", "Wood of plywood that does not say it: birch, softwood or none."),
    ("film-core", "WOOD", "Core of film-faced plywood that does not say it: birch or other."),
    ("tongue-groove", "MM", "What to saw off each tongue-and-groove edge (mm), or none."),
    ("face-grain", "SIDE", "Side the face grain runs along: first, second, long or short."),
    ("nominal", "TABLE", "Whose actual sizes nominal lumber has: us, uk or none."),
    ("size-unit", "UNIT", "Unit of sizes that can be read in two: mm, cm or in."),
    ("date-sizes", "ORDER", "How to read sizes that became dates: month/day or day/month."),
    (
        "lengths",
        "LIST",
        "Stock lengths of timber without one, such as 3,4,5 (m), or 8,10 (ft).",
    ),
    (
        "length-step",
        "STEP",
        "Step of lengths given as a range, such as 0.3 (m), or 2 (ft).",
    ),
    ("duplicates", "WHICH", "Of several prices for one product: dearest, cheapest or both."),
    ("hidden-rows", "WHAT", "Whether hidden rows count: read or skip."),
    ("date", "DAY", "Day of the list, such as 2026-11-01."),
)
"""Flags that answer a question: name, placeholder, help."""


def _answer_options(command: Command) -> Command:
    for name, metavar, text in reversed(ANSWERS):
        command = click.option(f"--{name}", metavar=metavar, help=text)(command)
    return command


@click.command(name="prices", epilog=EXAMPLE)
@click.argument(
    "files", metavar="FILE...", nargs=-1, required=True, type=click.Path(path_type=Path)
)
@click.option(
    "--out",
    "folder",
    metavar="DIR",
    type=FOLDER,
    help="Folder to write the catalogue to; without it the list is only checked.",
)
@click.option("--yard", "yards", metavar="NAME", multiple=True, help="Name of each list's yard.")
@click.option(
    "--trip",
    "trips",
    metavar="AMOUNT",
    multiple=True,
    help="Cost of one trip to each list's yard.",
)
@click.option(
    "--fill-from",
    metavar="DIR",
    help="Catalogue that what the lists don't sell is taken from, or shipped for the example's.",
)
@click.option(
    "--prices-include-vat", "include_vat", is_flag=True, help="Prices hold VAT (sales tax)."
)
@click.option("--prices-exclude-vat", "exclude_vat", is_flag=True, help="That tax comes on top.")
@_answer_options
@click.option(
    "--accept", metavar="CODE", multiple=True, help="Agree to an assumption, by its code."
)
@click.option("--strict", is_flag=True, help="Refuse when anything had to be assumed.")
@click.option("--forget", is_flag=True, help="Neither use nor keep answers beside the list.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def prices(
    files: tuple[Path, ...],
    folder: Path | None,
    yards: tuple[str, ...],
    trips: tuple[str, ...],
    fill_from: str | None,
    as_json: bool,
    **given: Any,
) -> int:
    """Turn a yard's price list into a catalogue that search uses.

    Reads CSV, tab text, XLSX, XLS and ODS as they come, in seven languages. Tells what it
    understood, what it assumed and what it could not read. What the list leaves open is asked;
    every question has a flag, and the answers are kept beside the list for next month's.
    """
    strict, forget = given.pop("strict"), given.pop("forget")
    if len(yards) > len(files) or len(trips) > len(files):
        message = "--yard and --trip are given once per list, in the order of the lists"
        raise UsageError(message)
    costs = [_trip_cents(trip) for trip in trips] + [0] * (len(files) - len(trips))
    answers = _answers(given)
    read = [
        _read(path, _named(answers, yards[i] if i < len(yards) else ""), as_json, forget)
        for i, path in enumerate(files)
    ]
    readings = [reading for reading, _ in read]
    reason = _refusal(readings, strict)
    written: list[Path] = []
    missing: tuple[str, ...] = ()
    unused: tuple[str, ...] = ()
    if not reason and folder is not None:
        written, missing, unused = _write(readings, folder, costs, fill_from)
    if not reason and not forget:
        written += _keep(files, read)
    _report(readings, reason, written, (missing, unused), as_json)
    if not as_json and not reason:
        out(_next(files, folder, missing))
    return OPEN if reason else 0


def _next(files: Sequence[Path], folder: Path | None, missing: Sequence[str]) -> str:
    """Return the next step; a catalogue that lacks a kind of article must be filled first."""
    if folder is None:
        return "Next: the same command with --out DIR writes the catalogue"
    where = shlex.quote(str(folder))
    if not missing:
        return f"Next: steepwright search room.toml --catalog {where}"
    note(f"This catalogue has no {' and no '.join(missing)}, so search can't use it by itself.")
    lists = " ".join(shlex.quote(str(path)) for path in files)
    return (
        f"Next: steepwright prices {lists} OTHER_LIST --out {where}, or --fill-from DIR with a "
        f"catalogue that has {' and '.join(missing)} (--fill-from shipped: invented prices)"
    )


def _trip_cents(text: str) -> int:
    """Return what a trip costs [cents]; a yard on the way costs 0."""
    free = text.strip() in {"0", "0.0", "0.00"}
    return 0 if free else cents_option(text, "--trip") or 0


def _answers(given: dict[str, Any]) -> Answers:
    """Return the answers that the flags give, checked."""
    from steepwright.pricelist.answers import from_mapping

    _known_codes(given["accept"])
    include, exclude = given.pop("include_vat"), given.pop("exclude_vat")
    if include and exclude:
        message = "--prices-include-vat and --prices-exclude-vat contradict each other"
        raise UsageError(message)
    values = {key: value for key, value in given.items() if value}
    if include or exclude:
        values["prices"] = "include-vat" if include else "exclude-vat"
    try:
        answers = from_mapping(values, "command line")
        _ = answers.vat_rate
    except InputError as problem:
        raise UsageError(str(problem)) from None
    return answers


def _known_codes(codes: Sequence[str]) -> None:
    """Refuse to agree to what no price list is ever assumed by: the code is misspelt."""
    from steepwright.cli.explain import explanations
    from steepwright.findings import nearest

    known = [code for code in explanations() if code.startswith("price-list-")] if codes else []
    for code in codes:
        if code not in known:
            near = nearest(code, known)
            meant = f"did you mean {near}?" if near else "'steepwright explain price-list' has all"
            message = f"--accept: there is no assumption {code!r}; {meant}"
            raise UsageError(message)


def _named(answers: Answers, yard: str) -> Answers:
    return replace(answers, yard=yard) if yard else answers


def _read(
    path: Path, answers: Answers, as_json: bool, forget: bool
) -> tuple[PriceListReading, Answers]:
    """Read one list; on a terminal ask what it leaves open, and read it again."""
    from steepwright.pricelist import read_price_list
    from steepwright.pricelist.answers import from_mapping

    today = dt.date.today()
    reading = read_price_list(path, answers, today, not forget)
    while reading.blocking and not as_json and sys.stdin.isatty() and sys.stderr.isatty():
        question = reading.blocking[0]
        try:
            more = answers.merged(from_mapping({question.key: _told(question)}, "answer"))
            reading = read_price_list(path, more, today, not forget)
        except InputError as problem:
            note(f"That can't be: {problem}")
            continue
        answers = more
    return reading, answers


def _told(question: Question) -> str:
    """Return what the user answers; a question of free text shows the example of its flag."""
    if question.choices:
        return str(click.prompt(question.text, type=click.Choice(question.choices), err=True))
    example = re.match(r"--[\w-]+ (.+?)(?:, or --.*)?$", question.flag)
    such = f"\nSuch as {example[1]}" if example else ""
    return str(click.prompt(question.text + such, err=True))


def _refusal(readings: Sequence[PriceListReading], strict: bool) -> str:
    """Return why nothing is written, or an empty text."""
    open_count = sum(len(one.blocking) for one in readings)
    if open_count:
        return f"{open_count} question{'s' if open_count > 1 else ''} to answer"
    if strict:
        assumed = sum(len(one.assumptions) for one in readings)
        assumed += sum(len(one.questions) for one in readings)
        if assumed:
            return f"--strict: {assumed} assumption{'s' if assumed > 1 else ''} or open questions"
    if not any(one.sheets or one.timber for one in readings):
        return "no row gave a sheet or a bar that can be used"
    return ""


def _write(
    readings: Sequence[PriceListReading],
    folder: Path,
    costs: Sequence[int],
    fill_from: str | None,
) -> tuple[list[Path], tuple[str, ...], tuple[str, ...]]:
    """Write the catalogue; return its files, the kinds that it lacks, and offers in no file."""
    from steepwright.catalog import write_catalog
    from steepwright.catalog.write import catalog_files
    from steepwright.pricelist import lists_text, to_catalog
    from steepwright.pricelist.combine import shipped_for
    from steepwright.pricelist.fill import missing_kinds, read_filler
    from steepwright.pricelist.parts import unmatched

    filler = read_filler(fill_from, readings[0].currency) if fill_from else None
    catalog = to_catalog(readings, trips_cents=costs, filler=filler)
    more = lists_text(readings, costs)
    write_catalog(catalog, folder, more)
    files = [folder / name for name in sorted({**catalog_files(catalog), **more})]
    base = filler.catalog if filler else shipped_for(readings)
    return files, missing_kinds(catalog), unmatched(readings, base)


def _keep(files: Sequence[Path], read: Sequence[tuple[PriceListReading, Answers]]) -> list[Path]:
    """Keep the answers that were given now beside each list."""
    from steepwright.pricelist.answers import find_kept, keep

    written = []
    for path, (reading, answers) in zip(files, read, strict=True):
        kept = find_kept(path, reading.layout)
        if answers.given():
            known = kept.answers if kept else type(answers)()
            written.append(keep(path, reading.layout, known.merged(answers)))
    return written


def _report(
    readings: Sequence[PriceListReading],
    reason: str,
    written: Sequence[Path],
    lacks: tuple[Sequence[str], Sequence[str]],
    as_json: bool,
) -> None:
    """Print what was read; `lacks` holds the kinds that are missing and the offers in no file."""
    from steepwright.pricelist.tell import document, problems, tables

    if as_json:
        write_json(
            {
                "format": FORMAT,
                "exit_code": OPEN if reason else 0,
                "message": reason,
                "lists": [document(one) for one in readings],
                "written": [str(path) for path in written],
                "missing": list(lacks[0]),
                "unused": list(lacks[1]),
            }
        )
        return
    from steepwright.cli.tables import print_table

    for one in readings:
        for title, columns, rows in tables(one):
            print_table(columns, rows, title)
        for line in problems(one):
            note(line)
    for line in lacks[1]:
        note(line)
    for path in written:
        out(str(path))
    if reason:
        note(f"Nothing was written: {reason}.")
