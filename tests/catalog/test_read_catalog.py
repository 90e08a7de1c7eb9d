"""Every slip in a catalogue's folder is told once, with its place and what to do; exit code 3."""

from __future__ import annotations

import csv
import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.catalog import CATALOG_FILES, read_catalog
from steepwright.errors import InputError
from steepwright.findings import Finding
from steepwright.resources import shipped_catalog_dir

SHEET = "BF-18-2440,"
BAR = "T-45x95-C24-3000,"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(shipped_catalog_dir(), tmp_path / "yard"))


def problems(folder: Path) -> tuple[Finding, ...]:
    with pytest.raises(InputError) as caught:
        read_catalog(folder)
    assert caught.value.exit_code == 3
    errors = tuple(
        f for f in caught.value.findings if isinstance(f, Finding) and f.severity == "error"
    )
    assert all(f.text() in str(caught.value) for f in errors)
    return errors


def line_of(path: Path, start: str) -> int:
    lines = path.read_text(encoding="utf-8").splitlines()
    return next(i for i, line in enumerate(lines, 1) if line.startswith(start))


def set_cell(path: Path, start: str, column: str, value: str) -> int:
    """Write one cell of the row that begins with `start`; return its line."""
    lines = path.read_text(encoding="utf-8").splitlines()
    line = line_of(path, start)
    at = lines[0].split(",").index(column)
    cells = re.findall(r'(?:^|,)("[^"]*"|[^,]*)', lines[line - 1])
    cells[at] = value
    lines[line - 1] = ",".join(cells)
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return line


CELLS = {
    # column, what is written, code, words in the message, words of help
    ("sheets.csv", SHEET): [
        ("price", '"119,40"', "decimal-comma", "decimal comma", "write 119.40"),
        ("price", '"1.119,40"', "decimal-comma", "decimal comma", "write 1119.40"),
        ("price", "119.40 EUR", "bad-number", "no plain number", "no unit"),
        ("price", "1e2", "bad-number", "no plain number", "digits only"),
        ("price", "nan", "bad-number", "no plain number", "digits only"),
        ("price", "0", "price", "zero", "a price above 0"),
        ("price", "-4.00", "price", "negative", "a price above 0"),
        ("price", "119.405", "price", "parts of a cent", "two decimals"),
        ("price", "", "blank", "empty", "a number"),
        ("price", "9" * 400, "out-of-range", "can't be right", "0.01 to"),
        ("length_mm", "244", "out-of-range", "can't be right", "millimetres"),
        ("length_mm", "24400", "out-of-range", "can't be right", "300 to 6000 mm"),
        ("length_mm", "2440.5", "bad-number", "has decimals", "whole number"),
        ("limit", "-1", "out-of-range", "can't be right", "0 to"),
        ("face_grain", "lenght", "unknown-word", "not known", "did you mean 'length'?"),
        ("kind", "birch film faced", "material-unknown", "kind of sheet", "'birch film-faced'"),
        ("panel", "birch-fim-18", "material-unknown", "panel is not known", "'birch-film-18'"),
        ("panel", "birch-18", "material-unknown", "but the kind of this row is", "birch-film-18"),
        ("thickness_mm", "21", "material-unknown", "does not match", "panel birch-film-21"),
        ("sku", "", "blank", "empty", "a text"),
        ("sku", "offcut-1", "offcut-sku", "offcuts in the room file", "+offcut-1"),
        ("sku", "BF-15-2500W", "double-sku", "already used in sheets.csv", "rename"),
    ],
    ("timber.csv", BAR): [
        ("sku", "BF-15-2500W", "double-sku", "already used in sheets.csv", "rename"),
        ("strength_class", "C25", "material-unknown", "no strength class", "nearest class is C24"),
        ("strength_class", "C12", "material-unknown", "no strength class", "nearest class is C14"),
        ("strength_class", "unsorted", "material-unknown", "no strength class", "grading stamp"),
        ("strength_class", "", "blank", "is no structural timber", "grading stamp"),
        ("width_mm", "100", "width-depth", "100 x 95", "swap the two"),
        ("length_mm", "3.0", "out-of-range", "can't be right", "millimetres"),
    ],
    ("screws.csv", "SC-5x60-100,"): [
        ("role", "seat", "unknown-word", "not known", "one of sheet, frame"),
        ("root_mm", "5", "root", "as thick as the thread", "less than 5 mm"),
        ("thread_mm", "61", "thread", "longer than the screw", "at most 60 mm"),
        ("pack_quantity", "0", "out-of-range", "can't be right", "1 to"),
    ],
    ("mounts.csv", "MT-HOOK,"): [
        ("rated_n", "0", "out-of-range", "can't be right", "1 to"),
        ("drop_mm", "", "blank", "empty", "a number"),
    ],
    ("hardware.csv", "HW-LATCH,"): [
        ("kind", "lach", "unknown-word", "not known", "did you mean 'latch'?"),
    ],
    ("hardware.csv", "HW-PULLEY-P,"): [
        ("efficiency", "91.7", "out-of-range", "can't be right", "0.3 to 1"),
    ],
}  # fmt: skip

