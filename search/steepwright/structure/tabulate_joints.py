"""Design resistances of the screws between sheet, studs and rails, and of a hold's insert."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from steepwright.catalog.families import SheetFamily, TimberSection, frame_screws, sheet_screws
from steepwright.catalog.types import Catalog, Factors, Panel, Screw, TimberClass
from steepwright.structure import nds
from steepwright.structure.nds_joints import in_end_grain_n, in_sheet_n
from steepwright.structure.screws import (
    ShearJoint,
    embedment_osb_mpa,
    embedment_plywood_mpa,
    embedment_timber_mpa,
    head_n,
    johansen_n,
    slip_n_per_mm,
    steel_n,
    withdrawal_by_test_n,
    withdrawal_n,
    yield_moment_nmm,
)
from steepwright.structure.tables import Joints


def joint_table(
    catalog: Catalog, families: tuple[SheetFamily, ...], sections: tuple[TimberSection, ...]
) -> Joints:
    """Return the resistances of every sheet family on every section."""
    materials = catalog.materials
    frame = [_frame_joint_n(catalog, section) for section in sections]
    made = {
        (family, name): _sheet_joint(
            materials.factors,
            materials.panels[family.panel],
            materials.timber_classes[name],
            sheet_screws(catalog, family.thickness_mm),
        )
        for family in families
        for name in {section.strength_class for section in sections}
    }
    rows = [
        [
            (*screw[:3], joint, *screw[3:])
            for section, joint in zip(sections, frame, strict=True)
            for screw in (made[family, section.strength_class],)
        ]
        for family in families
    ]
    table = np.array(rows, dtype=np.float64).reshape(len(families), len(sections), 8)
    return Joints(*(np.ascontiguousarray(table[:, :, i]) for i in range(8)))


def _frame_joint_n(catalog: Catalog, section: TimberSection) -> float:
    """Return what the screws of one joint of the frame hold [N], 0 when none are on sale."""
    packs, factors = frame_screws(catalog, section.width_mm), catalog.materials.factors
    if not packs:
        return 0.0
    timber = catalog.materials.timber_classes[section.strength_class]
    number = min(
        factors["frame_screws_per_joint"], screws_that_fit(factors, packs[0], section.depth_mm)
    )
    return number * frame_screw_n(factors, packs[0], timber, section.width_mm)


def _sheet_joint(
    factors: Factors, panel: Panel, timber: TimberClass, packs: tuple[Screw, ...]
) -> tuple[float, ...]:
    """Return the columns of `Joints` but the frame's: what one screw of the sheet holds."""
    if not packs:
        return 0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0
    screw = packs[0]
    made = SheetScrew(factors, screw, panel, timber)
    return (
        made.axial_n,
        made.lateral_n,
        made.bare_n,
        made.slip_n_per_mm,
        made.thread_mm,
        factors["screw_least_thread_d"] * screw.diameter_mm,
        factors["seam_stud_width_d"] * screw.diameter_mm,
    )


@dataclass(frozen=True, slots=True)
class SheetScrew:
    """One screw through a sheet into a stud: what it holds under the climber."""

    factors: Factors
    screw: Screw
    panel: Panel
    timber: TimberClass

    @property
    def thread_mm(self) -> float:
        """Threaded length in the stud [mm]."""
        inside = self.screw.length_mm - self.panel.mean_thickness_mm
        return max(0.0, min(self.screw.thread_mm, inside))

    @property
    def withdrawal_n(self) -> float:
        """Characteristic withdrawal of the thread [N]."""
        if self.thread_mm <= 0.0:
            return 0.0
        return thread_n(
            self.factors, self.screw.diameter_mm, self.thread_mm, self.timber.rho_k_kg_m3
        )

    @property
    def head_n(self) -> float:
        """Characteristic pull-through of the head [N]."""
        if self.factors.code == "NDS":
            gravity = self.factors[f"panel_gravity_{self.panel.kmod_family}_nds"]
            thick = self.panel.mean_thickness_mm
            return nds.head_pull_through_n(self.screw.head_mm, gravity, thick)
        return flange_n(self.factors, self.panel, self.screw.head_mm)

    @property
    def axial_n(self) -> float:
        """Design resistance along the axis: thread, head and steel [N]."""
        timber, panel = self._kmods
        gamma = self.factors["gamma_m_connection"]
        steel = steel_n(self.screw.root_mm, self.screw.tensile_mpa)
        return float(
            min(
                timber * self.withdrawal_n / gamma,
                panel * self.head_n / gamma,
                steel / self.factors["gamma_m2_steel"],
            )
        )

    @property
    def lateral_n(self) -> float:
        """Design resistance in the sheet's plane [N], with the rope effect, 8.2.2(2)."""
        return self._in_plane_n(min(self.withdrawal_n, self.head_n))

    @property
    def bare_n(self) -> float:
        """Design resistance in the sheet's plane of a screw that is pulled at the same time [N]."""
        return self._in_plane_n(0.0)

    def _in_plane_n(self, rope_n: float) -> float:
        timber, panel = self._kmods
        t, screw = self.panel.mean_thickness_mm, self.screw
        d = 1.1 * screw.root_mm
        if screw.length_mm <= t:
            return 0.0
        if self.factors.code == "NDS":
            return in_sheet_n(self.factors, screw, self.panel, self.timber)
        if self.panel.kmod_family == "osb3":
            sheet = embedment_osb_mpa(d, t)
        else:
            sheet = embedment_plywood_mpa(d, self.panel.rho_k_kg_m3)
        joint = ShearJoint(
            t1_mm=t,
            t2_mm=screw.length_mm - t,
            fh1_mpa=sheet,
            fh2_mpa=embedment_timber_mpa(d, self.timber.rho_k_kg_m3),
            diameter_mm=d,
            yield_nmm=yield_moment_nmm(d, screw.tensile_mpa),
            axial_n=rope_n,
        )
        kmod = (timber * panel) ** 0.5
        return float(kmod * johansen_n(joint) / self.factors["gamma_m_connection"])

    @property
    def slip_n_per_mm(self) -> float:
        """Slip modulus Kser in the sheet's plane [N/mm], on the diameter that counts in shear."""
        return float(
            slip_n_per_mm(
                1.1 * self.screw.root_mm,
                self.panel.rho_mean_kg_m3,
                self.timber.rho_mean_kg_m3,
                self.factors["kser_divisor"],
            )
        )

    @property
    def _kmods(self) -> tuple[float, float]:
        panel = self.factors[f"kmod_{self.panel.kmod_family}_short"]
        return self.factors["kmod_solid_short"], panel


