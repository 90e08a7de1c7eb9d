"""``steepwright explain``: what a finding's code means and what to do about it."""

from __future__ import annotations

import textwrap
import tomllib
from collections.abc import Collection

import click

from steepwright.cli.console import out, write_json
from steepwright.errors import UsageError
from steepwright.findings import nearest
from steepwright.resources import catalogs_dir

EXAMPLE = """\b
Example:
  steepwright explain grade-unknown
  steepwright explain
"""

WIDTH = 88

KINDS = ("room-", "design-")
"""What codes of a room file's and a design file's keys begin with."""


@click.command(name="explain", epilog=EXAMPLE)
@click.argument("code", required=False)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def explain(code: str | None, as_json: bool) -> None:
    """Say more about a finding's code.

    CODE is the word in square brackets at the end of a problem; without one all are listed.
    """
    known = explanations()
    chosen = known if code is None else {code.strip("[]"): known[_entry(code, known)]}
    if as_json:
        write_json({"format": "steepwright findings 1", "findings": chosen})
        return
    for name, words in chosen.items():
        out(name)
        out(_paragraph(words["means"]))
        out(_paragraph(words["do"]) + ("" if len(chosen) == 1 else "\n"))


def _entry(code: str, known: Collection[str]) -> str:
    """Return the name under which a code is explained.

    A problem with a key of a TOML file carries the kind of file in front, as in room-unknown-key,
    and means the same in each.
    """
    name = code.strip("[]")
    names = (name, *(name.removeprefix(kind) for kind in KINDS))
    for one in names:
        if one in known:
            return one
    near = nearest(names[-1], known)
    meant = f"Did you mean {near}?" if near else "'steepwright explain' lists all codes."
    message = f"There is no finding {code!r}. {meant}"
    raise UsageError(message)


def explanations() -> dict[str, dict[str, str]]:
    """Return for every code what it means (``means``) and what to do (``do``)."""
    text = (catalogs_dir() / "findings.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def _paragraph(text: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent="  ", subsequent_indent="  ")
