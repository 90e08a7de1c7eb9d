"""``steepwright verify``: a finished search's certificate, checked by means of its own."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import click

from steepwright.cli.console import DONE, SO_FAR, note, out, write_json
from steepwright.errors import InputError
from steepwright.units import money

EXAMPLE = """\b
Example:
  steepwright search loft/room.toml --out loft/answer
  steepwright verify loft/answer
"""

FORMAT = "steepwright verification 1"

READ_BY_NOBODY = ("report.html", "designs.csv")
"""What a search writes beside the two files that are checked."""


@click.command(name="verify", epilog=EXAMPLE)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option(
    "--strict",
    is_flag=True,
    help="Fail, too, when something is taken from the file and not derived again.",
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def verify(folder: Path, strict: bool, as_json: bool) -> int:
    """Check a finished search's certificate independently.

    DIR is what a search has written: designs.json and certificate.json. The checker has its own
    geometry, strengths, prices and cutting bounds; it shares nothing with the search. It goes
    through every box of lengths and every choice, saws each design again and adds up its bill.

    Of a search that was stopped it tells for which angles the proof is done; the exit code is
    then 5, not 0. It doesn't look at report.html and designs.csv.
    """
    from steepwright.verify import verify_folder

    began = time.perf_counter()
    verdict = verify_folder(folder)
    seconds = time.perf_counter() - began
    if not verdict.holds:
        count = len(verdict.findings) + verdict.left_out
        lines = "\n".join(f"  - {finding.text()}" for finding in verdict.findings)
        more = f"\n  ... and {verdict.left_out} more alike" if verdict.left_out else ""
        message = f"The certificate in {folder} does not hold; {count} problems:\n{lines}{more}"
        raise InputError(message, tuple(verdict.findings))
    if strict and verdict.taken:
        message = (
            f"The certificate holds, but not by the checker's own means alone. {_taken(verdict)}"
        )
        raise InputError(message)
    if as_json:
        write_json(_document(verdict, seconds))
    else:
        _print(verdict, seconds)
        _print_unread(folder)
    return DONE if verdict.complete else SO_FAR


def _print(verdict: Any, seconds: float) -> None:
    _print_head(verdict, seconds)
    for first, last, (step, settled) in _runs(_degrees(verdict)):
        angles = f"{first}" if first == last else f"{first} to {last}"
        end = "" if settled else "; open, a cheaper one may exist"
        if step is None:
            out(f"  {angles} degrees or more: no wall{end}")
        else:
            price = money(step["cost_cents"], verdict.currency)
            wall = f"{step['id']}, {price}, {step['angle_deg']} degrees"
            out(f"  {angles} degrees or more: {wall}{end}")
    steps = f"The same holds at each of the {verdict.steps} steps of cost against angle. "
    out(
        f"{steps if verdict.complete else ''}It is said of"
        f" walls {_wide(verdict)}, with lengths on a grid of"
        f" {verdict.step_mm} mm, of the offers, figures and rules in the files; of no real wall."
        " Fall space counts only as the least that was asked for."
    )
    out(
        "Each design was sawn, billed and hung again. Of its checks"
        f" {verdict.checks_derived} were worked out again, {verdict.checks_read} were read."
    )
    if verdict.taken:
        note(_taken(verdict))


def _print_unread(folder: Path) -> None:
    """Tell which files lie beside the two that were checked: nobody knows that they belong."""
    others = [name for name in READ_BY_NOBODY if (folder / name).exists()]
    if others:
        out(
            f"Not looked at: {' and '.join(others)}. What they show is only checked if they were"
            " written from this designs.json, by the same search."
        )


def _wide(verdict: Any) -> str:
    least, most = verdict.widths_mm
    if least < most:
        return f"from {least} to {most} mm wide"
    return f"{least} mm wide"


def _print_head(verdict: Any, seconds: float) -> None:
    degrees = [degree for degree, _ in verdict.degrees]
    span = f"from {degrees[0]} to {degrees[-1]}" if degrees else "asked for"
    checked = f"checked {verdict.boxes:,} boxes in {seconds:.1f} s."
    if verdict.complete:
        out(
            f"For each whole degree {span}: nothing cheaper among {verdict.designs:,} designs;"
            f" {checked}"
        )
        return
    settled = len(degrees) - len(verdict.unsettled)
    out(
        f"Proved so far, {verdict.left_designs:,} of {verdict.designs:,} designs open: for"
        f" {settled} of the {len(degrees)} whole degrees {span} nothing is cheaper; {checked}"
        " The same search command goes on where it stopped."
    )


def _degrees(verdict: Any) -> list[tuple[int, Any]]:
    return [(n, (step, n not in verdict.unsettled)) for n, step in verdict.degrees]


def _taken(verdict: Any) -> str:
    parts = [
        f"{name} ({count:,} designs, {100 * count / max(verdict.designs, 1):.2g} %)"
        for name, count in sorted(verdict.taken.items())
    ]
    return f"Taken from the file, not derived again: {'; '.join(parts)}."


def _runs(degrees: list[tuple[int, Any]]) -> list[tuple[int, int, Any]]:
    """Return neighbouring degrees with the same design together."""
    runs: list[tuple[int, int, Any]] = []
    for degree, step in degrees:
        if runs and runs[-1][2] == step:
            runs[-1] = runs[-1][0], degree, step
        else:
            runs.append((degree, degree, step))
    return runs


def _document(verdict: Any, seconds: float) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "holds": True,
        "complete": verdict.complete,
        "open_designs": verdict.left_designs,
        "designs": verdict.designs,
        "boxes": verdict.boxes,
        "steps": verdict.steps,
        "seconds": round(seconds, 1),
        "widths_mm": list(verdict.widths_mm),
        "step_mm": verdict.step_mm,
        "degrees": [
            {"degree": degree, "cheapest": step, "settled": settled}
            for degree, (step, settled) in _degrees(verdict)
        ],
        "checks_derived": verdict.checks_derived,
        "checks_read": verdict.checks_read,
        "taken": verdict.taken,
    }
