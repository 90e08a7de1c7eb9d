"""The trials themselves: one mutant after the other, each in a fork of the process that runs them.

That process has found all tests and loaded all modules. Where a mutant changes functions alone,
they are put into the loaded modules (`graft`) and the tests run at once; where it changes more (a
constant, a decorator), its text is put into the copy's file and a new pytest is started.
"""

from __future__ import annotations

import contextlib
import difflib
import json
import os
import resource
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from importlib.util import cache_from_source
from pathlib import Path
from typing import Any

import pytest
from _pytest.main import pytest_runtestloop as loop
from graft import graft

COPY = Path(__file__).resolve().parents[2]
SOURCE = COPY / "search" / "steepwright"
OPTIONS = ["-x", "-q", "--tb=line", "-p", "plugin", "-p", "no:cacheprovider"]


def ended_well(child: int, limit_s: float) -> bool:
    """Wait for a child process, but not for ever; tell whether its tests passed."""
    until = time.monotonic() + 20 * limit_s
    ended = status = 0
    try:
        while not ended and time.monotonic() < until:
            ended, status = os.waitpid(child, os.WNOHANG)
            time.sleep(0.01)
    finally:
        with contextlib.suppress(ProcessLookupError):
            os.killpg(child, signal.SIGKILL)
    if not ended:
        os.waitpid(child, 0)
    return bool(ended) and status == 0


@dataclass
class Trials:
    """All mutants of a sample that have not been tried with as much."""

    session: pytest.Session
    forget: Callable[[], None]
    out: Path = field(default_factory=lambda: Path(os.environ["TRIED"]))
    budget_s: float = field(default_factory=lambda: float(os.environ["BUDGET"]))

    def go_through(self) -> None:
        """Try them and write the answers down."""
        signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # puts the original back first
        covered = json.loads((self.out / "covered.json").read_text())
        costs, lines = covered["costs"], covered["lines"]
        for item in self.session.items:
            costs.setdefault(item.nodeid, 0.2)
        sample = json.loads((self.out / "sample.json").read_text())
        answers = self.out / "answers.jsonl"
        answers.touch()
        known = [json.loads(row) for row in answers.read_text().splitlines()]
        done = {o["number"] for o in known if o["killed"] or o["budget_s"] >= self.budget_s}
        for number, mutant in enumerate(sample):
            if number in done:
                continue
            items = self.chosen(mutant, costs, lines)
            limit_s = 6 + 3 * sum(costs[item.nodeid] for item in items)
            start = time.monotonic()
            killed = bool(items) and not self.passes(mutant, items, limit_s)
            row = {
                "number": number, "killed": killed, "budget_s": self.budget_s,
                "tests": len(items), "took_s": round(time.monotonic() - start, 1),
                "what": mutant["what"], "where": f"{mutant['module']}:{mutant['line']}",
                "change": self.told(mutant),
            }  # fmt: skip
            with answers.open("a", encoding="utf-8") as stream:
                stream.write(json.dumps(row) + "\n")

    def chosen(self, mutant: dict[str, Any], costs: dict[str, float], lines: dict[str, Any]) -> Any:
        """Return the tests to try a mutant with, the likeliest first."""
        reached = lines.get(mutant["module"], {})
        near = set(reached.get(str(mutant["line"]), []))
        beside = {test for tests in reached.values() for test in tests}
        known = {test for reach in lines.values() for tests in reach.values() for test in tests}
        place = mutant["module"].partition("/")[0]
        for item in self.session.items:  # written since
            if item.nodeid not in known and item.nodeid.split("/")[1] in (place, "house"):
                near.add(item.nodeid)
        taken, whole = [], 0.0
        order = sorted(self.session.items, key=lambda i: (i.nodeid not in near, costs[i.nodeid]))
        for item in order:
            if item.nodeid in near | beside and whole + costs[item.nodeid] <= self.budget_s:
                whole += costs[item.nodeid]
                taken.append(item)
        return taken

    def passes(self, mutant: dict[str, Any], items: list[pytest.Item], limit_s: float) -> bool:
        """Tell whether a mutant passes the tests."""
        path = SOURCE / mutant["module"]
        original = path.read_text(encoding="utf-8")
        child = os.fork()
        if child == 0:
            self._run_here(mutant, original, items, limit_s)
        if ended_well(child, limit_s):
            return True
        if (self.out / "not grafted").exists():
            (self.out / "not grafted").unlink()
            return self._passes_anew(mutant, original, items, limit_s)
        return False

    def _run_here(
        self, mutant: dict[str, Any], original: str, items: list[pytest.Item], limit_s: float
    ) -> None:
        code = 3
        with contextlib.suppress(BaseException):
            os.setsid()
            signal.signal(signal.SIGTERM, signal.SIG_DFL)
            quiet = os.open(self.out / "last.log", os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            resource.setrlimit(resource.RLIMIT_CPU, (int(limit_s), int(limit_s) + 5))
            name = "steepwright." + mutant["module"].removesuffix(".py").replace("/", ".")
            __import__(name)
            if not graft(sys.modules[name], original, mutant["code"]):
                (self.out / "not grafted").touch()
                os._exit(4)
            self.forget()
            self.session.items = items
            self.session.config.option.maxfail = 1
            loop(self.session)
            code = 0
        os._exit(code)

    def _passes_anew(
        self, mutant: dict[str, Any], original: str, items: list[pytest.Item], limit_s: float
    ) -> bool:
        path = SOURCE / mutant["module"]
        stale = Path(cache_from_source(str(path)))
        names = self.out / "chosen.json"
        names.write_text(json.dumps([item.nodeid for item in items]))
        files = sorted({item.nodeid.partition("::")[0] for item in items})
        env = {k: v for k, v in os.environ.items() if k != "TRIED"} | {"CHOSEN": str(names)}
        try:
            path.write_text(mutant["code"], encoding="utf-8")
            stale.unlink(missing_ok=True)
            with (self.out / "last.log").open("w") as log:
                process = subprocess.Popen(
                    [sys.executable, "-m", "pytest", *OPTIONS, *files], cwd=COPY, env=env,
                    stdout=log, stderr=log, start_new_session=True,
                    preexec_fn=lambda: resource.setrlimit(
                        resource.RLIMIT_CPU, (int(limit_s) + 10, int(limit_s) + 15)
                    ),
                )  # fmt: skip
                return ended_well(process.pid, limit_s + 10)
        finally:
            path.write_text(original, encoding="utf-8")
            stale.unlink(missing_ok=True)

    @staticmethod
    def told(mutant: dict[str, Any]) -> str:
        """Return the lines that a mutant changes, before and after."""
        before = (SOURCE / mutant["module"]).read_text(encoding="utf-8").splitlines()
        rows = difflib.unified_diff(before, mutant["code"].splitlines(), n=0, lineterm="")
        return " / ".join(row for row in rows if row[:2] not in ("--", "++", "@@"))
