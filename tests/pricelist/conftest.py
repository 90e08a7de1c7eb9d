"""Makers of spreadsheets, byte by byte, so that the reader is tried on what others write.

The XLSX and ODS parts follow ECMA-376 and OASIS OpenDocument 1.2; the XLS stream follows the
published BIFF8 records in a compound file of version 3.
"""

import struct
import zipfile
from io import BytesIO
from types import SimpleNamespace
from xml.sax.saxutils import escape

import pytest


def _letters(index):
    name = ""
    index += 1
    while index:
        index, digit = divmod(index - 1, 26)
        name = chr(65 + digit) + name
    return name


def _xlsx_cell(row, column, value, style):
    place = f'r="{_letters(column)}{row}"' + (f' s="{style}"' if style else "")
    if isinstance(value, tuple):  # a formula without a saved value
        return f"<c {place}><f>{escape(value[0])}</f></c>"
    if isinstance(value, int | float):
        return f"<c {place}><v>{value}</v></c>"
    return f'<c {place} t="inlineStr"><is><t>{escape(value)}</t></is></c>'


def xlsx(
    sheets, *, merged=None, hidden=(), hidden_rows=(), formats=None, date_columns=(), start=(0, 0)
):
    """Return an XLSX file; `formats` maps a column to its number format code."""
    merged, formats = merged or {}, formats or {}
    codes = list(dict.fromkeys([*formats.values(), *(["yyyy-mm-dd"] if date_columns else [])]))
    styles = {column: 1 + codes.index(code) for column, code in formats.items()}
    styles |= dict.fromkeys(date_columns, len(codes))
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    rels = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    package = "http://schemas.openxmlformats.org/package/2006"
    book, links, types = [], [], []
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as parts:
        for number, (name, rows) in enumerate(sheets.items(), start=1):
            state = ' state="hidden"' if name in hidden else ""
            book.append(
                f'<sheet name="{escape(name)}" sheetId="{number}"{state} r:id="r{number}"/>'
            )
            links.append(
                f'<Relationship Id="r{number}" Type="{rels}/worksheet" '
                f'Target="worksheets/s{number}.xml"/>'
            )
            kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
            types.append(
                f'<Override PartName="/xl/worksheets/s{number}.xml" ContentType="{kind}"/>'
            )
            body = []
            for at, cells in enumerate(rows, start=1 + start[0]):
                shut = ' hidden="1"' if at in hidden_rows else ""
                inner = "".join(
                    _xlsx_cell(at, index + start[1], value, styles.get(index + start[1]))
                    for index, value in enumerate(cells)
                    if value not in ("", None)
                )
                body.append(f'<row r="{at}"{shut}>{inner}</row>')
            areas = "".join(f'<mergeCell ref="{ref}"/>' for ref in merged.get(name, ()))
            areas = f"<mergeCells>{areas}</mergeCells>" if areas else ""
            parts.writestr(
                f"xl/worksheets/s{number}.xml",
                f'<worksheet xmlns="{main}"><sheetData>{"".join(body)}</sheetData>'
                f"{areas}</worksheet>",
            )
        fmts = "".join(
            f'<numFmt numFmtId="{164 + i}" formatCode="{escape(code, {chr(34): "&quot;"})}"/>'
            for i, code in enumerate(codes)
        )
        xfs = '<xf numFmtId="0"/>' + "".join(
            f'<xf numFmtId="{164 + i}"/>' for i in range(len(codes))
        )
        parts.writestr(
            "xl/styles.xml",
            f'<styleSheet xmlns="{main}"><numFmts>{fmts}</numFmts>'
            f"<cellXfs>{xfs}</cellXfs></styleSheet>",
        )
        links.append(f'<Relationship Id="rs" Type="{rels}/styles" Target="styles.xml"/>')
        parts.writestr(
            "xl/workbook.xml",
            f'<workbook xmlns="{main}" xmlns:r="{rels}">'
            f"<sheets>{''.join(book)}</sheets></workbook>",
        )
        parts.writestr(
            "xl/_rels/workbook.xml.rels",
            f'<Relationships xmlns="{package}/relationships">{"".join(links)}</Relationships>',
        )
        parts.writestr(
            "_rels/.rels",
            f'<Relationships xmlns="{package}/relationships"><Relationship Id="r1" '
            f'Type="{rels}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        )
        parts.writestr(
            "[Content_Types].xml",
            f'<Types xmlns="{package}/content-types"><Default Extension="rels" '
            f'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>{"".join(types)}</Types>',
        )
    return out.getvalue()


def ods(sheets):
    """Return an ODS file."""
    tables = []
    for name, rows in sheets.items():
        lines = []
        for cells in rows:
            inner = ""
            for value in cells:
                if isinstance(value, int | float):
                    inner += (
                        f'<table:table-cell office:value-type="float" office:value="{value}">'
                        f"<text:p>{value}</text:p></table:table-cell>"
                    )
                elif value:
                    inner += (
                        '<table:table-cell office:value-type="string">'
                        f"<text:p>{escape(value)}</text:p></table:table-cell>"
                    )
                else:
                    inner += "<table:table-cell/>"
            lines.append(f"<table:table-row>{inner}</table:table-row>")
        tables.append(f'<table:table table:name="{escape(name)}">{"".join(lines)}</table:table>')
    names = " ".join(
        f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{long}:1.0"'
        for short, long in (("office", "office"), ("table", "table"), ("text", "text"))
    )
    out = BytesIO()
    with zipfile.ZipFile(out, "w") as parts:
        parts.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        parts.writestr(
            "META-INF/manifest.xml",
            "<manifest:manifest xmlns:manifest="
            '"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
            '<manifest:file-entry manifest:full-path="/" manifest:media-type='
            '"application/vnd.oasis.opendocument.spreadsheet"/></manifest:manifest>',
        )
        parts.writestr(
            "content.xml",
            '<?xml version="1.0" encoding="UTF-8"?>'
            f'<office:document-content {names} office:version="1.2">'
            f"<office:body><office:spreadsheet>{''.join(tables)}</office:spreadsheet></office:body>"
            "</office:document-content>",
        )
    return out.getvalue()


def _record(kind, data):
    return struct.pack("<HH", kind, len(data)) + data


def xls(name, rows):
    """Return an XLS file with one sheet: BIFF8 records in a compound file."""
    cells = b""
    for r, row in enumerate(rows):
        for c, value in enumerate(row):
            if isinstance(value, int | float):
                cells += _record(0x0203, struct.pack("<HHHd", r, c, 0, value))
            elif value:
                text = value.encode("utf-16-le")
                cells += _record(0x0204, struct.pack("<HHHHB", r, c, 0, len(value), 1) + text)
    start = struct.pack("<HHHHII", 0x0600, 0x0005, 0x0DBB, 0x07CC, 0, 6)
    begin = struct.pack("<HHHHII", 0x0600, 0x0010, 0x0DBB, 0x07CC, 0, 6)
    width = max(len(row) for row in rows)
    size = _record(0x0200, struct.pack("<IIHHH", 0, len(rows), 0, width, 0))
    page = _record(0x0042, struct.pack("<H", 1200))
    title = name.encode("latin-1")
    offset = 4 + len(start) + len(page) + 4 + 8 + len(title) + 4
    bound = _record(0x0085, struct.pack("<IBBBB", offset, 0, 0, len(title), 0) + title)
    stream = _record(0x0809, start) + page + bound + _record(0x000A, b"")
    stream += _record(0x0809, begin) + size + cells + _record(0x000A, b"")
    return _compound(stream)


def _compound(stream):
    stream = stream.ljust(max(4096, -(-len(stream) // 512) * 512), b"\0")
    count = len(stream) // 512
    chain = [*range(1, count), 0xFFFFFFFE, 0xFFFFFFFE, 0xFFFFFFFD]
    fat = struct.pack(f"<{len(chain)}I", *chain).ljust(512, b"\xff")
    assert len(fat) == 512
    head = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 16
    head += struct.pack("<HHHHH", 0x3E, 3, 0xFFFE, 9, 6) + b"\0" * 6
    head += struct.pack("<IIIIIIIII", 0, 1, count, 0, 4096, 0xFFFFFFFE, 0, 0xFFFFFFFE, 0)
    head += struct.pack("<I", count + 1) + b"\xff" * (108 * 4)

    def entry(name, kind, child, first, size):
        text = (name + "\0").encode("utf-16-le")
        data = text.ljust(64, b"\0") + struct.pack(
            "<HBBIII", len(text), kind, 1, 0xFFFFFFFF, 0xFFFFFFFF, child
        )
        return data + b"\0" * 36 + struct.pack("<IQ", first, size)

    empty = b"\0" * 68 + b"\xff" * 12 + b"\0" * 48
    folder = entry("Root Entry", 5, 1, 0xFFFFFFFE, 0) + entry(
        "Workbook", 2, 0xFFFFFFFF, 0, len(stream)
    )
    return head + stream + folder + empty * 2 + fat


@pytest.fixture(scope="session")
def make():
    """Makers of spreadsheet files by their ending."""
    return SimpleNamespace(xlsx=xlsx, ods=ods, xls=xls)
