"""``steepwright assess``: every check for one wall."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from steepwright.cli.console import out, write_json
from steepwright.cli.invented import print_example_money
from steepwright.cli.lengths import teller_of
from steepwright.cli.loading import read_both
from steepwright.cli.options import catalog_option, room_argument
from steepwright.errors import InfeasibleError, InputError

if TYPE_CHECKING:
    from steepwright.catalog.types import Catalog

COLUMNS = (
    ("check", False),
    ("result", False),
    ("use", True),
    ("demand", True),
    ("capacity", True),
    ("unit", False),
    ("clause", False),
)


EXAMPLE = """\b
Example:
  steepwright new loft
  steepwright assess loft/room.toml --design loft/wall.toml
"""


@click.command(name="assess", epilog=EXAMPLE)
@room_argument
@click.option(
    "--design",
    "design_file",
    metavar="FILE",
    required=True,
    type=click.Path(path_type=Path),
    help="The wall, as TOML or JSON.",
)
@catalog_option
@click.option("--json", "as_json", is_flag=True, help="Print the document alone.")
def assess(room_file: Path, design_file: Path, catalog_dir: Path | None, as_json: bool) -> int:
    """Check one wall that you already have in mind.

    FILE names what you have chosen: board_mm or angle_deg, kicker_mm, width_mm, beam, and if you
    like facing, columns, rows, sheet, grain, stud, stud_count, mount, mount_count, screw_mm,
    delivered.
    What it leaves out is assumed and told. The exit code is 4 when the wall fails.
    """
    from steepwright.room import read_design

    room, catalog = read_both(room_file, catalog_dir)
    design = read_design(design_file, room, catalog)
    from steepwright.optimise import assess as examine

    try:
        document = examine(room, catalog, design)
    except InputError as error:
        raise _placed(error, design_file, catalog if room.units == "inch" else None) from None
    if as_json:
        write_json(document)
    else:
        _print(document)
    failing = failures(document["designs"][0], document.get("room_margins", {}))
    return InfeasibleError.exit_code if failing else 0


def _placed(error: InputError, file: Path, of_inches: Catalog | None) -> InputError:
    """Return what is wrong with a design with the file that it stands in.

    In a room in inches, whose catalogue is given, it is told in its units.
    """
    from steepwright.catalog.families import sheet_families
    from steepwright.findings import Finding
    from steepwright.room.told import in_room_units

    found = [one for one in error.findings if isinstance(one, Finding)]
    placed = tuple(replace(one, file=one.file or str(file)) for one in found)
    if of_inches is not None:
        names = [family.label for family in sheet_families(of_inches)]
        placed = tuple(in_room_units(one, names) for one in placed)
    text = str(error)
    for old, new in zip(found, placed, strict=True):
        text = text.replace(old.text(), new.text())
    return InputError(text, placed)


def _print(document: dict[str, Any]) -> None:
    from steepwright.report.words import hung_from
    from steepwright.units import degrees_down, money

    design = document["designs"][0]
    told = teller_of(document)
    out(
        told(
            f"{degrees_down(design['angle_deg'], 2)}° overhang: board {design['board_mm']} mm, "
            f"kicker {design['kicker_mm']} mm, width {design['width_mm']} mm, hung from "
            f"{hung_from(document, design['beam'])}, facing {design['facing']}"
        )
    )
    out(told(f"{design['sheet']}, {design['stud_count']} studs {design['stud']}"))
    out(
        told(
            f"cost {money(design['cost_cents'], document['currency'])}, fall space "
            f"{design['fall_space_mm']} mm, mass {design['mass_kg']:g} kg"
        )
    )
    print_example_money(document, [design])
    _print_checks(design["checks"], told)
    _print_room(document, told)
    for line in (*mend_lines(design), *settling_lines(design)):
        out(told(line))
    for finding in document["findings"]:
        out(told(finding_line(finding)))
    out()
    for caution in document["cautions"]:
        out(caution)
    out(verdict(design, document.get("room_margins", {})))


def finding_line(finding: dict[str, Any]) -> str:
    """Return a finding as a line that begins with its kind."""
    kind = {"assumption": "Assumed", "warning": "Warning"}.get(finding["severity"], "Problem")
    return ": ".join(part for part in (kind, finding["key"], finding["message"]) if part)


def _print_checks(checks: list[dict[str, Any]], told: Callable[[str], str]) -> None:
    from steepwright.cli.tables import print_table
    from steepwright.report.views.checks import readable_unit
    from steepwright.units import percent_up

    in_feet = told("1 mm") != "1 mm"

    def shown(check: dict[str, Any]) -> tuple[str, str, str]:
        scale, unit = readable_unit(check["unit"], in_feet)
        demand, capacity = check["demand"], check["capacity"]
        return (
            number(None if demand is None else demand * scale),
            number(None if capacity is None else capacity * scale),
            unit,
        )

    hardest_first = sorted(checks, key=lambda check: -check["use"])
    rows = [
        (
            check["name"],
            result_word(check),
            percent_up(check["use"]),
            *shown(check),
            check["clause"],
        )
        for check in hardest_first
    ]
    print_table(COLUMNS, rows)
    out("What each check rests on:")
    for check in hardest_first:
        out(told(f"  {check['name']}: {check['assumption']}"))
    out()


COUNTED = ("a stud for every mount", "solids under the board", "wall.min_moves")
"""Margins that are numbers of things; the others are lengths, masses or angles."""


def _print_room(document: dict[str, Any], told: Callable[[str], str]) -> None:
    """Print how the wall fits the room: what is left over, or what lacks."""
    mended = document["designs"][0].get("mend_room") or []
    short = {one["margin"]: one["what"] for one in mended}
    for name, margin in document.get("room_margins", {}).items():
        sign = "-" if margin < 0 else "+"
        size = f"{sign}{told(f'{abs(margin):g}{_margin_unit(name)}')}"
        out(f"{'pass' if margin >= 0 else 'fail'}: {name} ({told(short.get(name, size))})")


def _margin_unit(name: str) -> str:
    if name in COUNTED:
        return ""
    return " kg" if name.endswith("_kg") else "°" if "_deg" in name else " mm"


def mend_lines(design: dict[str, Any]) -> list[str]:
    """Return what makes each failing check pass, and what makes the whole wall pass."""
    from steepwright.units import percent_up

    lines = []
    for one in design.get("mend_checks") or []:
        lines.append(f"To pass {one['check']} ({percent_up(one['use'])}), one of:")
        lines += [f"  {change}" for change in one["changes"]]
    for one in design.get("mend_room") or []:
        if one["changes"]:
            lines.append(f"To pass {one['margin']}, one of:")
            lines += [f"  {change}" for change in one["changes"]]
        else:
            lines.append(f"Nothing that was tried lets this wall pass {one['margin']}.")
    return lines + [f"To pass every check: {line}" for line in design.get("mend") or []]


def settling_lines(design: dict[str, Any]) -> list[str]:
    """Return what is unknown and what to do about it, each with the checks that rest on it."""
    resting: dict[str, list[str]] = {}
    for check in design["checks"]:
        for reason in check.get("find_out", ()):
            resting.setdefault(reason, []).append(check["name"])
    return [f"Not settled: {reason} ({', '.join(names)})" for reason, names in resting.items()]


def number(value: float | None) -> str:
    """Return a demand or capacity with four digits; a dash when there is none to tell."""
    return "-" if value is None or not math.isfinite(value) else f"{value:.4g}"


def result_word(check: dict[str, Any]) -> str:
    """Return a check's result in words."""
    if not check["use"] <= 1:
        return "fail"
    if number(check["capacity"]) == "-":
        return "not stated"
    return "pass" if check["settled"] else "not settled"


def failures(design: dict[str, Any], margins: dict[str, float]) -> list[str]:
    """Return the names of checks above their limit and of room that is lacking."""
    failing = [check["name"] for check in design["checks"] if not check["use"] <= 1]
    return failing + [name for name, margin in margins.items() if margin < 0]


def verdict(design: dict[str, Any], margins: dict[str, float]) -> str:
    """Return the last line: whether all holds, and what fails if not."""
    failing = failures(design, margins)
    if failing:
        return f"This wall FAILS: {', '.join(failing)}."
    if not design["settled"]:
        return "This wall is NOT SETTLED: an unknown stands behind a check marked so."
    return f"All checks pass; the nearest to its limit is {design['governing_check']}."
