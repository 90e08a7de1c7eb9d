"""Coverage-guided fuzzing of everything that steepwright reads (needs `pip install atheris`).

    python tests/fuzz/fuzz.py room -max_total_time=600
    python tests/fuzz/fuzz.py prices -runs=100000

Targets: room, catalog, prices, design, certificate, sheets, journal. Any other outcome than an
answer or an `InputError` that names its file, with a next step and nothing unprintable, ends the
run and leaves the input behind as ``crash-...``; put it into the tests beside what it broke. What
comes after the first word goes to libFuzzer. No part of the tests' normal run.
"""

from __future__ import annotations

import random
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["steepwright"]):
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
from seeds import HOSTILE, seeds_of

HERE = Path(tempfile.mkdtemp(prefix="fuzz-"))
SHIPPED = read_catalog()
ROOM = read_room(catalogs_dir() / "example" / "room.toml")


def refused(error: SteepwrightError, name: str) -> None:
    """Check a refusal: it names the file, says what to do, and can be printed."""
    text = str(error)
    assert name in text, text
    assert "Traceback" not in text
    assert all(c.isprintable() or c == "\n" for c in text), repr(text)
    assert len(text) < 200_000, len(text)
    for finding in getattr(error, "findings", ()):
        assert finding.next_step or finding.expected or finding.severity != "error", finding


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
    names = ["sheets.csv", "timber.csv", "mounts.csv", "screws.csv", "hardware.csv", "yard.toml"]
    name = names[data[0] % len(names)] if data else names[0]
    folder = HERE / "yard"
    folder.mkdir(exist_ok=True)
    for source in shipped_catalog_dir().iterdir():
        (folder / source.name).write_bytes(source.read_bytes())
    (folder / name).write_bytes(data[1:])
    try:
        made = read_catalog(folder)
    except InputError as error:
        refused(error, name)
        return
    write_catalog(made, HERE / "again")
    assert read_catalog(HERE / "again").sheets == made.sheets
    assert runs_no_formula(HERE / "again")


def runs_no_formula(folder: Path) -> bool:
    """Tell whether no text cell of any table begins like a formula."""
    import csv

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
    if reading.sheets or reading.timber:
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


def mutated(data: bytes, most: int, seed: int) -> bytes:
    """Change bytes as libFuzzer does, or put something hostile where a value stands."""
    dice = random.Random(seed)
    if dice.random() < 0.4 or not data:
        return bytes(atheris.Mutate(data, most))
    for _ in range(dice.randint(1, 3)):
        marks = [i for i, byte in enumerate(data) if byte in b'=,:;["\n']
        if not marks:
            break
        start = dice.choice(marks) + 1
        end = next((i for i in range(start, len(data)) if data[i] in b',;]}"\n'), len(data))
        data = data[:start] + dice.choice(HOSTILE) + data[end:]
    return data[:most]


def main() -> None:
    """Fuzz one target."""
    name, *more = sys.argv[1:] or ["room"]
    target = TARGETS[name]
    corpus = HERE / "corpus"
    corpus.mkdir()
    for number, path in enumerate(seeds_of(name)):
        head = b"\x00" if name == "catalog" else b""
        (corpus / str(number)).write_bytes(head + path.read_bytes())
    atheris.Setup(
        [sys.argv[0], "-max_len=60000", "-rss_limit_mb=3000", "-timeout=60", *more, str(corpus)],
        target,
        custom_mutator=mutated,
    )
    atheris.Fuzz()


if __name__ == "__main__":
    main()
