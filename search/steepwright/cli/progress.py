"""Progress on stderr: rewritten in place on a terminal, whole lines elsewhere."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

CLEAR = "\r\x1b[2K"
"""Takes a terminal back to the start of an empty line."""


@contextmanager
def telling(quiet: bool) -> Iterator[Callable[[str], None]]:
    """Give a function that shows a line of progress, or nothing; clear what is left at the end."""
    in_place = sys.stderr.isatty()
    try:
        yield _nothing if quiet else _InPlace() if in_place else _Lines()
    finally:
        if in_place and not quiet:
            sys.stderr.write(CLEAR)
            sys.stderr.flush()


def _nothing(_: str) -> None:
    return


class _Lines:
    """One line for each new text."""

    def __init__(self) -> None:
        self.last = ""

    def __call__(self, text: str) -> None:
        if text != self.last:
            sys.stderr.write(text + "\n")
            sys.stderr.flush()
        self.last = text


class _InPlace:
    """The newest text, in place of the one before."""

    def __call__(self, text: str) -> None:
        sys.stderr.write(CLEAR + text)
        sys.stderr.flush()
