"""What bars and screws bear by the NDS, allowable stress, worked out anew from its equations."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.units import GRAVITY_M_S2, INCH_MM, POUND_N
from steepwright.verify.fixings import Holding, gapped_n

FloatArray = npt.NDArray[np.float64]
Document = dict[str, Any]

NOTHING_BEARS = 1e6
"""The use of a bar that buckles under its load."""

SIZED = ((3.5, 1.5), (4.5, 1.4), (5.5, 1.3), (7.25, 1.2), (9.25, 1.1), (11.25, 1.0))
"""Size factor CF of Table 4A up to a dressed depth [in]; 0.9 beyond."""

THIN_IN = 0.25


def bar_figures(given: Document) -> dict[str, FloatArray]:
    """Return the allowable strengths and buckling figures of every section."""
    factors, rows = given["factors"], []
    for section in given["sections"]:
        timber = given["timber_classes"][section["strength_class"]]
        b, h = float(section["width_mm"]), float(section["depth_mm"])
        deep = _size(h) if timber["nds_sized"] else 1.0
        lasts = factors["kmod_solid_short"] / factors["gamma_m_solid"]
        bend = lasts * deep * timber["fm_k_mpa"]
        rows.append(
            {
                "b": b,
                "h": h,
                "fb": bend,
                "moment": bend * b * h**2 / 6,
                "fbe": 1.2 * timber["e0_05_mpa"] * b**2 / h,
                "fce": 0.822 * timber["e0_05_mpa"] * h**2,
                "ft0_d": lasts * deep * timber["ft0_k_mpa"],
                "fc0_d": lasts * timber["fc0_k_mpa"],
                "ei": timber["e0_mean_mpa"] * b * h**3 / 12,
                "n_mm": b * h * timber["rho_mean_kg_m3"] * GRAVITY_M_S2 / 1e9,
            }
        )
    return {name: np.array([row[name] for row in rows], dtype=np.float64) for name in rows[0]}


def _size(depth_mm: float) -> float:
    inches = depth_mm / INCH_MM - 0.02  # dressed sizes are rounded to whole millimetres
    return next((factor for deep, factor in SIZED if inches <= deep), 0.9)


def beam_mpa(
    factors: Document, timber: Document, bend_mpa: float, sizes_mm: tuple[float, float, float]
) -> float:
    """Return what a beam that may tilt bears in bending, of Fb without CF and CL (3.3.3) [MPa].

    `sizes_mm` are its width, depth and free span, 0 where its upper edge is held all along.
    """
    b, h, span = sizes_mm
    sized = bend_mpa * (_size(h) if timber["nds_sized"] else 1.0)
    if not span:
        return float(sized)
    tilts = 1.2 * timber["e0_05_mpa"] * b**2 / (h * factors["lef_ratio"] * span)
    return sized * float(_root(np.array(tilts / sized), 0.95))


def bend_and_push(
    bar: Callable[[str], FloatArray],
    tilt_mm: FloatArray,
    span_mm: FloatArray,
    moment_nmm: FloatArray,
    axial_n: FloatArray,
) -> FloatArray:
    """Return the use of a stud bent, and pulled (3.9.1) or pushed (3.9.2), whichever is worse."""
    bend = moment_nmm / bar("moment") / _root(bar("fbe") / tilt_mm / bar("fb"), 0.95)
    stress = axial_n / (bar("b") * bar("h"))
    buckles = bar("fce") / span_mm**2
    pressed = stress / (bar("fc0_d") * _root(buckles / bar("fc0_d"), 0.8))
    left = 1 - stress / buckles
    pushed = np.where(left > 0, pressed**2 + bend / np.where(left > 0, left, 1.0), NOTHING_BEARS)
    return np.asarray(np.maximum(bend + stress / bar("ft0_d"), pushed))


def _root(ratio: FloatArray, c: float) -> FloatArray:
    """Return the lesser root of c x^2 - (1 + F) x + F = 0: CL with c = 0.95, CP with 0.8."""
    both = 1 + ratio
    return np.asarray(2 * ratio / (both + np.sqrt(both**2 - 4 * c * ratio)))


def holding(
    factors: Document, family: Document, panel: Document, section: Document, timber: Document
) -> Holding:
    """Return what the screws of a sheet family on a section hold."""
    lasts = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    gravity, frame = timber["rho_k_kg_m3"] / 1000, 0.0
    screw = section["screw"]
    if screw is not None and screw["length_mm"] > section["width_mm"]:
        pitch = factors["predrilled_spacing_d"] * screw["diameter_mm"]
        fits = max(0, math.floor(section["depth_mm"] / pitch + 1e-9) - 1)
        across = _bearing_mpa(gravity, screw["diameter_mm"])
        parts = (section["width_mm"], across), (screw["length_mm"] - section["width_mm"], across)
        frame = (
            min(factors["frame_screws_per_joint"], fits)
            * lasts
            * _sideways_n(factors, screw, parts)
        )
        frame *= factors["end_grain_factor_nds"]
    screw = family["screw"]
    if screw is None:
        return Holding(0.0, 0.0, frame, 0.0)
    kind, t = panel["kmod_family"], panel["mean_thickness_mm"]
    both = math.sqrt(lasts * factors[f"kmod_{kind}_short"] / factors["gamma_m_connection"])
    thread = max(0.0, min(screw["thread_mm"], screw["length_mm"] - t))
    head = screw["head_mm"] / INCH_MM
    through = 690 * math.pi * head * factors[f"panel_gravity_{kind}_nds"] ** 2
    steel = screw["tensile_mpa"] * math.pi * screw["root_mm"] ** 2 / 4
    axial = min(
        lasts * thread_n_mm(factors, gravity, screw["diameter_mm"]) * thread,
        both**2 / lasts * through * min(t / INCH_MM, 2.5 * head) * POUND_N,
        steel / factors["gamma_m2_steel"],
    )
    lateral = 0.0
    if screw["length_mm"] > t:
        sheet = t, factors[f"panel_bearing_{kind}_nds"]
        stud = screw["length_mm"] - t, _bearing_mpa(gravity, screw["diameter_mm"])
        lateral = both * _sideways_n(factors, screw, (sheet, stud))
    return Holding(axial, lateral, frame, factors["seam_stud_width_d"] * screw["diameter_mm"])


def thread_n_mm(factors: Document, gravity: float, diameter_mm: float) -> float:
    """Return W of a lag screw (12.2-1), or of a thinner wood screw (12.2-2)."""
    d = diameter_mm / INCH_MM
    lag = diameter_mm >= factors["withdrawal_rule_least_mm"]
    pounds_inch = 1800 * gravity**1.5 * d**0.75 if lag else 2850 * gravity**2 * d
    return float(pounds_inch * POUND_N / INCH_MM)


def thin_plate_n(
    factors: Document, mount: Document, gravity: float, deep_mm: float, gap_mm: float
) -> float:
    """Return Z of one mount screw through a thin plate, across the grain, Table 12.3.1A [N].

    The plate bears all and holds no head upright: it is a hinge in modes II and IIIs. Across a
    lining that bears nothing the screw turns or yields as Johansen's model has it.
    """
    d, inches = mount["root_mm"], mount["diameter_mm"] / INCH_MM
    per_mm = _bearing_mpa(gravity, mount["diameter_mm"]) * d
    yields = factors["dowel_yield_share_nds"] * mount["tensile_mpa"] * d**3 / 6
    turned, bent = (math.sqrt(2) - 1) * per_mm * deep_mm, math.sqrt(2 * yields * per_mm)
    terms = (max(2.2, 10 * inches + 0.5),) * 2 if inches < THIN_IN else (1.25 * 3.6, 1.25 * 3.2)
    if not gap_mm:
        return float(min(turned / terms[0], bent / terms[1]))
    across = gapped_n(per_mm, yields, deep_mm, gap_mm)
    least = min(across, 0.4 * per_mm * deep_mm, 1.15 * bent)
    return float(least / (1.25 * 4.0 if inches >= THIN_IN else terms[0]))


def lag_mm(whole_mm: float) -> float:
    """Return the diameter of the lag screw that is told in whole mm [mm].

    Of sixteenths of an inch the largest that isn't thicker when rounded.
    """
    sixteenth = INCH_MM / 16
    return math.floor((whole_mm + 0.5) / sixteenth - 1e-9) * sixteenth


def lag_thread_mm(length_mm: float) -> float:
    """Return T of a lag screw [mm], Table L2: half its length and 1/2 in, at most 6 in."""
    return min(length_mm / 2 + INCH_MM / 2, 6 * INCH_MM)


def washer_mpa(across_mpa: float, washer_mm: float) -> float:
    """Return Fc across the grain times Cb below a washer (3.10-2); from 6 in on Cb is 1 [MPa]."""
    wider = 1 + 0.375 * INCH_MM / washer_mm if washer_mm < 6 * INCH_MM else 1.0
    return across_mpa * wider


def lag_under_n(
    factors: Document,
    lag: Document,
    parts_mm: tuple[float, float],
    gap_mm: float,
    classes: tuple[Document, Document],
) -> float:
    """Return Z of a lag screw through a timber, across its grain, along that of a joist above [N].

    `parts_mm` are the timber's depth and what is in the joist. Across a lining that bears nothing
    it turns or yields in the joist as Johansen's model has it, over the greatest term along the
    grain.
    """
    (side, main), d = parts_mm, lag["diameter_mm"]
    over, under = (timber["rho_k_kg_m3"] / 1000 for timber in classes)
    thin = d / INCH_MM < THIN_IN
    along = _bearing_mpa(under, d) if thin else 11200 * under * POUND_N / INCH_MM**2
    if not gap_mm:
        return _sideways_n(factors, lag, ((side, _bearing_mpa(over, d)), (main, along)))
    per_mm = along * lag["root_mm"]
    yields = factors["dowel_yield_share_nds"] * lag["tensile_mpa"] * lag["root_mm"] ** 3 / 6
    plain = min(0.4 * per_mm * main, 1.15 * math.sqrt(2 * yields * per_mm))
    term = max(2.2, 10 * d / INCH_MM + 0.5) if thin else 3.6
    return float(min(plain, gapped_n(per_mm, yields, main, gap_mm)) / term)


def _bearing_mpa(gravity: float, diameter_mm: float) -> float:
    """Return Fe across the grain, Table 12.3.3."""
    d, psi = diameter_mm / INCH_MM, POUND_N / INCH_MM**2
    if d < THIN_IN:
        return float(16600 * gravity**1.84 * psi)
    return float(6100 * gravity**1.45 / math.sqrt(d) * psi)


def _sideways_n(
    factors: Document, screw: Document, parts: tuple[tuple[float, float], tuple[float, float]]
) -> float:
    """Return Z, the least of the six modes of Table 12.3.1A: side part first, length and Fe."""
    (ls, fes), (lm, fem) = parts
    d = screw["root_mm"]
    fyb = factors["dowel_yield_share_nds"] * screw["tensile_mpa"]
    re, rt = fem / fes, lm / ls
    k1 = math.sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)
    k2 = math.sqrt(2 * (1 + re) + 2 * fyb * (1 + 2 * re) * d**2 / (3 * fem * lm**2)) - 1
    k3 = math.sqrt(2 * (1 + re) / re + 2 * fyb * (2 + re) * d**2 / (3 * fem * ls**2)) - 1
    modes = (
        (d * lm * fem, 4.0),
        (d * ls * fes, 4.0),
        (k1 / (1 + re) * d * ls * fes, 3.6),
        (k2 * d * lm * fem / (1 + 2 * re), 3.2),
        (k3 * d * ls * fem / (2 + re), 3.2),
        (d**2 * math.sqrt(2 * fem * fyb / (3 * (1 + re))), 3.2),
    )
    inches = screw["diameter_mm"] / INCH_MM
    if inches < THIN_IN:
        term = max(2.2, 10 * inches + 0.5)
        return float(min(force for force, _ in modes) / term)
    return float(min(force / (1.25 * term) for force, term in modes))
