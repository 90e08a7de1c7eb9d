"""What a price is for: a piece, a metre, a square or cubic metre, a pack, a hundred."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

from steepwright.pricelist.words import hits, norm

Exact: TypeAlias = "Decimal | Fraction"
"""A factor without rounding error."""
UNITS: tuple[str, ...] = (
    "piece",
    "m",
    "m2",
    "m3",
    "pack",
    "unit",
    "ft",
    "ft2",
    "ft3",
    "msf",
    "bf",
    "mbf",
)

FOOT_M = Decimal("0.3048")
"""The international foot [m]; exact by definition (1959 agreement)."""
INCH_MM = Decimal("25.4")
_FOOT = Fraction(FOOT_M)
_COUNTED = re.compile(r"^\s*(?:per|pro|je|les|à|a|/)?\s*(\d{1,5})\s*(.*)$")


@dataclass(frozen=True, slots=True)
class Basis:
    """The price is for `count` of `unit`, such as 100 pieces."""

    unit: str
    count: Decimal = Decimal(1)

    @property
    def label(self) -> str:
        """Name for tables, such as ``per m2`` or ``per 100 pieces``."""
        if self.count == 1:
            return f"per {self.unit}"
        return f"per {self.count:f} {'pieces' if self.unit == 'piece' else self.unit}"


@dataclass(frozen=True, slots=True)
class Piece:
    """The sizes of one stock piece [mm] that turn a price into one per piece.

    `nominal_in` holds the nominal section [in] of lumber sold by the board foot.
    """

    thickness_mm: Decimal
    width_mm: Decimal
    length_mm: Decimal
    pack_pieces: int = 0
    nominal_in: tuple[Decimal, Decimal] | None = None


@lru_cache(maxsize=16384)
def basis_in(text: str) -> Basis | None:
    """Return the basis that a unit text such as ``St``, ``100 Stk``, ``m²`` or ``per ml`` names."""
    if not text.strip():
        return None
    counted = _COUNTED.match(text.strip())
    count = Decimal(counted.group(1)) if counted else Decimal(1)
    rest = counted.group(2) if counted else text
    words = norm(rest)
    if counted and (not words.strip() or count == 0):
        return Basis("piece", count) if int(count) in (1, 10, 100, 1000) else None
    found = hits("basis", words)
    if not found:
        return None
    unit = found[0].value
    if unit in ("100", "1000"):
        return Basis("piece", Decimal(unit) * count)
    return Basis(unit, count)


def parse_answer(text: str) -> Basis | None:
    """Return the basis that ``--basis`` names: one of the units, 100 or 1000."""
    bare = text.strip().casefold()
    if bare in UNITS:
        return Basis(bare)
    if bare in ("100", "1000"):
        return Basis("piece", Decimal(bare))
    return basis_in(text)


def pieces_per_price(basis: Basis, piece: Piece, timber: bool) -> Exact | None:
    """Return the factor from a price on this basis to the price of one piece; None if it can't be.

    The exact factors: length [m], face area [m2] (for timber the wide face), volume [m3],
    one over the pieces of a pack (a *unit* is a pack where a row counts its pieces), board feet =
    nominal inches x inches x feet / 12.
    """
    unit = basis.unit
    if basis.count == 0 or (unit in ("m", "ft") and not timber):
        return None
    factor: Exact | None = _metric_factor(unit, piece)
    if factor is None:
        factor = _other_factor(unit, piece, timber)
    return (
        factor if factor is None or basis.count == 1 else Fraction(factor) / Fraction(basis.count)
    )


def _metric_factor(unit: str, piece: Piece) -> Decimal | None:
    """Return a factor that has finitely many decimals; its product stays exact in 28 digits."""
    if unit == "piece":
        return Decimal(1)
    if unit == "m":
        return piece.length_mm / 1000
    if unit == "m2":
        return piece.width_mm * piece.length_mm / 10**6
    if unit == "m3":
        return piece.width_mm * piece.length_mm * piece.thickness_mm / 10**9
    return None


def _other_factor(unit: str, piece: Piece, timber: bool) -> Fraction | None:
    if unit == "pack":
        return Fraction(1, piece.pack_pieces) if piece.pack_pieces > 0 else None
    if unit == "unit":
        return Fraction(1, max(1, piece.pack_pieces))
    length_ft = Fraction(piece.length_mm) / 1000 / _FOOT
    if unit == "ft":
        return length_ft
    if unit in ("bf", "mbf"):
        if not timber or piece.nominal_in is None:
            return None
        feet = _board_feet(piece.nominal_in, piece.length_mm)
        return feet if unit == "bf" else feet / 1000
    area_ft2 = Fraction(piece.width_mm) / 1000 / _FOOT * length_ft
    return {
        "ft2": area_ft2,
        "msf": area_ft2 / 1000,
        "ft3": area_ft2 * Fraction(piece.thickness_mm) / 1000 / _FOOT,
    }.get(unit)


def _board_feet(nominal_in: tuple[Decimal, Decimal], length_mm: Decimal) -> Fraction:
    feet = Fraction(length_mm) / Fraction(INCH_MM * 12)
    return Fraction(nominal_in[0]) * Fraction(nominal_in[1]) * feet / 12


def to_cents(price: Decimal, vat_factor: Decimal, factor: Exact) -> int:
    """Return the price of one piece in cents, rounded once, half a cent up."""
    if isinstance(factor, Decimal):
        exact = price * vat_factor * factor * 100
        return int(exact.to_integral_value(rounding=ROUND_HALF_UP))
    return int(Fraction(price) * Fraction(vat_factor) * factor * 100 + Fraction(1, 2))