def thread_n(factors: Factors, diameter_mm: float, lef_mm: float, rho_k: float) -> float:
    """Return a thread's characteristic withdrawal square to the grain [N].

    (8.38) from 6 mm; thinner screws by a tested strength, (8.40a). By the NDS its reference
    design value: of a lag screw from 6 mm, of a wood screw below.
    """
    if factors.code == "NDS":
        lag = diameter_mm >= factors["withdrawal_rule_least_mm"]
        rule = nds.lag_withdrawal_n_per_mm if lag else nds.wood_screw_withdrawal_n_per_mm
        return float(rule(rho_k / 1000.0, diameter_mm)) * lef_mm
    if diameter_mm >= factors["withdrawal_rule_least_mm"]:
        return float(withdrawal_n(diameter_mm, lef_mm, rho_k))
    ratio = rho_k / factors["small_screw_density_kg_m3"]
    strength = factors["small_screw_withdrawal_mpa"]
    return float(withdrawal_by_test_n(diameter_mm, lef_mm, strength, ratio))


def flange_n(factors: Factors, panel: Panel, flange_mm: float) -> float:
    """Return what a head or flange of a diameter holds in a panel before it pulls through [N]."""
    thick = panel.mean_thickness_mm > factors["head_pull_thick_from_mm"]
    strength = factors["head_pull_thick_mpa" if thick else "head_pull_thin_mpa"]
    held = head_n(flange_mm, strength, panel.rho_k_kg_m3 / factors["head_pull_density_kg_m3"])
    if panel.thickness_mm < factors["head_pull_thin_from_mm"]:
        held = np.minimum(held, factors["head_pull_thinnest_n"])
    return float(held)


def hold_resistance_n(factors: Factors, panel: Panel) -> float:
    """Return the design resistance of a hold's insert against pulling through the sheet [N]."""
    kmod = factors[f"kmod_{panel.kmod_family}_short"]
    held = flange_n(factors, panel, factors["tnut_flange_mm"])
    return kmod * held / factors["gamma_m_connection"] / factors["kept_divisor"]


def hold_screw_n(factors: Factors, panel: Panel) -> float:
    """Return the design withdrawal of one screw of a hold out of the sheet [N], (8.40a).

    The sheet counts as timber of its density; the thread in it is as long as it is thick, or as
    the screw reaches.
    """
    deep = min(panel.mean_thickness_mm, factors["hold_screw_grip_mm"])
    kmod, density = factors[f"kmod_{panel.kmod_family}_short"], panel.rho_k_kg_m3
    if factors.code == "NDS":
        density = 1000.0 * factors[f"panel_gravity_{panel.kmod_family}_nds"]
    held = thread_n(factors, factors["hold_screw_mm"], deep, density)
    return kmod * held / factors["gamma_m_connection"]


def screws_that_fit(factors: Factors, screw: Screw, depth_mm: float) -> int:
    """Return how many screws fit in one row in a stud's end.

    Predrilled, the same least distance between them and to both edges, Table 8.2.
    """
    least = factors["predrilled_spacing_d"] * screw.diameter_mm
    return max(0, int(depth_mm / least + 1e-9) - 1)


def frame_screw_n(factors: Factors, screw: Screw, timber: TimberClass, rail_mm: float) -> float:
    """Return the design lateral resistance of one screw through a rail into a stud's end [N].

    The load is square to the rail's grain; the stud's end grain has an embedment strength
    `end_grain_embedment_factor` times lower, and gives no rope effect.
    """
    inside = screw.length_mm - rail_mm
    if inside <= 0.0:
        return 0.0
    if factors.code == "NDS":
        return in_end_grain_n(factors, screw, timber, rail_mm)
    d = 1.1 * screw.root_mm
    base = float(embedment_timber_mpa(d, timber.rho_k_kg_m3, predrilled=d > 6.0))
    square = base / (1.35 + 0.015 * d) if d > 6.0 else base
    joint = ShearJoint(
        t1_mm=rail_mm,
        t2_mm=inside,
        fh1_mpa=square,
        fh2_mpa=base / factors["end_grain_embedment_factor"],
        diameter_mm=d,
        yield_nmm=yield_moment_nmm(d, screw.tensile_mpa),
    )
    return float(factors["kmod_solid_short"] * johansen_n(joint) / factors["gamma_m_connection"])
