"""Lumber and lag screws by the NDS, allowable stress: strengths as members and details ask them.

Reference design values and factors as cited in catalogs/materials/sources.csv (nds-4a,
nds-4b-recalled, nds-recalled); the equations are written out here once more, in pounds and inches.
"""

from __future__ import annotations

import math

from members import Timber
from shop import Row, Shop, num

PSI = 4.4482216152605 / 25.4**2  # pound-force per square inch in MPa
FACTORS = {
    "gamma_g": 1.0,
    "gamma_q": 1.0,
    "gamma_m_solid": 1.0,
    "gamma_m_connection": 1.0,
    "gamma_m_plywood": 2.0,
    "gamma_m_osb3": 2.0,
    "kmod_plywood_short": 1.0,
    "kmod_osb3_short": 1.0,
    "kmod_solid_short": 1.0,
    "kmod_solid_permanent": 0.9,
    "kmod_solid_instantaneous": 1.6,
    "kdef_solid": 0.5,
    "kcr_solid": 1.0,
    "bearing_extra_mm": 0.0,
}


def as_characteristic(row: Row, lumber: Row) -> Row:
    """Return a class with reference design values in MPa under the names of EN 338."""
    names = {
        "fm_k_mpa": "fb_psi",
        "ft0_k_mpa": "ft_psi",
        "fv_k_mpa": "fv_psi",
        "fc90_k_mpa": "fc_perp_psi",
        "fc0_k_mpa": "fc_psi",
        "e0_mean_mpa": "e_psi",
        "e0_05_mpa": "e_min_psi",
    }
    values = {name: str(num(lumber, key) * PSI) for name, key in names.items()}
    gravity = {"rho_k_kg_m3": str(1000 * num(lumber, "gravity"))}
    return row | values | gravity | {"sized": lumber["sized"]}


class NdsTimber(Timber):
    """A rectangle of lumber on edge."""

    def size(self) -> float:
        """Return CF on Fb and Ft, Table 4A."""
        inches = round(self.h / 25.4 * 4) / 4
        steps = {3.5: 1.5, 4.5: 1.4, 5.5: 1.3, 7.25: 1.2, 9.25: 1.1, 11.25: 1.0}
        # An unknown grade is the least of all, of which one is not sized by depth.
        sized = self.grade.get("sized") == "by depth"
        return next((f for deep, f in steps.items() if inches <= deep), 0.9) if sized else 1.0

    def fm_d(self, f: dict[str, float], kmod: float) -> float:
        """Return Fb*, 4.3.1."""
        return kmod * self.size() * num(self.grade, "fm_k_mpa")

    def moment_d(self, f: dict[str, float], kmod: float, free: float) -> float:
        """Return the allowable moment with CL, 3.3.3.

        CL goes by Fb* at the duration of climbing; a shorter or longer load only scales it.
        """
        star = self.fm_d(f, f["kmod_solid_short"])
        edge = 1.2 * num(self.grade, "e0_05_mpa") / (2.06 * free * self.h / self.b**2)
        a = (1 + edge / star) / 1.9
        stable = a - math.sqrt(a * a - edge / star / 0.95)
        return self.fm_d(f, kmod) * stable * self.b * self.h**2 / 6.0

    def euler(self, free: float) -> float:
        """Return FcE, 3.7.1.5."""
        return 0.822 * num(self.grade, "e0_05_mpa") / (free / self.h) ** 2

    def with_axial(self, f: dict[str, float], bend: float, axial: float, free: float) -> float:
        """Return the use of bending with tension or compression, 3.9."""
        pressed, left, pulled = self._along(axial, free)
        return max(pressed**2 + bend / left, bend + pulled)

    def without_axial(self, f: dict[str, float], use: float, axial: float, free: float) -> float:
        """Return the use of bending in a use by both."""
        pressed, left, pulled = self._along(axial, free)
        return min((use - pressed**2) * left, use - pulled)

    def _along(self, axial: float, free: float) -> tuple[float, float, float]:
        """Return fc/Fc' with CP (3.7.1), 1 - fc/FcE, and ft/Ft'."""
        stress, crush = axial / (self.b * self.h), num(self.grade, "fc0_k_mpa")
        a = (1 + self.euler(free) / crush) / 1.6
        column = a - math.sqrt(a * a - self.euler(free) / crush / 0.8)
        pulled = stress / (self.size() * num(self.grade, "ft0_k_mpa"))
        return stress / (crush * column), 1 - stress / self.euler(free), pulled


def lag_n(mount: Row, deep: float, gravity: float) -> float:
    """Return Z of one lag screw under a thin plate: a hinge at its head; modes II and IIIs."""
    d, root = num(mount, "diameter_mm") / 25.4, num(mount, "root_mm") / 25.4
    fe = 6100 * gravity**1.45 / math.sqrt(d)
    bent = root**2 * math.sqrt(fe * 0.75 * num(mount, "tensile_mpa") / PSI / 3) / (3.2 * 1.25)
    turned = (math.sqrt(2) - 1) * root * deep / 25.4 * fe / (3.6 * 1.25)
    return min(bent, turned) * 4.4482216152605


def in_code(shop: Shop, lumber: dict[str, Row]) -> Shop:
    """Return the shop by the NDS."""
    known = {n: as_characteristic(shop.classes[n], row) for n, row in lumber.items()}
    return Shop(
        **{name: getattr(shop, name) for name in Shop.__dataclass_fields__}
        | {"classes": known, "factors": shop.factors | FACTORS, "code": "NDS"}
    )
