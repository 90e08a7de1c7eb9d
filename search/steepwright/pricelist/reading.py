"""What one price list was read as."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from steepwright.findings import Finding
from steepwright.pricelist.offers import (
    Charge,
    HardwareOffer,
    LeftOut,
    Offer,
    Question,
    SheetOffer,
    TimberOffer,
)
from steepwright.pricelist.sanity import Band


@dataclass(frozen=True, slots=True)
class Counts:
    """Rows of a list: all with something in them, items that gave offers, headings, blanks."""

    read: int = 0
    used: int = 0
    left_out: int = 0
    headings: int = 0
    blanks: int = 0


@dataclass(frozen=True, slots=True)
class PriceListReading:
    """Offers with everything that was assumed, asked and left out.

    Attributes
    ----------
    file, yard, currency, date
        Where it comes from; `date` is ISO text, `currency` an ISO code, empty if undecided.
    vat
        What holds for the printed prices, in words.
    findings
        Assumptions, warnings and errors, each with file and row.
    questions
        What the list does not decide; those that block must be answered first.
    layout
        A fingerprint of the header, by which kept answers are found again.
    header_rows
        Sheet name and rows of each header that was taken.
    is_untaxed
        Whether no price holds VAT and none was added, its rate being 0.
    """

    file: str
    yard: str
    offers: tuple[Offer, ...]
    charges: tuple[Charge, ...]
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...]
    left_out: tuple[LeftOut, ...]
    counts: Counts
    bands: tuple[Band, ...]
    currency: str
    date: str
    vat: str
    vat_rate: Decimal | None
    layout: str
    header_rows: tuple[tuple[str, int, int], ...] = ()
    is_untaxed: bool = False

    @property
    def sheets(self) -> tuple[SheetOffer, ...]:
        """The sheet offers."""
        return tuple(offer for offer in self.offers if isinstance(offer, SheetOffer))

    @property
    def timber(self) -> tuple[TimberOffer, ...]:
        """The timber offers, one per stock length."""
        return tuple(offer for offer in self.offers if isinstance(offer, TimberOffer))

    @property
    def hardware(self) -> tuple[HardwareOffer, ...]:
        """The hardware offers."""
        return tuple(offer for offer in self.offers if isinstance(offer, HardwareOffer))

    @property
    def blocking(self) -> tuple[Question, ...]:
        """The questions that must be answered before anything is written."""
        return tuple(question for question in self.questions if question.blocks)

    @property
    def assumptions(self) -> tuple[Finding, ...]:
        """The findings that are assumptions."""
        return tuple(finding for finding in self.findings if finding.severity == "assumption")
