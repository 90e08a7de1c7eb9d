"""Plan an overhanging home climbing wall and know that nothing cheaper or steeper was missed."""

from __future__ import annotations

__version__ = "0.1.0"
