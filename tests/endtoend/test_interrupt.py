"""Ctrl-C while processes search: the terminal sends it to all of them at once."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import psutil
import pytest

PATIENCE_S = 40.0


@pytest.fixture(autouse=True)
def _heard() -> Iterator[None]:
    """What is started in the background by a script is deaf to interrupts, and so its children."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def searching(args: list[str], folder: Path, errors: Path) -> subprocess.Popen[bytes]:
    """Start a search in a process group of its own; return when its first worker is there."""
    with errors.open("wb") as err:
        process = subprocess.Popen(
            args, cwd=folder, stdout=subprocess.DEVNULL, stderr=err, start_new_session=True
        )
    until = time.monotonic() + PATIENCE_S
    while not psutil.Process(process.pid).children() and time.monotonic() < until:
        assert process.poll() is None, errors.read_text(encoding="utf-8")
        time.sleep(0.001)
    return process


@pytest.mark.parametrize("after_ms", [0, 3, 6, 12, 25, 1000])
def test_an_interrupted_search_ends_in_one_sentence(
    tmp_path: Path, small_room: str, after_ms: int
) -> None:
    # A worker that was just forked knows no better than to end with a traceback of its own.
    room, errors = tmp_path / "mine.toml", tmp_path / "errors"
    text = small_room.replace("step_mm = 50", "step_mm = 5").replace("[300, 400]", "[0, 400]")
    room.write_text(text.replace("[2450, 2600]", "[2200, 2900]"), encoding="utf-8")
    args = [sys.executable, "-m", "steepwright", "search", str(room), "--workers", "2"]
    process = searching([*args, "--quiet", "--out", "answer"], tmp_path, errors)
    time.sleep(after_ms / 1000)
    os.killpg(process.pid, signal.SIGINT)
    try:
        code = process.wait(PATIENCE_S)
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
    told = errors.read_text(encoding="utf-8")
    assert code == 130
    assert told.startswith("Interrupted")
    assert "Traceback" not in told
    assert len(told.splitlines()) == 1
    assert not list(tmp_path.rglob(".*")), "no file half written is left"
