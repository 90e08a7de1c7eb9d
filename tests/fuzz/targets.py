"""What is fuzzed: each target takes bytes, gives them to a reader, and checks what comes of it.

Any other outcome than an answer or an `InputError` that names its file, with a next step and
nothing unprintable, is a find.
"""

from __future__ import annotations

import csv
import sys
import tempfile
import zlib
from collections.abc import Callable
from pathlib import Path

import steepwright.optimise.journal
import steepwright.pricelist
import steepwright.report.finished
import steepwright.report.views.cuts
import steepwright.room.design_file
import steepwright.verify
from steepwright.catalog import read_catalog, write_catalog
from steepwright.cli.search import folder_name
from steepwright.errors import InputError, SteepwrightError, UsageError
from steepwright.pricelist import read_price_list, to_catalog
from steepwright.report.finished import choose, read_document
from steepwright.resources import catalogs_dir, shipped_catalog_dir
from steepwright.room import check_with_catalog, read_room
from steepwright.room.design_file import read_design
from steepwright.verify import verify_folder

sys.path.insert(0, str(Path(__file__).parent))
from seeds import seeds_of

MEMORY = Path("/dev/shm")
HERE = Path(tempfile.mkdtemp(prefix="fuzz-", dir=MEMORY if MEMORY.is_dir() else None))
SHIPPED = read_catalog()
YARD = {path.name: path.read_bytes() for path in shipped_catalog_dir().iterdir()}
ROOM = read_room(catalogs_dir() / "example" / "room.toml")


TABLES = ["sheets.csv", "timber.csv", "mounts.csv", "screws.csv", "hardware.csv", "yard.toml"]


def refused(error: SteepwrightError, name: str) -> None:
    """Check a refusal: it names the file, says what to do, and can be printed."""
    text = str(error)
    assert name in text, text
    assert "Traceback" not in text
    assert all(c.isprintable() or c == "\n" for c in text), repr(text)
    assert len(text) < 200_000, len(text)
    for finding in getattr(error, "findings", ()):
        assert finding.next_step or finding.expected or finding.severity != "error", finding


def some(data: bytes) -> bool:
    """Pick one input in eight for what takes long, the same whenever it comes again."""
    return zlib.crc32(data) % 8 == 0


def room(data: bytes) -> None:
    """Read a room, check it against the shipped catalogue."""
    path = HERE / "room.toml"
    path.write_bytes(data)
    try:
        made = read_room(path)
        name = folder_name(made.name)
        assert name == Path(name).name, name
        assert name not in ("", ".", ".."), name
        assert len(name.encode()) < 255, name
        check_with_catalog(made, SHIPPED)
    except InputError as error:
        refused(error, "room.toml")


def catalog(data: bytes) -> None:
    """Read a catalogue of which one file, chosen by the first byte, is replaced."""
    name = TABLES[data[0] % len(TABLES)] if data else TABLES[0]
    folder = HERE / "yard"
    folder.mkdir(exist_ok=True)
    for other, text in YARD.items():
        (folder / other).write_bytes(text)
    (folder / name).write_bytes(data[1:])
    try:
        made = read_catalog(folder)
    except InputError as error:
        refused(error, name)
        return
    if some(data):
        write_catalog(made, HERE / "again")
        assert read_catalog(HERE / "again").sheets == made.sheets
        assert runs_no_formula(HERE / "again")


def runs_no_formula(folder: Path) -> bool:
    """Tell whether no text cell of any table begins like a formula."""
    for path in folder.glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as stream:
            for row in csv.reader(stream):
                for cell in row:
                    number = cell.lstrip("-").replace(".", "").isdigit()
                    if cell[:1] in ("=", "+", "-", "@", "\t", "\r") and not number:
                        return False
    return True


def prices(data: bytes) -> None:
    """Read a price list; write the catalogue that it makes and read it back."""
    path = HERE / "list.csv"
    path.write_bytes(data)
    try:
        reading = read_price_list(path)
    except InputError as error:
        refused(error, "list.csv")
        return
    if (reading.sheets or reading.timber) and some(data):
        try:
            made = to_catalog([reading])
            write_catalog(made, HERE / "made")
            assert runs_no_formula(HERE / "made")
            read_catalog(HERE / "made")
        except InputError as error:
            refused(error, "")


def design(data: bytes) -> None:
    """Read a wall for `assess`, as TOML and as JSON."""
    for name in ("wall.toml", "wall.json"):
        path = HERE / name
        path.write_bytes(data)
        try:
            read_design(path, ROOM, SHIPPED)
        except InputError as error:
            refused(error, name)


def certificate(data: bytes) -> None:
    """Verify a small search's certificate, and then its document, replaced by the data."""
    folder = HERE / "answer"
    folder.mkdir(exist_ok=True)
    whole = {p.name: p.read_bytes() for p in seeds_of("answer")}
    for name in ("certificate.json", "designs.json"):
        for other, text in whole.items():
            (folder / other).write_bytes(text)
        (folder / name).write_bytes(data)
        try:
            verdict = verify_folder(folder)
        except InputError as error:
            refused(error, name)
        else:
            # Whether it holds is for tests/verify/test_mutations.py: not every word is needed.
            for finding in verdict.findings:
                assert finding.text().isprintable(), finding.text()
                assert "MemoryError" not in finding.text(), finding.text()


def sheets(data: bytes) -> None:
    """Read a design's plans back from a search's document."""
    folder = HERE / "read"
    folder.mkdir(exist_ok=True)
    (folder / "designs.json").write_bytes(data)
    try:
        document = read_document(folder)
        for one in document["designs"][:3]:
            choose(document, one["id"], folder)
    except InputError as error:
        refused(error, "designs.json")
    except UsageError as error:
        refused(error, "")


def journal(data: bytes) -> None:
    """Take up a journal."""
    path = HERE / "search.journal"
    path.write_bytes(data)
    told: list[str] = []
    made = steepwright.optimise.journal.Journal(path, "key", told.append)
    made.harvests(0)
    made.close()


TARGETS: dict[str, Callable[[bytes], None]] = {
    one.__name__: one for one in (room, catalog, prices, design, certificate, sheets, journal)
}
