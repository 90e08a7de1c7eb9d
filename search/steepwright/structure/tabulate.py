"""Work out the look-up tables of one room, catalogue and choice of products."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from steepwright.catalog.families import SheetFamily, TimberSection
from steepwright.catalog.types import Catalog, Panel, TimberClass
from steepwright.errors import InputError
from steepwright.room.types import Room
from steepwright.structure.codes import MEMBER_RULES
from steepwright.structure.tables import Bars, Loads, Sheets, Tables, as_array
from steepwright.structure.tabulate_beams import beam_table, hanger_table
from steepwright.structure.tabulate_joints import hold_resistance_n, hold_screw_n, joint_table
from steepwright.structure.tabulate_ledger import ledger_table
from steepwright.structure.tabulate_lift import hoist_table
from steepwright.structure.tabulate_lip import lip_table
from steepwright.structure.tabulate_spread import spread_table
from steepwright.structure.tabulate_stand import stand_table
from steepwright.structure.tabulate_tie import tie_table
from steepwright.structure.timber import (
    design_mpa,
    require_positive,
    second_moment_mm4,
    section_modulus_mm3,
)
from steepwright.units import weight_n


def build_tables(
    catalog: Catalog,
    room: Room,
    sheets: tuple[SheetFamily, ...],
    sections: tuple[TimberSection, ...],
) -> Tables:
    """Work out every look-up table of one room and catalogue.

    Raises
    ------
    InputError
        When a strength class or panel is not in the catalogue, or a size or load isn't
        physical.
    """
    try:
        return _tables(catalog, room, sheets, sections)
    except (ValueError, KeyError) as error:
        reason = error.args[0] if error.args else error
        message = f"the wall's strength can't be worked out: {reason}"
        raise InputError(message) from error


def _tables(
    catalog: Catalog,
    room: Room,
    sheets: tuple[SheetFamily, ...],
    sections: tuple[TimberSection, ...],
) -> Tables:
    panels = [panel_of(catalog, family) for family in sheets]
    classes = [class_of(catalog, section.strength_class) for section in sections]
    return Tables(
        beams=beam_table(catalog, room),
        stands=stand_table(catalog, room),
        ledgers=ledger_table(catalog, room),
        spreads=spread_table(catalog, room),
        sheets=_sheet_table(catalog, sheets, panels),
        timber=_bar_table(catalog, sections, classes),
        joints=joint_table(catalog, sheets, sections),
        mounts=hanger_table(catalog, room),
        lips=lip_table(catalog.materials.factors, sections, classes),
        ties=tie_table(catalog, room, sections, classes),
        loads=_loads(catalog, room),
        hoist=hoist_table(catalog, room),
        hinge_n=_hinge_n(catalog),
        factors=catalog.materials.factors.values,
        code=catalog.materials.factors.code,
        words=_words(catalog, room),
    )


def panel_of(catalog: Catalog, family: SheetFamily) -> Panel:
    """Return the material of a sheet family; KeyError with the reason when it is missing."""
    try:
        return catalog.materials.panels[family.panel]
    except KeyError:
        message = f"panel {family.panel!r} of {family.label} is not in panels.csv"
        raise KeyError(message) from None


def class_of(catalog: Catalog, name: str) -> TimberClass:
    """Return a strength class; KeyError with the reason when it is missing."""
    try:
        return catalog.materials.timber_classes[name]
    except KeyError:
        message = f"strength class {name!r} is not in timber_classes.csv"
        raise KeyError(message) from None


def _loads(catalog: Catalog, room: Room) -> Loads:
    factors, climber = catalog.materials.factors, room.climber
    require_positive(
        mass_kg=climber.mass_kg,
        dynamic_factor=climber.dynamic_factor,
        climbers=float(climber.climbers),
    )
    static = weight_n(climber.mass_kg)
    return Loads(
        climber_n=static * climber.dynamic_factor,
        static_n=static,
        climbers=climber.climbers,
        permanent=factors["kmod_solid_permanent"] / factors["kmod_solid_short"],
        accidental=factors["kmod_solid_instantaneous"]
        / factors["gamma_m_accidental"]
        * factors["gamma_m_solid"]
        / factors["kmod_solid_short"],
        hold_n_per_mm2=weight_n(factors["hold_mass_kg_m2"]) / 1e6,
        fold_up=room.wall.fold_up,
    )


def _words(catalog: Catalog, room: Room) -> Mapping[str, str]:
    words = {key: f"{value:g}" for key, value in catalog.materials.factors.values.items()}
    climber = room.climber
    return words | {
        "climber_kg": f"{climber.mass_kg:g}",
        "dynamic_factor": f"{climber.dynamic_factor:g}",
        "service_class": str(room.service_class),
        "service_place": "a dry unheated room" if room.service_class == 2 else "a heated room",
        "climbers": f"{climber.climbers} climber{'s' if climber.climbers > 1 else ''}",
    }


def _bar_table(
    catalog: Catalog, sections: tuple[TimberSection, ...], classes: list[TimberClass]
) -> Bars:
    factors = catalog.materials.factors
    rules = MEMBER_RULES[factors.code]
    b = as_array([float(s.width_mm) for s in sections])
    h = as_array([float(s.depth_mm) for s in sections])
    require_positive(width_mm=b, depth_mm=h)

    def column(name: str) -> np.ndarray:
        return as_array([getattr(c, name) for c in classes])

    def design(name: str) -> np.ndarray:
        char = column(name)
        return np.asarray(design_mpa(char, factors["kmod_solid_short"], factors["gamma_m_solid"]))

    def deep(factor: Callable[[TimberClass, float], float]) -> np.ndarray:
        return as_array([factor(c, s.depth_mm) for c, s in zip(classes, sections, strict=True)])

    e05 = column("e0_05_mpa")
    fm_d = deep(rules.depth_factor) * design("fm_k_mpa")
    crush = design("fc0_k_mpa") if rules.with_duration else column("fc0_k_mpa")
    return Bars(
        b_mm=b,
        h_mm=h,
        fm_d_mpa=fm_d,
        tilt_fm_mpa=fm_d if rules.with_duration else column("fm_k_mpa"),
        ft0_d_mpa=deep(rules.tension_depth_factor) * design("ft0_k_mpa"),
        fc0_d_mpa=design("fc0_k_mpa"),
        fc90_d_mpa=design("fc90_k_mpa"),
        fv_d_mpa=design("fv_k_mpa") * factors["kcr_solid"],
        ei_nmm2=column("e0_mean_mpa") * second_moment_mm4(b, h),
        modulus_mm3=np.asarray(section_modulus_mm3(b, h)),
        slender=np.sqrt(crush / (rules.euler * e05)) / h,
        tilt_mm=rules.tilting * b**2 * e05 / h,
        weight_n_per_mm=b * h * weight_n(1.0) * column("rho_mean_kg_m3") / 1e9,
    )


def _sheet_table(
    catalog: Catalog, families: tuple[SheetFamily, ...], panels: list[Panel]
) -> Sheets:
    factors = catalog.materials.factors
    short = as_array([factors[f"kmod_{p.kmod_family}_short"] for p in panels])
    permanent = as_array([factors[f"kmod_{p.kmod_family}_permanent"] for p in panels])
    gamma = as_array([factors[f"gamma_m_{p.kmod_family}"] for p in panels])
    along = as_array([p.fm_along_mpa for p in panels])
    across = as_array([p.fm_across_mpa for p in panels])
    e_along = as_array([p.e_along_mpa for p in panels])
    e_across = as_array([p.e_across_mpa for p in panels])
    t = as_array([p.mean_thickness_mm for p in panels])
    require_positive(mean_thickness_mm=t, strength=np.minimum(along, across))
    hold = as_array([hold_resistance_n(factors, p) for p in panels])
    weight = t * as_array([p.rho_mean_kg_m3 for p in panels]) * weight_n(1.0) / 1e9

    def either(weak: np.ndarray, square: np.ndarray) -> np.ndarray:
        return np.stack([np.minimum(weak, square), square], axis=1)

    def same(values: np.ndarray) -> np.ndarray:
        return np.stack([values, values], axis=1)

    shear_along = as_array([p.fv_planar_mpa for p in panels])
    shear_across = as_array([p.fv_planar_across_mpa for p in panels])
    return Sheets(
        t_mm=same(t),
        fm_d_mpa=either(across, along) * same(short / gamma),
        fr_d_mpa=either(shear_across, shear_along) * same(short / gamma),
        ei_nmm=either(e_across, e_along) * same(t**3 / 12.0),
        weight_n_per_mm2=same(weight),
        ea_strip_n=either(e_along, e_across) * same(t * factors["composite_strip_mm"]),
        hold_n=same(hold),
        hold_screw_n=same(as_array([hold_screw_n(factors, p) for p in panels])),
        permanent=same(permanent / short),
    )


def _hinge_n(catalog: Catalog) -> float:
    """Return the smallest working load among the hinges on offer [N]."""
    assumed = catalog.materials.factors["hinge_assumed_n"]
    hinges = [h for h in catalog.hardware if h.kind == "hinge"]
    return min((assumed if h.rated_n is None else h.rated_n for h in hinges), default=assumed)
