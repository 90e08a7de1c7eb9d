"""Checks of the structure that carry most proofs, by the clauses of the code, derived anew.

The clauses named are those of EN 1995-1-1; where a room is checked by the NDS, `nds` has its own.

Each returns the use (demand over capacity) at a box's least corner. No use falls when a length
or the angle grows, so a use above 1 there rules the whole box out.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.units import GRAVITY_M_S2
from steepwright.verify import nds
from steepwright.verify.fixings import Holding, hold_n, holding
from steepwright.verify.sharing import sharing

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Document = dict[str, Any]

BEYOND = 1e-9
"""A check has failed when its use exceeds 1 by more than this; less proves nothing."""

NOTHING_BEARS = 1e6
"""The use when there is a demand and nothing to bear it."""


@dataclass(frozen=True, slots=True)
class Corners:
    """Walls at least corners: choices and lengths, arrays of one length; lengths in mm."""

    family: IntArray
    section: IntArray
    across: BoolArray
    columns: IntArray
    rows: IntArray
    studs: IntArray
    bay_mm: FloatArray
    board_mm: FloatArray
    angle_rad: FloatArray
    screw_mm: FloatArray

    def take(self, index: Any) -> Corners:
        """Return some of the walls."""
        return Corners(*(getattr(self, name)[index] for name in Corners.__slots__))


@dataclass(frozen=True, slots=True)
class Figures:
    """Materials by family and section, and the climbers, as arrays; N, mm, MPa."""

    factors: Document
    climber: Document
    code: str
    t_mm: FloatArray
    fm_d: FloatArray
    fm_across_d: FloatArray
    fr_d: FloatArray
    fr_across_d: FloatArray
    ei_sheet: FloatArray
    ei_sheet_across: FloatArray
    sheet_n_mm2: FloatArray
    hold_n: FloatArray
    bars: dict[str, FloatArray]
    screws: dict[str, FloatArray]


def figures(given: Document, climber: Document, code: str) -> Figures:
    """Work out design strengths from what is given, by the room's design code."""
    factors = given["factors"]
    panels = [given["panels"][f["panel"]] for f in given["families"]]

    def per_panel(make: Callable[[Document], float]) -> FloatArray:
        return np.array([make(panel) for panel in panels], dtype=np.float64)

    def design(panel: Document) -> float:
        kind = panel["kmod_family"]
        return float(factors[f"kmod_{kind}_short"] / factors[f"gamma_m_{kind}"])

    def weak(panel: Document, name: str) -> float:
        return float(min(panel[f"{name}_along_mpa"], panel[f"{name}_across_mpa"]))

    def per_width(panel: Document, modulus: float) -> float:
        return float(modulus * panel["mean_thickness_mm"] ** 3 / 12)

    return Figures(
        factors=factors,
        climber=climber,
        code=code,
        t_mm=per_panel(lambda p: p["mean_thickness_mm"]),
        fm_d=per_panel(lambda p: weak(p, "fm") * design(p)),
        fm_across_d=per_panel(lambda p: p["fm_along_mpa"] * design(p)),
        fr_d=per_panel(lambda p: min(p["fv_planar_mpa"], p["fv_planar_across_mpa"]) * design(p)),
        fr_across_d=per_panel(lambda p: p["fv_planar_mpa"] * design(p)),
        ei_sheet=per_panel(lambda p: per_width(p, weak(p, "e"))),
        ei_sheet_across=per_panel(lambda p: per_width(p, p["e_along_mpa"])),
        sheet_n_mm2=per_panel(
            lambda p: p["mean_thickness_mm"] * p["rho_mean_kg_m3"] * GRAVITY_M_S2 / 1e9
        ),
        hold_n=per_panel(lambda p: hold_n(factors, p)),
        bars=nds.bar_figures(given) if code == "NDS" else _bar_figures(given),
        screws=_screw_figures(given, panels, nds.holding if code == "NDS" else holding),
    )


