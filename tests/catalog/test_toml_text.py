"""TOML that no reader of it survives by itself: found by fuzzing."""

from __future__ import annotations

from pathlib import Path

import pytest

from steepwright.catalog import read_catalog, write_catalog
from steepwright.errors import InputError
from steepwright.pricelist.answers import read_kept

EXTREME = ["name = " + "9" * 5000, "name = " + "[" * 3000, "name = " + "{a=" * 800]


@pytest.mark.parametrize("text", EXTREME)
def test_very_long_numbers_and_very_deep_lists_are_refused(text: str, tmp_path: Path) -> None:
    yard = tmp_path / "yard"
    write_catalog(read_catalog(), yard)
    (yard / "yard.toml").write_text(text)
    with pytest.raises(InputError, match=r"yard\.toml.*can't be read as TOML"):
        read_catalog(yard)
    (yard / "lists.toml").write_text(text)
    with pytest.raises(InputError, match=r"lists\.toml.*can't be read as answers"):
        read_kept(yard / "lists.toml")