CASES = [(*place, *case) for place, cases in CELLS.items() for case in cases]


@pytest.mark.parametrize(("file", "row", "column", "cell", "code", "message", "step"), CASES)
def test_one_bad_cell_is_one_clear_message(
    folder: Path, file: str, row: str, column: str, cell: str, code: str, message: str, step: str
) -> None:
    path = folder / file
    line = set_cell(path, row, column, cell)
    (found,) = problems(folder)
    assert (found.code, found.file, found.line) == (f"catalog-{code}", str(path), line)
    assert found.key in (column, "")
    assert message in found.message
    assert step in f"{found.expected}; {found.next_step}"
    if found.key and cell:
        assert found.seen == cell.strip('"')


def each(change: Callable[[str], str]) -> Callable[[Path], object]:
    """Return what changes a file's whole text."""
    return lambda path: path.write_text(change(path.read_text("utf-8")), encoding="utf-8")


def edit(old: str, new: str) -> Callable[[Path], object]:
    """Return what replaces the first `old` in a file by `new`."""
    return each(lambda text: text.replace(old, new, 1))


def spoil(content: bytes) -> Callable[[Path], object]:
    """Return what replaces a file's content."""
    return lambda path: path.write_bytes(content)


def header_only(text: str) -> str:
    return text.splitlines()[0] + "\n"


def no_stock(text: str) -> str:
    head, *rows = text.splitlines()
    return "\n".join([head, *(row[: row.rindex(",")] + ",0" for row in rows)])


FILES = {
    # what is done, code, words
    "sheets.csv": [
        (edit(",price,", ",prize,"), "missing-column", "rename the column 'prize' to 'price'"),
        (edit("119.40", "119,40"), "cells", "write decimal numbers with a point"),
        (each(lambda t: t.replace(",", ";")), "separator", "semicolons"),
        (each(lambda t: t.replace(",", "\t")), "separator", "tabs"),
        (each(header_only), "empty-file", "nothing below it"),
        (each(no_stock), "no-stock", "every article is out of stock"),
        (Path.unlink, "missing-file", "has no sheets.csv"),
        (spoil(b""), "empty-file", "the file is empty"),
        (spoil("sku,größe".encode("cp1252")), "encoding", "CSV UTF-8"),
        (spoil("sku,name".encode("utf-16-le")), "encoding", "CSV UTF-8"),
    ],
    "timber.csv": [
        (edit(",limit", ",limt"), "unknown-column", "did you mean 'limit'?"),
        (edit(",limit", ",name"), "double-column", "there twice"),
        (each(lambda t: t + "T-1,short\n"), "cells", "fewer cells"),
        (each(lambda t: t + '"T-1,open\n'), "csv", "a quote that is opened"),
        (each(no_stock), "no-stock", "leave the cell blank"),
        (Path.unlink, "missing-file", "has no timber.csv"),
    ],
    "screws.csv": [(spoil(b"\n\n"), "empty-file", "the file is empty")],
    "yard.toml": [
        (edit('"EUR"', '"euro"'), "heading", "three capital letters"),
        (edit("2026-11-01", "1.11.2026"), "heading", "a day like 2026-11-01"),
        (edit('vat = "included"', ""), "heading", "this key is missing"),
        (edit("note =", "notes ="), "unknown-key", "did you mean 'note'?"),
        (edit('"EUR"', "EUR"), "toml", "between double quotes"),
        (Path.unlink, "missing-file", "has no yard.toml"),
    ],
}


@pytest.mark.parametrize(
    ("file", "harm", "code", "words"),
    [(file, *case) for file, cases in FILES.items() for case in cases],
)
def test_one_bad_file_is_one_clear_message(
    folder: Path, file: str, harm: Callable[[Path], object], code: str, words: str
) -> None:
    harm(folder / file)
    (found,) = problems(folder)
    assert (found.code, found.file) == (f"catalog-{code}", str(folder / file))
    assert words in found.text()


def test_problems_of_all_files_are_told_at_once(folder: Path) -> None:
    set_cell(folder / "sheets.csv", SHEET, "price", "-1")
    set_cell(folder / "sheets.csv", SHEET, "length_mm", "x")
    set_cell(folder / "timber.csv", BAR, "strength_class", "C99")
    set_cell(folder / "mounts.csv", "MT-HOOK,", "drop_mm", "999")
    (folder / "yard.toml").unlink()
    found = problems(folder)
    assert [Path(f.file).name for f in found] == [
        "mounts.csv", "sheets.csv", "sheets.csv", "timber.csv", "yard.toml",
    ]  # fmt: skip


@pytest.mark.parametrize("file", ["screws.csv", "mounts.csv", "hardware.csv"])
def test_a_missing_table_is_taken_from_the_example_and_said_so(folder: Path, file: str) -> None:
    (folder / "yard.toml").write_text(
        'name = "Mine"\ncurrency = "EUR"\ndate = 2026-01-31\nvat = "included"\n', encoding="utf-8"
    )
    (folder / file).rename(folder / f"x{file}")
    catalog = read_catalog(folder)
    (found,) = catalog.findings
    assert (found.code, found.severity) == ("catalog-shipped-instead", "assumption")
    assert f"rename x{file} to {file}" in found.next_step
    rows = getattr(catalog, file.removesuffix(".csv"))
    assert {row.yard for row in rows} == {"Example yard"}
    assert {row.yard for row in catalog.sheets} == {"Mine"}
    assert catalog.date == "2026-01-31"