def _screw_figures(
    given: Document, panels: list[Document], holds: Callable[..., Holding]
) -> dict[str, FloatArray]:
    """Return what screws hold, by family and section."""
    factors, classes = given["factors"], given["timber_classes"]
    rows = [
        [
            holds(factors, family, panel, section, classes[section["strength_class"]])
            for section in given["sections"]
        ]
        for family, panel in zip(given["families"], panels, strict=True)
    ]
    table = np.array(rows, dtype=np.float64)
    return {name: table[:, :, n] for n, name in enumerate(Holding._fields)}


def _bar_figures(given: Document) -> dict[str, FloatArray]:
    factors = given["factors"]
    strength = factors["kmod_solid_short"] / factors["gamma_m_solid"]
    rows = []
    for section in given["sections"]:
        timber = given["timber_classes"][section["strength_class"]]
        b, h = float(section["width_mm"]), float(section["depth_mm"])
        kh = min(max((150.0 / h) ** 0.2, 1.0), 1.3)  # (3.1)
        e05 = timber["e0_05_mpa"]
        rows.append(
            {
                "b": b,
                "h": h,
                "fm_k": timber["fm_k_mpa"],
                "moment": kh * strength * timber["fm_k_mpa"] * b * h**2 / 6,
                "tilt": 0.78 * b**2 * e05 / h,  # (6.32), times the effective length
                "slender": (12 * timber["fc0_k_mpa"] / e05) ** 0.5 / (np.pi * h),  # (6.21)
                "ft0_d": strength * timber["ft0_k_mpa"],
                "fc0_d": strength * timber["fc0_k_mpa"],
                "ei": timber["e0_mean_mpa"] * b * h**3 / 12,
                "n_mm": b * h * timber["rho_mean_kg_m3"] * GRAVITY_M_S2 / 1e9,
            }
        )
    return {name: np.array([row[name] for row in rows], dtype=np.float64) for name in rows[0]}


class Loads:
    """Loads of a set of walls, each worked out once."""

    def __init__(self, known: Figures, walls: Corners) -> None:
        self.known, self.walls = known, walls
        f, climber = known.factors, known.climber
        self.one_n = climber["mass_kg"] * GRAVITY_M_S2 * climber["dynamic_factor"]
        self.all_n = self.one_n * climber["climbers"]
        self.lean = np.sin(walls.angle_rad)
        square = np.maximum(self.lean, f["hold_pull_factor"])
        self.push_n, self.one_push_n = square * self.all_n, square * self.one_n
        self.area = known.sheet_n_mm2[walls.family] + f["hold_mass_kg_m2"] * GRAVITY_M_S2 / 1e6
        self.line = f["self_weight_continuity"] * walls.bay_mm * self.area + self.bar("n_mm")

    def bar(self, name: str) -> FloatArray:
        """Return a figure of each wall's section."""
        return np.asarray(self.known.bars[name][self.walls.section])

    def screw(self, name: str) -> FloatArray:
        """Return a resistance of the screws between each wall's sheet and section."""
        return np.asarray(self.known.screws[name][self.walls.family, self.walls.section])


Check = Callable[[Loads], FloatArray]


def over(demand: FloatArray, capacity: FloatArray) -> FloatArray:
    """Return demand over capacity; `NOTHING_BEARS` where nothing bears a demand."""
    bears = capacity > 0
    use = np.where(bears, demand / np.where(bears, capacity, 1.0), NOTHING_BEARS)
    return np.asarray(np.where(demand > 0, use, 0.0))


def _strip_mm(loads: Loads) -> FloatArray:
    f = loads.known.factors
    strip = np.minimum(f["sheet_strip_ratio"] * loads.walls.bay_mm, f["sheet_strip_limit_mm"])
    return np.asarray(strip)


