"""``python -m steepwright``: the same as the ``steepwright`` command."""

from __future__ import annotations

from steepwright.cli import main

if __name__ == "__main__":
    main()
