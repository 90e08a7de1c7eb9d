"""What a price list offers, as typed records, with the reasons for what was left out."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from steepwright.catalog.types import Side
from steepwright.pricelist.lengths import LengthOffer


@dataclass(frozen=True, slots=True)
class Price:
    """A price as printed, and what it is for.

    Attributes
    ----------
    printed
        The figure in the list [currency units].
    basis
        What it is for, such as ``per m2``.
    has_vat
        Whether the printed figure holds VAT.
    tiers
        Other prices by least quantity, as printed; kept, not planned with.
    """

    printed: Decimal
    basis: str
    has_vat: bool
    tiers: tuple[tuple[int, Decimal], ...] = ()


@dataclass(frozen=True, slots=True)
class SheetOffer:
    """A stock sheet; its first size is the length, and `price_cents` is per sheet with VAT."""

    sheet: str
    row: int
    sku: str
    name: str
    kind: str
    panel: str
    thickness_mm: int
    length_mm: int
    width_mm: int
    face_grain: Side
    price: Price
    price_cents: int
    limit: int | None = None
    pack_pieces: int = 0

    @property
    def family(self) -> str:
        """Name of the product family for the sanity band."""
        return self.kind

    @property
    def volume_mm3(self) -> int:
        """Volume of one sheet [mm3]."""
        return self.thickness_mm * self.length_mm * self.width_mm


@dataclass(frozen=True, slots=True)
class TimberOffer:
    """A bar in one stock length; `price_cents` is per bar with VAT, `lengths` all on offer."""

    sheet: str
    row: int
    sku: str
    name: str
    width_mm: int
    depth_mm: int
    length_mm: int
    strength_class: str
    surface: str
    lengths: LengthOffer
    price: Price
    price_cents: int
    limit: int | None = None
    pack_pieces: int = 0

    @property
    def family(self) -> str:
        """Name of the product family for the sanity band."""
        return "timber"

    @property
    def volume_mm3(self) -> int:
        """Volume of one bar [mm3]."""
        return self.width_mm * self.depth_mm * self.length_mm


@dataclass(frozen=True, slots=True)
class HardwareOffer:
    """A small part sold in packs; `price_cents` is per pack with VAT."""

    sheet: str
    row: int
    sku: str
    name: str
    kind: str
    diameter_mm: Decimal
    length_mm: int
    pack_quantity: int
    price: Price
    price_cents: int


@dataclass(frozen=True, slots=True)
class Charge:
    """A charge that is no product: ``cut`` or ``delivery`` [cents with VAT]."""

    sheet: str
    row: int
    kind: str
    name: str
    price_cents: int


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A row that gave no offer, and why."""

    sheet: str
    row: int
    reason: str
    text: str = ""


Offer = SheetOffer | TimberOffer | HardwareOffer


@dataclass(frozen=True, slots=True)
class Question:
    """Something that the list does not decide.

    Attributes
    ----------
    key
        Name of the answer, as in the answers file.
    text
        The question in one sentence.
    flag
        The command-line flag that answers it, with an example.
    choices
        Answers to offer; empty when any text will do.
    rows
        Rows that it touches.
    blocks
        Whether nothing is written until it is answered; else its rows are left out.
    """

    key: str
    text: str
    flag: str
    choices: tuple[str, ...] = ()
    rows: tuple[str, ...] = ()
    blocks: bool = True

    def as_dict(self) -> dict[str, object]:
        """Return the question as plain data for JSON."""
        return {
            "key": self.key,
            "question": self.text,
            "flag": self.flag,
            "choices": list(self.choices),
            "rows": list(self.rows),
            "blocks": self.blocks,
        }