def sheet_bending(loads: Loads) -> FloatArray:
    """Return the use by one climber on a strip of sheet between studs (6.1.6)."""
    f, walls, known = loads.known.factors, loads.walls, loads.known
    climb = f["gamma_q"] * loads.one_push_n * walls.bay_mm / 4 / _strip_mm(loads)
    weight = f["gamma_g"] * loads.area * loads.lean * walls.bay_mm**2 / 8
    strength = np.where(walls.across, known.fm_across_d[walls.family], known.fm_d[walls.family])
    return over((climb + weight) * 6 / known.t_mm[walls.family] ** 2, strength)


def sheet_rolling_shear(loads: Loads) -> FloatArray:
    """Return the use by one climber on a width of sheet beside a stud (6.1.7)."""
    f, walls, known = loads.known.factors, loads.walls, loads.known
    climb = f["gamma_q"] * loads.one_push_n / f["sheet_shear_width_mm"]
    weight = f["self_weight_continuity"] * loads.area * loads.lean * walls.bay_mm / 2
    strength = np.where(walls.across, known.fr_across_d[walls.family], known.fr_d[walls.family])
    return over(1.5 * (climb + f["gamma_g"] * weight) / known.t_mm[walls.family], strength)


def stud_bending(loads: Loads) -> FloatArray:
    """Return the use by bending, tilting and the load along the stud (6.2.4, 6.3.2, 6.3.3)."""
    f = loads.known.factors
    return bending_use(loads, (f["gamma_q"], f["gamma_g"]), moment_share(loads))


def stud_bending_undone(loads: Loads) -> FloatArray:
    """Return the use of studs whose ties are undone, as an accident: no loads are raised.

    kmod of an instantaneous action, and the partial factor of an accident.
    """
    f = loads.known.factors
    strength = f["kmod_solid_instantaneous"] / f["gamma_m_accidental"]
    strength = strength / f["kmod_solid_short"] * f["gamma_m_solid"]
    one = float(f["gamma_accidental"])
    return np.asarray(bending_use(loads, (one, one), moment_share(loads)) / strength)


def bending_use(
    loads: Loads,
    factors: tuple[float, float],
    share: FloatArray,
    along_n: FloatArray | float = 0.0,
) -> FloatArray:
    """Return a stud's use with partial factors on climbers and weight and a share of the moment.

    `along_n` is what pulls along it besides.
    """
    f, span = loads.known.factors, loads.walls.board_mm
    on_climbers, on_weight = factors
    climb = on_climbers * loads.push_n * span / 4 * share
    weight = on_weight * loads.line * span**2 / 8 * loads.lean
    axial = on_climbers * (loads.all_n + along_n) + on_weight * loads.line * span
    if loads.known.code == "NDS":
        return nds.bend_and_push(loads.bar, f["lef_ratio"] * span, span, climb + weight, axial)
    slender = np.sqrt(loads.bar("fm_k") * f["lef_ratio"] * span / loads.bar("tilt"))
    tilt = np.select(
        [slender <= 0.75, slender <= 1.4],
        [np.ones_like(slender), 1.56 - 0.75 * slender],
        1 / np.maximum(slender, 1.0) ** 2,
    )  # (6.34)
    bend = (climb + weight) / (loads.bar("moment") * tilt)
    lam = loads.bar("slender") * span
    k = 0.5 * (1 + f["beta_c_solid"] * (lam - 0.3) + lam**2)  # (6.27)
    kc = np.minimum(1.0, 1 / (k + np.sqrt(np.maximum(k**2 - lam**2, 0.0))))  # (6.25)
    weakest = np.minimum(loads.bar("ft0_d"), loads.bar("fc0_d") * kc)
    return np.asarray(bend + axial / (weakest * loads.bar("b") * loads.bar("h")))


