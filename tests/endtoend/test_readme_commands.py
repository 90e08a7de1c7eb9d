"""The commands of README and help, carried out in their order in an empty folder.

The rooms are smaller than the shipped one, so that a search takes seconds; all else is as written.
"""

from __future__ import annotations

import csv
import re
import shutil
import sys
import zipfile
from pathlib import Path

import pytest

from steepwright.cli.console import run
from steepwright.resources import shipped_catalog_dir

CHECKOUT = Path(__file__).parents[2]
sys.path.insert(0, str(CHECKOUT / "tests" / "docs"))

from test_commands import README, all_examples, words_of  # noqa: E402

SLOW = {
    "--ask": "asks at a terminal; tests/cli has its talk",
    ".pdf": "needs a browser; tests/browser prints",
}
"""What is not carried out here, by a piece of the row, and why."""

OBJECTIVE = "def few_cuts(design):\n    return len(design['cut_plan']['sheets'])\n"


def own_room_rows() -> list[str]:
    """Return the rows of the README's part on one's own room."""
    text = README.read_text(encoding="utf-8")
    found = re.search(r"## Your own room\n.*?```sh\n(.*?)\n```", text, re.DOTALL)
    assert found
    return found[1].splitlines()


def is_slow(row: str) -> bool:
    return any(piece in row for piece in SLOW)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return an empty folder to work in, with the price lists that the rows name."""
    monkeypatch.chdir(tmp_path)
    cells = [
        ["Art.-Nr.", "Bezeichnung", "Preis EUR/Stk brutto"],
        *([row["sku"], row["name"], row["price"]] for row in shipped_rows("sheets.csv")),
        *([row["sku"], row["name"], row["price"]] for row in shipped_rows("timber.csv")),
    ]
    with Path("list.csv").open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream, delimiter=";").writerows(cells)
    write_workbook(Path("list.xlsx"), cells)
    shutil.copytree(shipped_catalog_dir(), "other")
    thin_out(Path("other"))
    return tmp_path


KEPT = ("Birch ply, sanded 18 mm", "48 x 123 C18", "60 x 120 C24", "45 x 95 C24")
"""How the names of the few wares begin or go on that the small yards sell."""


def shipped_rows(name: str) -> list[dict[str, str]]:
    path = shipped_catalog_dir() / name
    with path.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    kept = [row for row in rows if any(piece in row["name"] for piece in KEPT)]
    assert kept
    return kept


def thin_out(yard: Path) -> None:
    """Leave only a few wares in a copy of the shipped yard."""
    for name in ("sheets.csv", "timber.csv"):
        rows = shipped_rows(name)
        with (yard / name).open("w", encoding="utf-8", newline="") as stream:
            writer = csv.DictWriter(stream, list(rows[0]))
            writer.writeheader()
            writer.writerows(rows)


def write_workbook(path: Path, cells: list[list[str]]) -> None:
    """Write the least workbook of one sheet (ECMA-376 part 1)."""
    from xml.sax.saxutils import escape

    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    rel = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    pack = "http://schemas.openxmlformats.org/package/2006"
    types = "application/vnd.openxmlformats-officedocument.spreadsheetml"
    rows = "".join(
        "<row>"
        + "".join(f'<c t="inlineStr"><is><t>{escape(cell)}</t></is></c>' for cell in row)
        + "</row>"
        for row in cells
    )
    parts = {
        "[Content_Types].xml": f'<Types xmlns="{pack}/content-types">'
        f'<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.'
        'relationships+xml"/>'
        f'<Override PartName="/xl/workbook.xml" ContentType="{types}.sheet.main+xml"/>'
        f'<Override PartName="/xl/worksheets/sheet1.xml" ContentType="{types}.worksheet+xml"/>'
        "</Types>",
        "_rels/.rels": f'<Relationships xmlns="{pack}/relationships"><Relationship Id="r1" '
        f'Type="{rel}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{rel}"><sheets>'
        '<sheet name="List" sheetId="1" r:id="r1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{pack}/relationships">'
        f'<Relationship Id="r1" Type="{rel}/worksheet" Target="worksheets/sheet1.xml"/>'
        "</Relationships>",
        "xl/worksheets/sheet1.xml": f'<worksheet xmlns="{main}"><sheetData>{rows}</sheetData>'
        "</worksheet>",
    }
    with zipfile.ZipFile(path, "w") as book:
        for name, text in parts.items():
            book.writestr(name, f'<?xml version="1.0" encoding="UTF-8"?>{text}')


def one_beam(text: str) -> str:
    """Return the shipped room with one beam and far fewer walls in it."""
    beams = re.findall(r"\[\[beams\]\]\n.*?\n\n", text, re.DOTALL)
    for beam in beams:
        if '"middle"' not in beam:
            text = text.replace(beam, "")
    for old, new in (
        ("step_mm = 5", "step_mm = 100"),
        ("kicker_mm = [150, 400]", "kicker_mm = [300, 400]"),
        ("# board_mm = [2000, 3500] ", "board_mm = [2500, 2800] #"),
        ('# sheet_kinds = ["birch"] ', 'sheet_kinds = ["birch"] #'),
        ("min_fall_space_mm = 1500", "min_fall_space_mm = 800"),
        ("max_columns = 3", "max_columns = 1"),
        ("fold_up = true", "fold_up = false"),
    ):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def carry_out(row: str) -> None:
    words = words_of(row)[1:]
    words = ["20" if word == "4000" else word for word in words]  # trials
    if words[0] == "search":
        words += ["--no-changes", "--workers", "1", "--quiet"]
    if words[0] == "refine":  # the thinned-out yard is no longer the one that is shipped
        words += ["--catalog", "loft/catalog"]
    if words[0] == "sample" and "--trials" not in words:
        words += ["--trials", "40"]
    assert run(words) == 0, row
    room = Path(words[1] if len(words) > 1 else "", "room.toml")
    if words[0] == "new":
        thin_out(room.parent / "catalog")
        room.write_text(one_beam(room.read_text(encoding="utf-8")), encoding="utf-8")


def test_the_readmes_own_room_is_searched_as_written(folder: Path) -> None:
    for row in own_room_rows():
        if not is_slow(row):
            carry_out(row)
    assert (folder / "reports" / "loft" / "report.html").exists()
    assert (folder / "answer" / "certificate.json").exists() or (
        folder / "loft" / "answer" / "certificate.json"
    ).exists()


def test_the_helps_examples_are_carried_out(folder: Path) -> None:
    """In the order in which they build on each other; sheets are those of the finished example."""
    carry_out("steepwright new garage")
    for yard in ("north", "south"):
        shutil.copytree("other", yard)
    Path("mine.py").write_text(OBJECTIVE, encoding="utf-8")
    order = ("new", "explain", "prices", "search", "assess", "verify", "refine", "sample", "batch")
    rows = [row for row in dict.fromkeys(all_examples()) if not is_slow(row)]
    last = [row for row in rows if row.split()[1] == "sheets"]
    others = sorted(
        (row for row in rows if row not in last), key=lambda r: order.index(r.split()[1])
    )
    assert len(last) >= 1
    assert {row.split()[1] for row in others} == set(order)
    for row in others:
        carry_out(row)
    shutil.rmtree("reports/loft")
    shutil.copytree(CHECKOUT / "reports" / "loft", "reports/loft")
    for row in last:
        carry_out(row)


def test_the_readmes_piece_of_python_runs(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    carry_out("steepwright new loft")
    found = re.findall(r"```python\n(.*?)\n```", README.read_text(encoding="utf-8"), re.DOTALL)
    assert len(found) == 1
    capsys.readouterr()
    exec(compile(found[0], "README.md", "exec"), {})
    head, first, *_ = capsys.readouterr().out.splitlines()
    assert head.split() == ["id", "angle_deg", "cost_cents", "fall_space_mm"]
    assert first.split()[1] == "W01"


def test_what_is_not_carried_out_is_still_there() -> None:
    rows = [*own_room_rows(), *all_examples()]
    assert all(any(piece in row for row in rows) for piece in SLOW)
