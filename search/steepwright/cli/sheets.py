"""``steepwright sheets``: one design of a finished search, for the shop and the saw."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import click

from steepwright.cli.console import out

EXAMPLE = """\b
Example:
  steepwright sheets reports/loft --design W17 --out w17.pdf
  steepwright sheets reports/loft --design W17 --csv w17
"""


@click.command(name="sheets", epilog=EXAMPLE)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--design", "name", metavar="ID", required=True, help="The design, such as W17.")
@click.option(
    "--out",
    "pdf",
    metavar="FILE.pdf",
    type=click.Path(path_type=Path),
    help="Where to print the sheets  [default: sheets-ID.pdf in DIR, unless --dxf or --csv].",
)
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    default="a4",
    show_default=True,
    help="The size of the sheets.",
)
@click.option(
    "--dxf",
    metavar="FILE.dxf",
    type=click.Path(path_type=Path),
    help="Draw the cut plan, in mm, one layer per sheet and bar.",
)
@click.option(
    "--csv",
    "lists",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="Write bill.csv and cuts.csv into this folder.",
)
def sheets(folder: Path, name: str, **options: Any) -> int:
    """Print drawings and cut plans of one design.

    DIR is what a search has written: designs.json and report.html. Printing needs Chromium or a
    browser of its family (STEEPWRIGHT_BROWSER may name it); DXF needs the extra steepwright[dxf].
    """
    from steepwright.report.finished import check_page, choose, read_document
    from steepwright.report.paper import need_browser, printed
    from steepwright.writing import write_together

    document = read_document(folder)
    chosen = choose(document, name, folder)
    files: dict[Path, str | bytes] = dict(_texts(chosen, options["dxf"], options["lists"]))
    pdf = options["pdf"]
    if pdf is None and not files:
        pdf = folder / f"sheets-{re.sub(r'[^A-Za-z0-9]+', '-', chosen.id)}.pdf"
    if pdf:
        page = check_page(folder, chosen)
        browser = need_browser(page, chosen.id)
        files[pdf] = printed(page, chosen.id, pdf.parent, options["paper"], browser)
    write_together(files)
    for caution in document["cautions"]:
        out(str(caution))
    for path in files:
        out(str(path))
    return 0


def _texts(chosen: Any, dxf: Path | None, lists: Path | None) -> dict[Path, str]:
    """Return what to write without a browser; nothing is written before all of it is made."""
    texts: dict[Path, str] = {}
    if lists is not None:
        from steepwright.report.lists import bill_csv, cuts_csv

        texts |= {lists / "bill.csv": bill_csv(chosen), lists / "cuts.csv": cuts_csv(chosen)}
    if dxf is not None:
        from steepwright.report.dxf import dxf_text

        texts[dxf] = dxf_text(chosen)
    return texts
