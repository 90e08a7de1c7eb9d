"""Records become plain data as the standard library's `dataclasses.asdict` has them."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass

from steepwright.plain import plain


@dataclass(frozen=True, slots=True)
class Inner:
    name: str
    sizes_mm: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Outer:
    parts: tuple[Inner, ...]
    by_name: dict[str, Inner]
    share: float | None
    settled: bool


def test_records_within_records_come_out_as_the_standard_library_has_them() -> None:
    part = Inner("strip", (1200, 300))
    record = Outer((part, Inner("none", ())), {"strip": part}, None, settled=True)
    assert json.dumps(plain(record)) == json.dumps(asdict(record))
    assert plain(record)["parts"][0]["sizes_mm"] == [1200, 300]


def test_nothing_of_a_record_can_be_changed_through_it() -> None:
    record = Outer((), {"strip": Inner("strip", (1,))}, 0.5, settled=False)
    made = plain(record)
    made["by_name"].clear()
    assert record.by_name
