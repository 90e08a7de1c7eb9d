"""What holds for a whole list: the answers, the decided conventions, and the open questions."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from steepwright.catalog.types import Materials
from steepwright.findings import Finding, Findings
from steepwright.pricelist.answers import Answers
from steepwright.pricelist.basis import Basis
from steepwright.pricelist.limits import limit
from steepwright.pricelist.offers import Question


@dataclass(slots=True)
class ListContext:
    """The one growing record of a reading: conventions, assumptions by rows, open questions.

    `basis` is what notes say that prices are for, by sheet and family of goods; "" is any.
    """

    file: str
    answers: Answers
    materials: Materials
    findings: Findings
    decimal: dict[tuple[str, int, int], str] = field(default_factory=dict)
    currency: str = ""
    imperial: bool = False
    inch_trade: bool = False
    has_vat: bool | None = None
    vat_rate: Decimal | None = None
    basis: dict[tuple[str, str], Basis] = field(default_factory=dict)
    size_unit: str = ""
    noted: dict[tuple[str, str, str], list[str]] = field(default_factory=lambda: defaultdict(list))
    asked: dict[str, Question] = field(default_factory=dict)
    unsettled: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))

    def assume(self, code: str, message: str, row: str = "", next_step: str = "") -> None:
        """Note an assumption; those that many rows share are told once."""
        self.noted[code, message, next_step].append(row)

    def warn(self, code: str, message: str, next_step: str = "", row: int = 0) -> None:
        """Tell something that is likely wrong but was not changed."""
        self.findings.add(
            Finding(code, "warning", message, file=self.file, line=row, next_step=next_step)
        )

    def ask(self, question: Question) -> None:
        """Note a question that stops the work; the first of each key is kept."""
        self.asked.setdefault(question.key, question)

    def defer(self, key: str, row: str) -> None:
        """Note that a row can't be used until a question of this key is answered."""
        self.unsettled[key].append(row)

    def tell_assumptions(self) -> None:
        """Turn the noted assumptions into findings, each with its rows."""
        for (code, message, next_step), rows in self.noted.items():
            known = list(dict.fromkeys(row for row in rows if row))
            line = int(known[0]) if known and known[0].isdecimal() else 0
            self.findings.add(
                Finding(
                    code,
                    "assumption",
                    f"{message}{rows_text(known)}",
                    file=self.file,
                    line=line,
                    next_step=next_step,
                )
            )


def rows_text(rows: Sequence[str]) -> str:
    """Return the rows as the end of a sentence; nothing for none."""
    if not rows:
        return ""
    most = limit("max_listed_rows")
    shown = ", ".join(rows[:most])
    more = f" and {len(rows) - most} more" if len(rows) > most else ""
    return f" (row{'s' if len(rows) > 1 else ''} {shown}{more})"
