"""Broken and hostile files: one clear sentence, exit 3, nothing written, bounded cost."""

import os
import random
import subprocess
import sys
import zipfile
from io import BytesIO

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from steepwright.catalog import write_catalog
from steepwright.catalog.rows import SHEETS, TIMBER, make_records
from steepwright.catalog.tables import read_table
from steepwright.cli.console import run
from steepwright.errors import InputError
from steepwright.findings import Findings
from steepwright.pricelist import read_price_list, to_catalog

GOOD = (
    "Art.-Nr.;Bezeichnung;Preis EUR/Stk brutto\n1;OSB/3 22 mm 2500x1250;31,25\n"
    "2;KVH C24 60x120 5 m;18,00\nSumme;;49,25\n"
)
ONE_AT_A_TIME = settings(
    max_examples=100, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def outcome(path):
    """Read a file; return the reading, or None when it was refused as it should be."""
    try:
        return read_price_list(path)
    except InputError as problem:
        text = str(problem)
        assert path.name in text
        assert "Traceback" not in text
        return None


@ONE_AT_A_TIME
@given(data=st.binary(max_size=400))
@example(data=b"\xff\xfe")
@example(data=b"\xff\xfe\x00")
@example(data=b"\xef\xbb\xbf")
@example(data=b'"')
@example(data=b"sep=")
@example(data=b"\r\r\r;;;\r")
def test_random_bytes_never_break_the_reader(tmp_path, data):
    path = tmp_path / "list.csv"
    path.write_bytes(data)
    outcome(path)


@ONE_AT_A_TIME
@given(
    text=st.lists(
        st.sampled_from(
            [*";,\t|\"\n 0123456789.,-/x×€%'mM²³½", "Preis", "OSB/3 ", "KVH C24 ", "mm", "60x120"]
        ),
        max_size=200,
    ).map("".join)
)
def test_random_tables_never_break_the_reader(tmp_path, text):
    path = tmp_path / "list.csv"
    path.write_text("Bezeichnung;Maße;Länge;Preis EUR/Stk brutto\n" + text, encoding="utf-8")
    reading = outcome(path)
    if reading is not None and (reading.sheets or reading.timber):
        catalog = to_catalog([reading])
        write_catalog(catalog, tmp_path / "yard")
        for found, made in ((SHEETS, catalog.sheets), (TIMBER, catalog.timber)):
            problems = Findings()
            file = tmp_path / "yard" / found.file
            rows = read_table(file, found.row.required(), found.row.optional(), problems)
            records = make_records(found, file, rows or (), catalog.name, problems) if made else ()
            assert not problems.items
            assert {record for _, record in records} == set(made)


@ONE_AT_A_TIME
@given(seed=st.integers(0, 10**6))
def test_a_good_list_with_bytes_changed_never_breaks_the_reader(tmp_path, seed):
    data = bytearray(GOOD.encode("cp1252"))
    dice = random.Random(seed)
    for _ in range(dice.randint(1, 12)):
        at = dice.randrange(len(data))
        if dice.random() < 0.5:
            data[at] = dice.randrange(256)
        else:
            del data[at]
    path = tmp_path / "list.csv"
    path.write_bytes(data)
    outcome(path)


@pytest.mark.parametrize("ending", ["xlsx", "ods", "xls"])
def test_broken_spreadsheets_are_refused(tmp_path, make, ending):
    rows = [["Bezeichnung", "Preis EUR/Stk brutto"], ["OSB/3 22 mm 2500x1250", 31.25]]
    whole = {
        "xlsx": lambda: make.xlsx({"L": rows}),
        "ods": lambda: make.ods({"L": rows}),
        "xls": lambda: make.xls("L", rows),
    }[ending]()
    dice = random.Random(7)
    path = tmp_path / f"list.{ending}"
    for size in (9, len(whole) // 3, len(whole) - 40):
        path.write_bytes(whole[:size])
        outcome(path)
    for _ in range(6):
        data = bytearray(whole)
        for _ in range(20):
            data[dice.randrange(8, len(data))] = dice.randrange(256)
        path.write_bytes(data)
        outcome(path)


def bomb():
    """Return a small zip whose sheet unpacks to 300 MB."""
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as parts:
        parts.writestr("xl/workbook.xml", "<workbook/>")
        with parts.open("xl/worksheets/sheet1.xml", "w", force_zip64=True) as part:
            for _ in range(300):
                part.write(b"0" * 1_000_000)
    return out.getvalue()


def far_cell(make):
    """Return a workbook whose one far cell spans 17 thousand million cells."""
    return _with_rows(make, b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>')


def million_rows_book(make):
    """Return a whole workbook of a million rows."""
    rows = (f'<row r="{n}"><c><v>31</v></c></row>' for n in range(2, 1_000_002))
    return _with_rows(make, "".join(rows).encode())


def _with_rows(make, more):
    """Return a workbook of one cell with more rows below it, as the file holds them."""
    book = make.xlsx({"L": [["Preis"]]})
    out = BytesIO()
    with (
        zipfile.ZipFile(BytesIO(book)) as old,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            data = old.read(name)
            if name.startswith("xl/worksheets"):
                data = data.replace(b"</sheetData>", more + b"</sheetData>")
            new.writestr(name, data)
    return out.getvalue()


def cpu_s():
    """Return the processor time of this process and of its ended children, which read workbooks."""
    return sum(os.times()[:4])


def million_rows(_make):
    return GOOD.encode() + b"3;OSB/3 18 mm 2500x1250;25,00\n" * 1_000_000


def fifty_megabytes(_make):
    return b"x" * 50_000_000


def one_endless_line(_make):
    return b"a;" * 5_000_000


def open_quote(_make):
    return b'"Bezeichnung;Preis\n' + b"x" * 900_000 + b'\n"'


@pytest.mark.parametrize(
    "content",
    [million_rows, million_rows_book, fifty_megabytes, one_endless_line, open_quote, far_cell,
     lambda make: bomb()],
    ids=["million rows", "million rows in a workbook", "50 MB", "endless line", "open quote",
         "far cell", "zip bomb"],
)  # fmt: skip
def test_hostile_files_cost_little_and_leave_nothing(tmp_path, make, content, capsys):
    path = tmp_path / "list.xlsx"
    path.write_bytes(content(make))
    started = cpu_s()
    code = run(["prices", str(path), "--out", str(tmp_path / "yard")])
    assert code == 3
    assert cpu_s() - started < 20
    assert sorted(item.name for item in tmp_path.iterdir()) == ["list.xlsx"]
    told = capsys.readouterr()
    assert "list.xlsx" in told.err
    assert "Traceback" not in told.err


@pytest.mark.parametrize(
    ("content", "told"),
    [(million_rows, "rows"), (million_rows_book, "list.csv"), (lambda make: bomb(), "list.csv")],
    ids=["text", "workbook", "zip bomb"],
)
def test_a_hostile_file_takes_bounded_memory(tmp_path, make, content, told):
    path = tmp_path / "list.csv"
    path.write_bytes(content(make))
    script = (
        "import resource, sys\n"
        "resource.setrlimit(resource.RLIMIT_AS, (1_500_000_000,) * 2)\n"
        "from steepwright.cli.console import run\n"
        f"sys.exit(run(['prices', {str(path)!r}]))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert done.returncode == 3, done.stderr
    assert told in done.stderr
    assert "MemoryError" not in done.stderr
