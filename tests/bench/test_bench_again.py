"""What a search costs once only prices have changed, and what checking its certificate costs.

Both are told in seconds of the processors, of all processes together: a busy machine changes
these least. What is asserted is their share of the search from cold in the same run; the targets
in seconds (3 s and 10 s on two quiet cores) are printed beside them.
"""

from __future__ import annotations

import random
import shutil
from pathlib import Path

import pytest
from results import record
from runs import PLAIN, Row, Searched, changed_yard, took

from kills import same_bytes

WARM_TARGET_S, CHECK_TARGET_S = 3.0, 10.0

MOST_OF_COLD = 0.9
"""Share of the search from cold that one told of the walls found before may take."""

MOST_CHECKING = 0.5
"""Share of the search from cold that the checker may take: 10 s of 20."""


def other_prices(rows: list[Row]) -> list[Row]:
    """Return the rows with every price changed by up to a tenth."""
    draw = random.Random(len(rows))
    return [row | {"price": f"{float(row['price']) * draw.uniform(0.9, 1.1):.2f}"} for row in rows]


@pytest.mark.bench
def test_after_a_change_of_prices_the_old_walls_spare_work_and_change_no_byte(
    tmp_path: Path, plain: Searched
) -> None:
    yard = ("--catalog", str(changed_yard(tmp_path / "yard", other_prices)))
    colds, warms = [], []
    for turn in ("1", "2"):  # what else the machine does weighs on single runs
        from_cold, told = tmp_path / f"cold{turn}", tmp_path / f"warm{turn}"
        shutil.copytree(plain.folder, told)
        colds.append(took(*PLAIN, *yard, "--out", str(from_cold)))
        warms.append(took(*PLAIN, *yard, "--out", str(told)))
        assert same_bytes(from_cold, told) == []
    cold, warm = (min(runs, key=lambda run: run.cpu_s) for runs in (colds, warms))
    check = took("verify", str(tmp_path / "warm1"))
    share, checking = warm.cpu_s / cold.cpu_s, check.cpu_s / cold.cpu_s
    print(
        f"\nother prices, certified: {warm.cpu_s:.1f} CPU s ({warm.wall_s:.1f} s, target"
        f" {WARM_TARGET_S:.0f} s) told of the old walls, {cold.cpu_s:.1f} from cold"
        f", {share:.2f} of it; checker {check.cpu_s:.1f} CPU s"
        f" ({check.wall_s:.1f} s, target {CHECK_TARGET_S:.0f} s), {checking:.2f}"
    )
    figures = {"seconds": round(warm.wall_s, 1), "cpu_s": round(warm.cpu_s, 1)}
    figures |= {"cold_cpu_s": round(cold.cpu_s, 1), "share_of_cold": round(share, 2)}
    record("other prices", figures)
    figures = {"seconds": round(check.wall_s, 1), "cpu_s": round(check.cpu_s, 1)}
    record("checker", figures | {"share_of_cold": round(checking, 2)})
    assert share < MOST_OF_COLD
    assert checking < MOST_CHECKING
