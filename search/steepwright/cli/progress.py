"""Progress on stderr: rewritten in place on a terminal, whole lines elsewhere."""

from __future__ import annotations

import sys
from collections.abc import Callable


def teller() -> Callable[[str], None]:
    """Return a function that shows one line of progress."""
    return _InPlace() if sys.stderr.isatty() else _Lines()


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
        sys.stderr.write(f"\r\x1b[2K{text}")
        sys.stderr.flush()


def finish(quiet: bool) -> None:
    """Clear the line that a terminal still shows."""
    if not quiet and sys.stderr.isatty():
        sys.stderr.write("\r\x1b[2K")
        sys.stderr.flush()
