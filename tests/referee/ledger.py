"""What the referee writes down: every figure of a document that its own sums do not confirm."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass
class Ledger:
    """Differences so far, and how many figures were compared."""

    about: str = ""
    differences: list[str] = field(default_factory=list)
    compared: int = 0

    def same(self, what: str, stated: object, own: object) -> None:
        """Compare two values that must be equal."""
        self.compared += 1
        if stated != own:
            self.differences.append(f"{self.about} {what}: stated {stated!r}, own {own!r}")

    def near(self, what: str, stated: float, own: float, slack: float) -> None:
        """Compare two numbers that may differ by `slack` in the unit they have."""
        self.compared += 1
        if not abs(stated - own) <= slack:
            self.differences.append(f"{self.about} {what}: stated {stated!r}, own {own!r}")

    def ratio(self, what: str, stated: float, own: float, slack: float = 2e-5) -> None:
        """Compare two numbers that may differ by a share of the larger one."""
        self.near(what, stated, own, slack * max(abs(stated), abs(own)))

    def true(self, what: str, holds: bool) -> None:
        """Note a statement that must hold."""
        self.compared += 1
        if not holds:
            self.differences.append(f"{self.about} {what}")
