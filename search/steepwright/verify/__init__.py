"""A small independent checker of a search's certificate.

It shares no code with the search: it has its own geometry, divisions, strengths, prices and
cutting bounds, and reads nothing but the two files a search has written.
"""

from __future__ import annotations

from steepwright.verify.checker import verify_folder
from steepwright.verify.verdict import Verdict

__all__ = ["Verdict", "verify_folder"]