def moment_share(loads: Loads) -> FloatArray:
    """Return the worst stud's share; a seam across the slope ends all sharing."""
    walls, known = loads.walls, loads.known
    across = np.where(
        walls.across, known.ei_sheet_across[walls.family], known.ei_sheet[walls.family]
    )
    across = np.where(walls.rows > 1, 0.0, across)
    z = walls.board_mm * (across / (loads.bar("ei") * walls.bay_mm**3)) ** 0.25
    share = np.empty(len(z))
    pattern = walls.columns * 1000 + walls.studs
    for code in np.unique(pattern):
        rows = pattern == code
        share[rows] = sharing(int(code) // 1000, int(code) % 1000).moment(z[rows])
    return share


def reaction_share(loads: Loads) -> FloatArray:
    """Return what a stud gets of a load that stands on it."""
    walls = loads.walls
    pattern = walls.columns * 1000 + walls.studs
    codes, index = np.unique(pattern, return_inverse=True)
    shares = [sharing(int(code) // 1000, int(code) % 1000).reaction for code in codes]
    return np.array(shares, dtype=np.float64)[index]


def seam_stud_width(loads: Loads) -> FloatArray:
    """Return the use where two sheets meet on one stud: edges of both rows (Table 8.2)."""
    seam = loads.screw("seam_mm") * (loads.walls.columns > 1)
    return over(seam, loads.bar("b"))


def stud_joint(loads: Loads) -> FloatArray:
    """Return the use of the screws through the rail into the stud's end (8.2.2)."""
    f = loads.known.factors
    climb = f["gamma_q"] * loads.push_n * reaction_share(loads)
    weight = f["gamma_g"] * loads.line * loads.lean * loads.walls.board_mm / 2
    return over(climb + weight, loads.screw("frame_n"))


def _screws_pull_out(loads: Loads) -> FloatArray:
    """Return the use of the screw beside a hold along its axis (8.7.2)."""
    f = loads.known.factors
    # The nearest of springs at distance s under a strip takes ~ s^(3/4) of a load.
    apart = loads.walls.screw_mm / f["sheet_screw_spacing_mm"]
    share = np.minimum(f["sheet_screw_axial_share"] * apart**0.75, 1.0)
    climb = f["gamma_q"] * loads.one_push_n * share
    return over(climb + _screw_weight(loads) * loads.lean, loads.screw("axial_n"))


def _screw_weight(loads: Loads) -> FloatArray:
    f = loads.known.factors
    area = loads.walls.screw_mm * loads.walls.bay_mm
    return np.asarray(f["gamma_g"] * f["self_weight_continuity"] * loads.area * area)


def screws_combined(loads: Loads) -> FloatArray:
    """Return the use of the sheet screws by both forces at once, the root of (8.28)."""
    f = loads.known.factors
    length = f["sheet_screw_lateral_number"] * f["sheet_screw_spacing_mm"]
    number = np.maximum(length / loads.walls.screw_mm, 1.0)
    level = f["gamma_q"] * loads.one_n / number + _screw_weight(loads)
    return np.hypot(_screws_pull_out(loads), over(level, loads.screw("bare_n")))


def hold_insert(loads: Loads) -> FloatArray:
    """Return the use of a hold's insert by one climber's pull at the worst angle (8.40b).

    The hold turns about its edge; lever cos t + sin t is nowhere more than hypot(lever, 1).
    """
    f = loads.known.factors
    lever = f["hold_standoff_mm"] / f["hold_lever_mm"]
    pull = f["gamma_q"] * loads.one_n * np.hypot(lever, 1.0)
    return np.asarray(pull / loads.known.hold_n[loads.walls.family])


SCREWS = "sheet screw combined"
"""The check that tells which distances of the sheet's screws hold."""

HOLD = "hold insert"

CHECKS: dict[str, Check] = {
    "seam stud width": seam_stud_width,
    "sheet bending": sheet_bending,
    "stud bending": stud_bending,
    SCREWS: screws_combined,
    "sheet rolling shear": sheet_rolling_shear,
    "stud to rail joint": stud_joint,
}
"""Checks that the checker derives for itself, by the names the designs use."""
