"""What fuzzing starts from, and the values that it puts into files."""

from __future__ import annotations

import sys
from functools import lru_cache
from pathlib import Path
from tempfile import mkdtemp

ROOT = Path(__file__).resolve().parents[2]

HOSTILE = [
    b"nan", b"inf", b"-inf", b"1e999", b"-1e999", b"1e-320", b"-0", b"-0.0", b"0", b"-1", b"1",
    b"1000000000", b"10000000000000000000000", b"9" * 5000, b"0x7fffffffffffffff", b"1_000",
    b"true", b"null", b"[]", b"{}", b"[[1]]", b"[" * 3000, b"{a=" * 800, b'"', b"'", b'""',
    b"'''", b'"""', b'"../../x"', b'"/etc/x"', b'".."', b'"CON"', b'"=1+1"', b'"=HYPERLINK(1)"',
    b"=1+1", b"+1", b"-1+1", b"@SUM(1)", b"\t=1", b"\xef\xbc\x9d1", b"<script>alert(1)</script>",
    b"</script><img src=x onerror=alert(1)>", b"\x00", b"\x1b[31m", b"\xe2\x80\xae", b"\xff",
    b"\xed\xa0\x80", b"\\ud800", b"\\u0000", b"\xf0\x9f\xa7\x97", b"1979-05-27", b"12:30:00",
    b"3,5", b"3.5", b"1.234,56", b"1e3", b"12 mm", b"12 x 34", b"x" * 3000, b"\r", b"\n\n", b"#",
    b"[5, 1]", b"[1, 2, 3]", b"[nan, nan]", b"[0, 1000000000]", b'["a", 1]',
]  # fmt: skip


@lru_cache(maxsize=1)
def small_answer() -> Path:
    """Search one tiny room; return its folder with document and certificate."""
    sys.path.insert(0, str(ROOT / "tests" / "optimise"))
    from small_rooms import tiny_catalog, tiny_room

    from steepwright.errors import InfeasibleError
    from steepwright.optimise import search
    from steepwright.report import write_outputs

    seed, result = 0, None
    while result is None:
        try:
            result = search(tiny_room(seed), tiny_catalog(seed), changes=False, certify=True)
        except InfeasibleError:
            seed += 1
    folder = Path(mkdtemp(prefix="fuzz-answer-"))
    write_outputs(result.document, folder, result.certificate)
    return folder


@lru_cache(maxsize=1)
def journal() -> Path:
    """Write a journal of two units."""
    from steepwright.optimise.branch import Tally
    from steepwright.optimise.journal import Journal
    from steepwright.optimise.units import Harvest

    path = Path(mkdtemp(prefix="fuzz-journal-")) / "search.journal"
    made = Journal(path, "key", lambda _: None)
    for unit in range(2):
        made.add(0, unit, Harvest((), Tally(1, 2, 3)))
    made.close()
    return path


@lru_cache(maxsize=1)
def lists() -> list[Path]:
    """Write down the price lists of the tests, as yards' clerks write them; text only."""
    sys.path.insert(0, str(ROOT / "tests" / "pricelist"))
    from test_messy_lists import LISTS

    folder = Path(mkdtemp(prefix="fuzz-lists-"))
    for number, (text, _) in enumerate(LISTS.values()):
        data = text if isinstance(text, bytes) else str(text).encode()
        (folder / f"{number:02d}.csv").write_bytes(data)
    return sorted(folder.iterdir())


def seeds_of(target: str) -> list[Path]:
    """Return the files that a target starts from."""
    example, yard = ROOT / "catalogs" / "example", ROOT / "catalogs" / "yard"
    known = {
        "room": [example / "room.toml"],
        "catalog": sorted(yard.iterdir()),
        "design": [example / "wall.toml"],
        "journal": [journal()],
    }
    if target == "prices":
        return lists()
    if target in known:
        return known[target]
    names = ["designs.json"] if target == "sheets" else ["certificate.json", "designs.json"]
    return [small_answer() / name for name in names]
