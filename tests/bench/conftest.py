"""Measurements run only when they are asked for by name: a busy machine makes them meaningless.

`pytest` leaves them out and says so; `pytest tests/bench` and `pytest -m bench` run them.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "optimise")]
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
