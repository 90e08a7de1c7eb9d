"""The terms on which a search runs; they decide when it ends, never what it finds."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, field
from typing import Any

from steepwright.optimise.journal import Journal


def silent(_: str) -> None:
    """Report nothing."""


@dataclass(frozen=True, slots=True)
class Terms:
    """Who works, who is told, and when to stop.

    Attributes
    ----------
    workers
        Number of local processes.
    executor
        Takes the units of work in place of local processes.
    progress
        Told what is going on, a sentence at a time.
    ends_s
        When to stop, by the monotonic clock [s]; None for never.
    journal
        Where finished units are written down, and read from.
    earlier
        Designs of an earlier search, as its document has them: what of them still fits and holds,
        at what it costs now, rules out much from the start.
    """

    workers: int = 1
    executor: Executor | None = None
    progress: Callable[[str], None] = silent
    ends_s: float | None = None
    journal: Journal | None = field(default=None)
    earlier: Sequence[Mapping[str, Any]] = ()

    def left_s(self) -> float | None:
        """Return how much time is left [s], None without a limit."""
        return None if self.ends_s is None else max(0.0, self.ends_s - time.monotonic())
