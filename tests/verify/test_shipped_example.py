"""The finished example's certificate, checked where it lies."""

from __future__ import annotations

from pathlib import Path

from steepwright.verify import verify_folder

EXAMPLE = Path(__file__).resolve().parents[2] / "reports" / "loft"


def test_the_example_is_proven() -> None:
    verdict = verify_folder(EXAMPLE)
    assert [finding.text() for finding in verdict.findings] == []
    assert verdict.open_designs == 0
    assert [degree for degree, _ in verdict.degrees] == list(range(30, 49))
    assert all(step is not None for _, step in verdict.degrees)
    assert verdict.takes == 0, "nothing rests on the search's word"
