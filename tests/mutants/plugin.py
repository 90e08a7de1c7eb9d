"""What pytest does differently while mutants are tried (loaded with `-p plugin`).

With COVERED set: notes which lines of the package each test reaches and what it costs [s of CPU].
With TRIED set: tries the mutants in that file, see run.py.
With CHOSEN set: runs only the tests named in that file, in its order.
Every draw of hypothesis is the same from run to run, and failures aren't shrunk.
"""

from __future__ import annotations

import functools
import gc
import json
import os
import resource
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings

settings.register_profile(
    "mutants", deadline=None, database=None, derandomize=True, print_blob=False,
    suppress_health_check=list(HealthCheck), phases=(Phase.explicit, Phase.generate),
)  # fmt: skip
os.environ["STEEPWRIGHT_HYPOTHESIS"] = "mutants"  # tests/conftest.py loads it

COSTS: dict[str, float] = {}
LINES: dict[str, dict[str, list[str]]] = {}
SOURCE = str(Path(__file__).resolve().parents[2] / "search" / "steepwright") + "/"


def spent() -> float:
    """Return the CPU time of this process and its finished children [s]."""
    own, others = (resource.getrusage(w) for w in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return own.ru_utime + own.ru_stime + others.ru_utime + others.ru_stime


def forget() -> None:
    """Empty the package's caches: what one test finds in them another has reached for it."""
    for one in gc.get_objects():
        ours = isinstance(one, functools._lru_cache_wrapper) and "steepwright" in one.__module__
        if ours:
            one.cache_clear()


if "COVERED" in os.environ:
    import coverage

    WATCH = coverage.Coverage(data_file=None, include=[SOURCE + "*"], config_file=False)
    WATCH.start()

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
        """Note what one test reaches."""
        forget()
        before = spent()
        WATCH.switch_context(item.nodeid)
        try:
            return (yield)
        finally:
            WATCH.switch_context("")
            COSTS[item.nodeid] = round(spent() - before, 3)

    def pytest_sessionfinish() -> None:
        """Write down what was reached."""
        WATCH.stop()
        data = WATCH.get_data()
        for name in data.measured_files():
            lines = data.contexts_by_lineno(name)
            LINES[name.removeprefix(SOURCE)] = {
                str(number): sorted(set(tests) - {""}) for number, tests in lines.items()
            }  # fmt: skip
        Path(os.environ["COVERED"]).write_text(json.dumps({"costs": COSTS, "lines": LINES}))


if "TRIED" in os.environ:

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(session: pytest.Session) -> bool:
        """Try mutants in the place of running the tests that were found."""
        from trials import Trials

        Trials(session, forget).go_through()
        return True


if "CHOSEN" in os.environ:

    def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
        """Keep the chosen tests alone, the quickest first."""
        order = json.loads(Path(os.environ["CHOSEN"]).read_text())
        place = {name: number for number, name in enumerate(order)}
        items[:] = sorted(
            (one for one in items if one.nodeid in place), key=lambda one: place[one.nodeid]
        )
