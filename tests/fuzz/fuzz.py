"""Fuzzing of everything that steepwright reads: guided by coverage (atheris), or plain and fast.

    python tests/fuzz/fuzz.py room -max_total_time=600      # guided; needs `pip install atheris`
    python tests/fuzz/fuzz.py prices plain 100000 7         # so many inputs, seed

Targets: room, catalog, prices, design, certificate, sheets, journal; see targets.py for what counts
as a find. A find leaves its input behind as ``crash-...``: put it into the tests beside what it
broke. What was tried is counted in results.json; test_fuzz.py tries a few inputs in every run of
the tests.
"""

from __future__ import annotations

import json
import random
import resource
import sys
import time
import traceback
import zlib
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

from seeds import HOSTILE, seeds_of

MOST = 60_000
MEMORY, PATIENCE_S = 4 << 30, 30.0
RESULTS = Path(__file__).with_name("results.json")
MARKS = b'=,:;["\n'
ENDS = b',;]}"\n'


def hostile(data: bytes, dice: random.Random) -> bytes:
    """Put something hostile where a value stands."""
    for _ in range(dice.randint(1, 3)):
        marks = [i for i, byte in enumerate(data) if byte in MARKS]
        if not marks:
            break
        start = dice.choice(marks) + 1
        end = next((i for i in range(start, len(data)) if data[i] in ENDS), len(data))
        data = data[:start] + dice.choice(HOSTILE) + data[end:]
    return data[:MOST]


def shaken(data: bytes, dice: random.Random) -> bytes:
    """Change, drop, double or swap pieces of the data."""
    for _ in range(dice.randint(1, 4)):
        size = len(data)
        one, other = sorted((dice.randint(0, size), dice.randint(0, size)))
        other = min(other, one + dice.choice((1, 1, 4, 40, 400)))
        data = dice.choice((
            data[:one] + bytes([dice.randrange(256)]) + data[one + 1 :],
            data[:one] + data[other:],
            data[:other] + data[one:],
            data[:one],
            data[:one] + data[one:other][::-1] + data[other:],
            data[:one] + dice.choice(HOSTILE) + data[one:],
        ))  # fmt: skip
    return data[:MOST]


def count(target: str, way: str, tried: int, finds: int) -> None:
    """Add to what has been tried."""
    known: dict[str, Any] = json.loads(RESULTS.read_text()) if RESULTS.exists() else {}
    row = known.setdefault(target, {}).setdefault(way, {"inputs": 0, "finds": 0})
    row["inputs"] += tried
    row["finds"] += finds
    RESULTS.write_text(json.dumps(known, indent=2, sort_keys=True) + "\n")


def begun(name: str, path: Path) -> bytes:
    """Return a seed; a catalogue's has a byte in front that tells which of its files it is."""
    from targets import TABLES

    head = bytes([TABLES.index(path.name)]) if name == "catalog" else b""
    return head + path.read_bytes()


def plain(name: str, number: int, seed: int) -> None:
    """Try so many inputs made from the target's seeds, and tell what each kind of failure was."""
    from targets import TARGETS

    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    dice = random.Random(seed)
    files = [begun(name, path) for path in seeds_of(name)]
    found: dict[str, str] = {}
    start = time.process_time()
    for tried in range(1, number + 1):
        data = (hostile if dice.random() < 0.6 else shaken)(dice.choice(files), dice)
        if dice.random() < 0.1:
            data = shaken(data, dice)
        began = time.process_time()
        try:
            TARGETS[name](data)
            took_s = time.process_time() - began
            assert took_s < PATIENCE_S, f"took {took_s:.0f} s"
        except Exception as error:
            place = traceback.extract_tb(error.__traceback__)[-1]
            key = f"{type(error).__name__} {Path(place.filename).name}:{place.lineno}"
            if key not in found:
                found[key] = f"crash-{name}-{zlib.crc32(data):08x}"
                Path(found[key]).write_bytes(data)
                print(key, str(error)[:200], found[key], flush=True)
        if tried % 1000 == 0:
            count(name, "plain", 1000, 0)
    count(name, "plain", number % 1000, len(found))
    print(name, number, f"{time.process_time() - start:.0f} s", len(found), "finds", flush=True)


def guided(name: str, more: list[str]) -> None:
    """Let libFuzzer choose the inputs."""
    import atheris

    with atheris.instrument_imports(include=["steepwright"]):
        from targets import HERE, TARGETS

    def mutated(data: bytes, most: int, seed: int) -> bytes:
        dice = random.Random(seed)
        if dice.random() < 0.4 or not data:
            return bytes(atheris.Mutate(data, most))
        return hostile(data, dice)[:most]

    corpus = HERE / "corpus"
    corpus.mkdir()
    for number, path in enumerate(seeds_of(name)):
        (corpus / str(number)).write_bytes(begun(name, path))
    options = [f"-max_len={MOST}", "-rss_limit_mb=3000", "-timeout=60", *more, str(corpus)]
    atheris.Setup([sys.argv[0], *options], TARGETS[name], custom_mutator=mutated)
    atheris.Fuzz()


def main() -> None:
    """Fuzz one target."""
    name, *more = sys.argv[1:] or ["room"]
    if more[:1] == ["plain"]:
        plain(name, int(more[1]), int(more[2]))
    else:
        guided(name, more)


if __name__ == "__main__":
    main()
