"""What a yard sells and what it is made of, as frozen records.

Lengths in mm, strengths in MPa, densities in kg/m3, forces in N, money in integer cents.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from steepwright.findings import Finding

Side = Literal["length", "width"]
KmodFamily = Literal["solid", "plywood", "osb3"]
Code = Literal["EN 1995", "NDS"]

OFFCUT = "offcut-"
"""Begins the numbers of the builder's offcuts, which the room file tells; no article's does."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure comes from; `memory` is true when it was recalled, not read."""

    id: str
    title: str
    note: str
    memory: bool


@dataclass(frozen=True, slots=True)
class TimberClass:
    """A strength class of solid timber: characteristic values [MPa] and densities [kg/m3].

    `standard` names the grading rules it belongs to. In a room checked by the NDS the values are
    reference design values, `e0_05_mpa` is Emin, and `nds_sized` tells whether Fb and Ft take the
    size factor.
    """

    name: str
    fm_k_mpa: float
    ft0_k_mpa: float
    ft90_k_mpa: float
    fc0_k_mpa: float
    fc90_k_mpa: float
    fv_k_mpa: float
    e0_mean_mpa: float
    e0_05_mpa: float
    e90_mean_mpa: float
    g_mean_mpa: float
    rho_k_kg_m3: float
    rho_mean_kg_m3: float
    standard: str
    source: str
    nds_sized: bool = field(default=False, metadata={"in_file": False})


@dataclass(frozen=True, slots=True)
class NdsLumber:
    """Reference design values of one grade of lumber, NDS Supplement [psi].

    `sized` is "by depth" where Fb and Ft take the size factor of Table 4A, "no" where they are
    those of the size already.
    """

    name: str
    fb_psi: float
    ft_psi: float
    fv_psi: float
    fc_perp_psi: float
    fc_psi: float
    e_psi: float
    e_min_psi: float
    gravity: float
    sized: str
    source: str


@dataclass(frozen=True, slots=True)
class Panel:
    """The material of a sheet: strengths along and across the face grain.

    `thickness_mm` is the nominal thickness, `mean_thickness_mm` the one to calculate with.
    `fv_planar_mpa` is the rolling shear strength for a span along the face grain,
    `fv_planar_across_mpa` for one across it. `service_class` is the dampest it may be used in.
    """

    id: str
    kind: str
    thickness_mm: int
    mean_thickness_mm: float
    fm_along_mpa: float
    fm_across_mpa: float
    e_along_mpa: float
    e_across_mpa: float
    fv_planar_mpa: float
    fv_panel_mpa: float
    g_panel_mpa: float
    rho_k_kg_m3: float
    rho_mean_kg_m3: float
    kmod_family: KmodFamily
    source: str
    fv_planar_across_mpa: float = 0.0
    service_class: int = 1


@dataclass(frozen=True, slots=True)
class Factors:
    """Rule constants (kmod, gamma_M, load factors, limits, friction ...), by key.

    Each lives in ``catalogs/materials/factors.csv`` with its unit, clause and source. `code` is the
    design code that they are of.
    """

    values: Mapping[str, float]
    sources: Mapping[str, str]
    code: Code = "EN 1995"

    def __getitem__(self, key: str) -> float:
        """Return the value of one constant; an unknown key is our own mistake."""
        return self.values[key]

    def in_service_class(self, number: int) -> Factors:
        """Return the constants with kmod and kdef of a service class, 2.3.1.3.

        A key such as ``kmod_osb3_sc2_short`` holds what ``kmod_osb3_short`` is in class 2; where
        there is none both classes share a value (Table 3.1).
        """
        return self._with(f"_sc{number}")

    def in_code(self, code: Code) -> Factors:
        """Return the constants of a design code: ``gamma_q_nds`` stands for ``gamma_q`` there."""
        return replace(self._with("_nds"), code=code) if code == "NDS" else self

    def _with(self, mark: str) -> Factors:
        own = {key.replace(mark, ""): key for key in self.values if mark in key}
        values = {key: self.values[own.get(key, key)] for key in self.values}
        return replace(self, values=values)


