"""The command line: one small file per command, loaded only when it is called."""

from __future__ import annotations

import sys


def main() -> None:
    """Run the command line and leave with its exit code."""
    from steepwright.cli.console import run

    sys.exit(run(sys.argv[1:]))
