"""Measurements run only when they are asked for by name: a busy machine makes them meaningless.

`pytest` leaves them out and says so; `pytest tests/bench` and `pytest -m bench` run them.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from steepwright.catalog import read_catalog
from steepwright.room import read_room

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "optimise")]

from runs import PLAIN, ROOM, Alone, Searched, search_alone, took  # noqa: E402 (the path comes first)

LEFT_OUT = pytest.StashKey[int]()


def asked_for(config: pytest.Config) -> bool:
    """Tell whether the command line names this folder, something in it, or the mark."""
    if "bench" in (config.getoption("markexpr") or ""):
        return True
    start = config.invocation_params.dir
    paths = [(start / arg.split("::")[0]).resolve() for arg in config.args]
    return any(HERE in (path, *path.parents) for path in paths)


def reason(count: int) -> str:
    return f"{count} measurements not run: they need 'pytest tests/bench' or 'pytest -m bench'"


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if asked_for(config):
        return
    left_out = [item for item in items if item.get_closest_marker("bench")]
    items[:] = [item for item in items if not item.get_closest_marker("bench")]
    if left_out:
        config.stash[LEFT_OUT] = len(left_out)
        config.hook.pytest_deselected(items=left_out)
        # A worker of xdist has no terminal; a warning is what reaches the reader from there.
        if getattr(config, "workerinput", {}).get("workerid") == "gw0":
            config.issue_config_time_warning(pytest.PytestWarning(reason(len(left_out))), 2)


def pytest_terminal_summary(
    terminalreporter: pytest.TerminalReporter, config: pytest.Config
) -> None:
    count = config.stash.get(LEFT_OUT, 0)
    if count:
        terminalreporter.write_line(reason(count))


@pytest.fixture(scope="session")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Searched:
    """The room's search with its certificate by two workers, and without looking for changes."""
    folder = tmp_path_factory.mktemp("plain") / "answer"
    return Searched(folder, took(*PLAIN, "--out", str(folder)))


@pytest.fixture(scope="session")
def alone() -> Alone:
    """The room's front, found in this process alone."""
    return search_alone(read_room(ROOM), read_catalog())