def test_a_stand_in_of_another_currency_is_a_warning(folder: Path) -> None:
    edit('"EUR"', '"PLN"')(folder / "yard.toml")
    (folder / "mounts.csv").unlink()
    codes = {f.code: f for f in read_catalog(folder).findings}
    assert set(codes) == {"catalog-shipped-instead", "catalog-currency"}
    assert codes["catalog-currency"].severity == "warning"
    assert "in EUR and count one to one as PLN" in codes["catalog-currency"].message


def test_what_no_screw_reaches_and_nobody_sells_is_a_warning(folder: Path) -> None:
    """Left are one sheet screw 35 mm long and one frame screw 100 mm long."""
    drop = {
        "screws.csv": ("SC-4.5", "SC-5", "SC-6x12", "SC-6x14", "SC-8"),
        "hardware.csv": "HW-LATCH",
    }
    for name, starts in drop.items():
        lines = (folder / name).read_text("utf-8").splitlines(keepends=True)
        kept = "".join(line for line in lines if not line.startswith(starts))
        (folder / name).write_text(kept, encoding="utf-8")
    catalog = read_catalog(folder)
    assert {f.severity for f in catalog.findings} == {"warning"}
    factors = catalog.materials.factors
    thick = sorted({s.thickness_mm for s in catalog.sheets})
    loose = [t for t in thick if t * factors["sheet_screw_length_factor"] > 35]
    widths = sorted({t.width_mm for t in catalog.timber})
    wide = [w for w in widths if w * factors["frame_screw_length_factor"] > 100]
    told = [f.message for f in catalog.findings]
    assert thick[0] not in loose
    assert sorted(message.split(", so")[0] for message in told) == [
        f"no frame screw is long enough for timber {', '.join(map(str, wide))} mm wide",
        f"no sheet screw is long enough for sheets {', '.join(map(str, loose))} mm thick",
        "the catalogue has no latch",
    ]


def test_prices_without_tax_are_an_assumption(folder: Path) -> None:
    edit('"included"', '"excluded"')(folder / "yard.toml")
    catalog = read_catalog(folder)
    assert catalog.vat == "excluded"
    assert [(f.code, f.severity) for f in catalog.findings] == [
        ("catalog-without-vat", "assumption")
    ]


def test_no_such_folder(tmp_path: Path) -> None:
    (found,) = problems(tmp_path / "nowhere")
    assert found.code == "catalog-no-folder"
    assert found.message == "there is no such folder"
    assert "steepwright prices" in found.next_step
    (tmp_path / "room.toml").touch()
    assert problems(tmp_path / "room.toml")[0].message == "this is a file, not a folder"


def test_byte_order_mark_line_ends_and_blank_lines_do_no_harm(folder: Path) -> None:
    for name in CATALOG_FILES[1:]:
        text = (folder / name).read_text(encoding="utf-8").replace("\n", "\r\n") + "\r\n,,\r\n"
        (folder / name).write_bytes(text.encode("utf-8-sig"))
    assert read_catalog(folder) == read_catalog()


def test_columns_may_stand_in_any_order_and_optional_ones_be_left_out(folder: Path) -> None:
    path = folder / "sheets.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.reader(stream))
    limit = rows[0].index("limit")
    with path.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows((row[:limit] + row[limit + 1 :])[::-1] for row in rows)
    assert read_catalog(folder).sheets == tuple(
        replace(sheet, limit=None) for sheet in read_catalog().sheets
    )


MANGLE = st.lists(
    st.tuples(st.integers(0, 2000), st.integers(0, 30), st.text(max_size=4) | st.sampled_from(
        [",", '"', "\n", ";", "-", "'", "=", "\0", "\ufeff", ",,", "1e9", "\r"])),
    min_size=1, max_size=4,
)  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(file=st.sampled_from(CATALOG_FILES), edits=MANGLE)
def test_whatever_stands_in_a_file_ends_in_a_catalogue_or_in_findings(
    tmp_path_factory: pytest.TempPathFactory, file: str, edits: list[tuple[int, int, str]]
) -> None:
    folder = tmp_path_factory.mktemp("mangled") / "yard"
    shutil.copytree(shipped_catalog_dir(), folder)
    text = (folder / file).read_text(encoding="utf-8")
    for at, length, part in edits:
        text = text[:at] + part + text[at + length :]
    (folder / file).write_bytes(text.encode("utf-8", "surrogatepass"))
    found: tuple[object, ...]
    try:
        found = read_catalog(folder).findings
    except InputError as error:
        found = error.findings or ("an error without a finding",)
    assert all(isinstance(f, Finding) and f.message and f.file for f in found)
