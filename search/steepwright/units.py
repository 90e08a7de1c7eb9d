"""The one unit system (mm, N, MPa, kg, degrees, integer cents) and the ways in and out of it.

Nothing else in the package converts units but `imperial`, at its edges.
"""

from __future__ import annotations

import math
from decimal import Decimal, InvalidOperation

GRAVITY_M_S2 = 9.80665
"""Standard acceleration of free fall [m/s2]; exact by definition (ISO 80000-3)."""


POUND_N = 4.4482216152605
"""A pound-force [N]; exact by definition."""

INCH_MM = 25.4
"""An inch [mm]; exact by definition."""

PSI_MPA = POUND_N / INCH_MM**2
"""A pound-force per square inch [MPa]."""


def cents(text: str) -> int:
    """Return money written as a plain decimal number as integer cents.

    Parameters
    ----------
    text
        A number with a point and at most two decimals, such as ``48.90`` [currency units].

    Raises
    ------
    ValueError
        When the text is no such number, or is not finite.
    """
    try:
        value = Decimal(text.strip())
    except InvalidOperation:
        message = f"{text!r} is not a number like 48.90"
        raise ValueError(message) from None
    scaled = value * 100 if value.is_finite() else None
    if scaled is None or scaled != scaled.to_integral_value():
        message = f"{text!r} is not an amount in whole cents like 48.90"
        raise ValueError(message)
    return int(scaled)


def tax_name(currency: str) -> str:
    """Return what the tax on sales is called where a currency is used."""
    return "sales tax" if currency in ("USD", "CAD") else "VAT"


def money(amount_cents: int, currency: str = "") -> str:
    """Return integer cents as text with two decimals, such as ``48.90 EUR``."""
    sign = "-" if amount_cents < 0 else ""
    whole, part = divmod(abs(amount_cents), 100)
    return f"{sign}{whole}.{part:02d}{' ' + currency if currency else ''}"


def percent_up(share: float) -> str:
    """Return a share as whole percent, such as ``14%``, rounded up: a use is never said smaller."""
    return f"{math.ceil(share * 100 - 1e-9)}%" if math.isfinite(share) else f"{share:.0%}"


def degrees_down(angle_deg: float, decimals: int = 1) -> str:
    """Return an angle [deg] as text, rounded down: a wall is never said to be steeper."""
    scale = 10**decimals
    whole, part = divmod(int(angle_deg * scale + 1e-6), scale)
    return f"{whole}.{part:0{decimals}d}"


def weight_n(mass_kg: float) -> float:
    """Return the weight [N] of a mass [kg]."""
    return mass_kg * GRAVITY_M_S2