@dataclass(frozen=True, slots=True)
class Materials:
    """All shipped material facts, by name, with their sources."""

    timber_classes: Mapping[str, TimberClass]
    panels: Mapping[str, Panel]
    factors: Factors
    sources: Mapping[str, Source]
    nds_lumber: Mapping[str, NdsLumber] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SheetProduct:
    """A stock sheet: its first size is the length; `face_grain` names the side it runs along."""

    sku: str
    name: str
    kind: str
    panel: str
    thickness_mm: int
    length_mm: int
    width_mm: int
    face_grain: Side
    price_cents: int
    limit: int | None = None
    yard: str = ""


@dataclass(frozen=True, slots=True)
class TimberProduct:
    """A stock bar: `width_mm` is the narrow side b, `depth_mm` the deep side h."""

    sku: str
    name: str
    width_mm: int
    depth_mm: int
    length_mm: int
    strength_class: str
    surface: str
    price_cents: int
    limit: int | None = None
    yard: str = ""


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw sold in packs; `role` is ``sheet`` (sheet to stud) or ``frame`` (stud to rail)."""

    sku: str
    name: str
    role: Literal["sheet", "frame"]
    diameter_mm: float
    root_mm: float
    length_mm: float
    thread_mm: float
    head_mm: float
    tensile_mpa: float
    pack_quantity: int
    price_cents: int
    yard: str = ""


@dataclass(frozen=True, slots=True)
class Mount:
    """One hanging point of the lip on the ceiling beam, sold as a set.

    `drop_mm` from the beam's underside down to the pivot; `setback_mm` from the lip to the
    pivot along the board; `behind_sheet_mm` from the sheet's back to the pivot. Each set
    is held in the beam by `screws` wood screws (hooks, coach screws) of `diameter_mm` with
    `thread_mm` of thread in the beam, loaded along their axis. `rated_n` is the maker's
    working load of the set, None when none is stated. `adjust_mm` is its range in height.

    Against the beam lies a plate `plate_mm` wide across the beam, with its screws in one row, or
    in two of as many each that are `row_gap_mm` apart; it is stiff down to `stiff_mm` below the
    beam, where it swivels. None is not stated.
    """

    sku: str
    name: str
    drop_mm: int
    setback_mm: int
    behind_sheet_mm: int
    screws: int
    diameter_mm: float
    root_mm: float
    thread_mm: float
    tensile_mpa: float
    rated_n: float | None
    adjust_mm: int
    thread_pitch_mm: float
    price_cents: int
    yard: str = ""
    plate_mm: int | None = None
    row_gap_mm: int = 0
    stiff_mm: int | None = None


@dataclass(frozen=True, slots=True)
class Hardware:
    """Other small parts: hinges, T-nuts, bolts, rope, straps, pulleys, brakes, latches, pads, ties.

    `kind` is one of ``hinge tnut bolt rope strap pulley brake latch pad tie``; a tie is a set of
    rope or strap with what tightens it and its bolts, `length_mm` the longest it bridges.
    `rated_n` is the working load, `breaking_n` the minimum breaking force, `stiffness_n` the axial
    stiffness EA of a line, `efficiency` that of a pulley's sheave; 0 or None where it means
    nothing.
    """

    sku: str
    name: str
    kind: str
    pack_quantity: int
    price_cents: int
    diameter_mm: float = 0.0
    length_mm: int = 0
    width_mm: int = 0
    thickness_mm: int = 0
    rated_n: float | None = None
    breaking_n: float | None = None
    stiffness_n: float | None = None
    efficiency: float | None = None
    yard: str = ""


@dataclass(frozen=True, slots=True)
class Catalog:
    """One yard's offers (or several yards' together) with the materials they refer to."""

    name: str
    currency: str
    date: str
    note: str
    sheets: tuple[SheetProduct, ...]
    timber: tuple[TimberProduct, ...]
    screws: tuple[Screw, ...]
    mounts: tuple[Mount, ...]
    hardware: tuple[Hardware, ...]
    materials: Materials
    findings: tuple[Finding, ...] = field(default=())
    vat: Literal["included", "excluded"] = "included"
    trips: tuple[tuple[str, int], ...] = ()
    """Yards and what one trip to each costs [cents]; none is free."""
