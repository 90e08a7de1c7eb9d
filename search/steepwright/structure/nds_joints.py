"""What the wall's screws and bolts bear sideways by the NDS, chapter 12: reference design values.

Screws bend on their root; what their steel yields at is a share of its tensile strength.
"""

from __future__ import annotations

import math

from steepwright.catalog.types import Factors, Mount, Panel, Screw, TimberClass
from steepwright.structure import nds
from steepwright.structure.screws import ShearJoint, gapped_plate_n


def in_sheet_n(factors: Factors, screw: Screw, panel: Panel, timber: TimberClass) -> float:
    """Return Z of one screw through a sheet into a stud, in the worst direction [N]."""
    t = panel.mean_thickness_mm
    joint = ShearJoint(
        t1_mm=t,
        t2_mm=screw.length_mm - t,
        fh1_mpa=factors[f"panel_bearing_{panel.kmod_family}_nds"],
        fh2_mpa=nds.bearing_mpa(gravity(timber), screw.diameter_mm, across=True),
        diameter_mm=screw.root_mm,
        yield_nmm=bending_nmm(factors, screw.root_mm, screw.tensile_mpa),
    )
    return nds.lateral_n(joint, screw.diameter_mm, across=True)


def in_end_grain_n(factors: Factors, screw: Screw, timber: TimberClass, rail_mm: float) -> float:
    """Return Z Ceg of one screw through a rail, across its grain, into a stud's end [N], 12.5.2."""
    across = nds.bearing_mpa(gravity(timber), screw.diameter_mm, across=True)
    joint = ShearJoint(
        t1_mm=rail_mm,
        t2_mm=screw.length_mm - rail_mm,
        fh1_mpa=across,
        fh2_mpa=across,
        diameter_mm=screw.root_mm,
        yield_nmm=bending_nmm(factors, screw.root_mm, screw.tensile_mpa),
    )
    whole = nds.lateral_n(joint, screw.diameter_mm, across=True)
    return factors["end_grain_factor_nds"] * whole


def lag_n(
    factors: Factors, mount: Mount, depth_mm: float, timber: TimberClass, gap_mm: float
) -> float:
    """Return Z of one mount screw through its plate [N], NDS Table 12.3.1A, on the root.

    The plate is thin: it bears all and doesn't hold the head upright. So only the main part
    fails, as modes II and IIIs do when the side part is nothing but a hinge.
    """
    d = mount.root_mm
    bearing = nds.bearing_mpa(gravity(timber), mount.diameter_mm, across=True)
    moment = bending_nmm(factors, d, mount.tensile_mpa)
    terms = nds.reduction_terms(mount.diameter_mm, across=True)
    if gap_mm > 0.0:
        return float(gapped_plate_n(bearing, depth_mm, d, moment, gap_mm)) / max(terms)
    return _hinged_n((bearing, depth_mm, d, moment), terms)


def lag_under_n(
    factors: Factors, side_mm: float, lag: tuple[float, float], classes: tuple[TimberClass, ...]
) -> float:
    """Return Z of one lag screw through a timber into a joist [N], on its root.

    `lag` is its diameter and its depth in the joist, `classes` are the timber's and the joist's.
    The pull is along the joist's grain and across the timber's.
    """
    d, depth_mm = lag
    root = factors["coach_screw_root"] * d
    over, under = (gravity(one) for one in classes)
    moment = bending_nmm(factors, root, factors["frame_bolt_tensile_mpa"])
    square, along = nds.bearing_mpa(over, d, across=True), nds.bearing_mpa(under, d, across=False)
    return nds.lateral_n(ShearJoint(side_mm, depth_mm, square, along, root, moment), d, across=True)


def lag_across_gap_n(
    factors: Factors, gap_mm: float, lag: tuple[float, float], timber: TimberClass
) -> float:
    """Return Z of one lag screw into a joist, along its grain, across what bears nothing [N].

    It turns or bends in the joist alone, as in modes II and IIIs; the larger reduction of the two.
    """
    d, depth_mm = lag
    root = factors["coach_screw_root"] * d
    bearing = nds.bearing_mpa(gravity(timber), d, across=False)
    moment = bending_nmm(factors, root, factors["frame_bolt_tensile_mpa"])
    _, _, turned, bent, *_ = nds.reduction_terms(d, across=False)
    return float(gapped_plate_n(bearing, depth_mm, root, moment, gap_mm)) / max(turned, bent)


def _hinged_n(dowel: tuple[float, float, float, float], terms: tuple[float, ...]) -> float:
    """Return Z where the side part is a hinge: modes II and IIIs; Fe, depth, D, moment."""
    bearing, depth_mm, d, moment = dowel
    _, _, turned, bent, *_ = terms
    stiff = (math.sqrt(2.0) - 1.0) * bearing * depth_mm * d
    return min(stiff / turned, math.sqrt(2.0 * moment * bearing * d) / bent)


def lip_bolt_n(factors: Factors, rail_mm: float, timber: TimberClass) -> float:
    """Return Z of one bolt through a thin plate, square to the rail's grain [N]."""
    d = factors["lip_bolt_mm"]
    bearing = nds.bearing_mpa(gravity(timber), d, across=True)
    moment = bending_nmm(factors, d, factors["lip_bolt_tensile_mpa"])
    return _hinged_n((bearing, rail_mm, d, moment), nds.reduction_terms(d, across=True))


def gravity(timber: TimberClass) -> float:
    """Return a grade's specific gravity G."""
    return timber.rho_k_kg_m3 / 1000.0


def bending_nmm(factors: Factors, diameter_mm: float, tensile_mpa: float) -> float:
    """Return Fyb D^3 / 6 of a dowel whose tensile strength is known [Nmm]."""
    return nds.yield_moment_nmm(diameter_mm, factors["dowel_yield_share_nds"] * tensile_mpa)
