"""``steepwright explain``: what a finding's code means and what to do about it."""

from __future__ import annotations

import textwrap
import tomllib
from collections.abc import Collection, Mapping

import click

from steepwright.cli.console import out, write_json
from steepwright.errors import UsageError
from steepwright.findings import nearest
from steepwright.resources import catalogs_dir

EXAMPLE = """\b
Example:
  steepwright explain grade-unknown
  steepwright explain catalog
  steepwright explain
"""

WIDTH = 88

KINDS = ("room-", "design-")
"""What codes of a room file's and a design file's keys begin with."""

GROUPS = {
    "room": "a room file, and what stands in it",
    "design": "a wall of your own, and the file designs.json",
    "catalog": "a yard's catalogue",
    "price-list": "a price list as it came from a yard",
    "page": "a report page",
    "certificate": "a certificate",
}
"""What groups of codes are about; all but the first are what their codes begin with."""

HOW = (
    "'steepwright explain CODE' says what a code means and what to do; 'steepwright explain GROUP',"
    " such as catalog, has a line for each code of a group. A code stands in square brackets at the"
    " end of a problem."
)


@click.command(name="explain", epilog=EXAMPLE)
@click.argument("code", required=False)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
def explain(code: str | None, as_json: bool) -> None:
    """Say more about a finding's code.

    CODE is the word in square brackets at the end of a problem. Without one all codes are listed
    by groups, and with a group's name its codes with a line each.
    """
    known = explanations()
    name = (code or "").strip("[]")
    if code is None:
        chosen = known
    elif name in GROUPS:
        chosen = {one: known[one] for one in _codes_of(name, known)}
    else:
        chosen = {name: known[_entry(code, known)]}
    if as_json:
        write_json({"format": "steepwright findings 1", "findings": chosen})
    elif code is None:
        _print_groups(known)
    elif name in GROUPS:
        _print_lines(chosen)
    else:
        out(name)
        out(_paragraph(chosen[name]["means"]))
        out(_paragraph(chosen[name]["do"]))


def _print_groups(known: Collection[str]) -> None:
    for group, what in GROUPS.items():
        codes = _codes_of(group, known)
        out(f"{group}: {what} ({len(codes)})")
        out(_paragraph(", ".join(codes)))
    out(textwrap.fill(HOW, WIDTH))


def _print_lines(entries: Mapping[str, Mapping[str, str]]) -> None:
    wide = max(map(len, entries))
    for name, words in entries.items():
        first = words["means"].split(". ")[0].rstrip(".")
        line = textwrap.shorten(first, WIDTH - wide - 2, placeholder=" ...")
        out(f"{name:{wide}}  {line}")
    out("'steepwright explain CODE' says all about one.")


def _codes_of(group: str, known: Collection[str]) -> list[str]:
    """Return the codes of a group, in the order of the alphabet; none of an unknown one."""
    named = {code: next((g for g in GROUPS if code.startswith(g)), "room") for code in known}
    return [code for code in known if named[code] == group]


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
    return textwrap.fill(
        text, WIDTH, initial_indent="  ", subsequent_indent="  ", break_on_hyphens=False
    )
