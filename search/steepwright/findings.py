"""Problems and assumptions, collected and told once.

A finding says where (file, key or line), what was seen, what was expected and what to do next.
Reading code collects findings and raises one `InputError` at the end, so that a user mends a
file in one go.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from steepwright.errors import InputError

Severity = Literal["error", "warning", "assumption"]
_ORDER: dict[str, int] = {"error": 0, "warning": 1, "assumption": 2}


@dataclass(frozen=True, slots=True)
class Finding:
    """One problem or assumption.

    Attributes
    ----------
    code
        Stable short name, such as ``room-unknown-key``.
    severity
        ``error`` stops the work, ``warning`` does not, ``assumption`` is a value we chose.
    message
        What is wrong, in the user's words.
    file, line, key
        Where it was seen; line counts from 1, 0 when it has none.
    seen, expected
        The value found and what would have been right; empty when there is none.
    next_step
        What to do about it.
    """

    code: str
    severity: Severity
    message: str
    file: str = ""
    line: int = 0
    key: str = ""
    seen: str = ""
    expected: str = ""
    next_step: str = ""

    def text(self) -> str:
        """Return the finding as one printable sentence: its place in front, its code behind."""
        place = ":".join(part for part in (self.file, str(self.line) if self.line else "") if part)
        head = f"{place}: " if place else ""
        parts = [f"{head}{self.key + ': ' if self.key else ''}{self.message}"]
        if self.seen:
            parts.append(f"seen: {self.seen}")
        if self.expected:
            parts.append(f"expected: {self.expected}")
        if self.next_step:
            parts.append(self.next_step)
        text = f"{'; '.join(parts)} [{self.code}]"
        return "".join(c if c.isprintable() else "?" for c in text)

    def as_dict(self) -> dict[str, object]:
        """Return the finding as plain data for JSON."""
        return {
            "code": self.code,
            "severity": self.severity,
            "message": self.message,
            "file": self.file,
            "line": self.line,
            "key": self.key,
            "seen": self.seen,
            "expected": self.expected,
            "next_step": self.next_step,
        }


@dataclass(slots=True)
class Findings:
    """A growing list of findings; the one mutable thing that reading code passes along."""

    items: list[Finding] = field(default_factory=list)

    def add(self, finding: Finding) -> None:
        """Keep one more finding."""
        self.items.append(finding)

    def extend(self, findings: Iterable[Finding]) -> None:
        """Keep several more findings."""
        self.items.extend(findings)

    @property
    def errors(self) -> tuple[Finding, ...]:
        """The findings that stop the work."""
        return tuple(item for item in self.sorted() if item.severity == "error")

    def sorted(self) -> tuple[Finding, ...]:
        """Return all findings: errors first, then by file, line and key."""
        return tuple(
            sorted(self.items, key=lambda f: (_ORDER[f.severity], f.file, f.line, f.key, f.code))
        )

    def raise_if_errors(self, what: str) -> None:
        """Raise one `InputError` with every error's text, if there is any error."""
        errors = self.errors
        if not errors:
            return
        count = f"{len(errors)} problem{'s' if len(errors) > 1 else ''}"
        lines = "\n".join(f"  - {error.text()}" for error in errors)
        message = f"{what} has {count}:\n{lines}"
        raise InputError(message, self.sorted())


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the known word that is most like `word`, or an empty text when none is."""
    close = difflib.get_close_matches(word, sorted(known), n=1, cutoff=0.5)
    return close[0] if close else ""
