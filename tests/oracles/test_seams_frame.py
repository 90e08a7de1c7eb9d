"""Stud and screwed-on sheet, with and without a seam, against a frame solver (PyNiteFEA).

The frame has two chords, stud and sheet, at their real distance; each screw row is a short
cantilever from the stud, pinned at the sheet, whose tip stiffness 3 E I / r^3 is the screws'
slip modulus. A seam is one chord member of the sheet left out. Stresses come from the stud's
own axial force and moment. Demanded: 3 % (discrete screws against a smeared joint), and a
stiffness for mid-span loads not above the frame's.
"""

from collections.abc import Iterable
from types import SimpleNamespace

import numpy as np
import pytest
from Pynite import FEModel3D

from elastic.composite import Joint, Rib, effective
from elastic.seams import seam_factors
from steepwright.structure.rows import stiffening

SLIP_N_PER_MM = 420**1.5 * 5 / 23
RIB = Rib(9000.0, 400.0, 17.6, 11000.0, 45.0, 95.0)
STEP_MM = 30.0
LOAD_N = 1000.0


def build(span: float, seam: float, spacing: float, loads: Iterable[float]) -> FEModel3D:
    model = FEModel3D()
    model.add_material("stud", RIB.e_stud_mpa, 1e-3, 0.3, 1e-9)
    model.add_material("sheet", RIB.e_sheet_mpa, 1e-3, 0.3, 1e-9)
    depth, width, sheet, strip = RIB.depth_mm, RIB.stud_mm, RIB.sheet_mm, RIB.sheet_width_mm
    model.add_section("stud", width * depth, 1.0, width * depth**3 / 12, 1.0)
    model.add_section("sheet", strip * sheet, 1.0, strip * sheet**3 / 12, 1.0)
    slip = SLIP_N_PER_MM * STEP_MM / spacing
    screw = slip * RIB.arm_mm**3 / 3 / RIB.e_stud_mpa
    count = round(span / STEP_MM)
    for k in range(count + 1):
        ends = 0.5 if k in (0, count) else 1.0
        model.add_section(f"screw{k}", 1e4, ends * screw, ends * screw, 1.0)
        model.add_node(f"a{k}", k * STEP_MM, 0.0, 0.0)
        model.add_node(f"b{k}", k * STEP_MM, -RIB.arm_mm, 0.0)
        model.add_member(f"screw{k}", f"a{k}", f"b{k}", "stud", f"screw{k}")
        model.def_releases(f"screw{k}", Rzj=True)
    for k in range(count):
        model.add_member(f"stud{k}", f"a{k}", f"a{k + 1}", "stud", "stud")
        if not (seam and k == int(seam / STEP_MM - 0.5)):
            model.add_member(f"sheet{k}", f"b{k}", f"b{k + 1}", "sheet", "sheet")
    for name in model.nodes:
        end = name in ("a0", f"a{count}")
        model.def_support(name, name == "a0", end, True, True, True, False)
    for at in loads:
        model.add_node_load(f"a{round(at / STEP_MM)}", "FY", -LOAD_N, case=f"{at:g}")
        model.add_load_combo(f"{at:g}", {f"{at:g}": 1.0})
    model.analyze_linear(check_stability=False)
    return model


def stud_stress(model: FEModel3D, combo: str) -> float:
    section = RIB.stud_mm * RIB.depth_mm
    stresses = []
    for name, member in model.members.items():
        if name.startswith("stud"):
            axial = abs(member.axial(0.5, combo)) / section
            moments = (member.max_moment("Mz", combo), member.min_moment("Mz", combo))
            stresses.append(axial + max(map(abs, moments)) * 6 / (section * RIB.depth_mm))
    return max(stresses)


@pytest.mark.parametrize(
    ("span", "seam", "spacing"),
    [
        (2400.0, 0.0, 100.0),
        (2400.0, 1215.0, 100.0),
        (2400.0, 1215.0, 300.0),
        (3000.0, 1215.0, 150.0),
        (3000.0, 765.0, 150.0),
    ],
)
def test_seam_model_against_a_two_chord_frame(span, seam, spacing):
    loads = {STEP_MM * round(span * part / STEP_MM) for part in (0.2, 0.35, 0.5, 0.65)}
    if seam:
        loads |= {seam - STEP_MM / 2, seam + STEP_MM / 2}
    model = build(span, seam, spacing, loads)
    ours = seam_factors(RIB, Joint(SLIP_N_PER_MM, spacing), span, seam)

    stress = max(stud_stress(model, f"{at:g}") for at in loads)
    expected = float(ours.stud_stress_per_mm3) * LOAD_N * span / 4
    assert expected == pytest.approx(stress, rel=0.03)

    stiffness = {}  # the uniform beam that sags as much under the load
    for at in loads:
        sag = abs(model.nodes[f"a{round(at / STEP_MM)}"].DY[f"{at:g}"])
        stiffness[at] = LOAD_N * at**2 * (span - at) ** 2 / (3 * span * sag)
    assert float(ours.ei_nmm2) <= 1.03 * stiffness[span / 2]
    if seam:  # exact for a load at the seam
        assert float(ours.ei_nmm2) == pytest.approx(stiffness[seam - STEP_MM / 2], rel=0.03)


def test_annex_b_stiffness_matches_the_frame_under_load_at_mid_span():
    model = build(2400.0, 0.0, 100.0, [1200.0])
    sag = abs(model.nodes["a40"].DY["1200"])
    real = LOAD_N * 2400.0**3 / (48 * sag)
    expected = effective(RIB, Joint(SLIP_N_PER_MM, 100.0), 2400.0).ei_nmm2
    assert expected == pytest.approx(real, rel=0.03)
    # What the checks count leaves out the sheet's own bending.
    one, stud = np.ones(1), RIB.ei_stud_nmm2
    helped = stiffening(
        SimpleNamespace(rows=one, screw_mm=100.0 * one, board_mm=2400.0 * one),
        SimpleNamespace(ea_strip_n=RIB.ea_sheet_n, t_mm=RIB.sheet_mm),
        SimpleNamespace(ei_nmm2=stud, h_mm=RIB.depth_mm),
        SimpleNamespace(slip_n_per_mm=SLIP_N_PER_MM * one),
    )
    counted = float(helped[0]) * stud
    assert counted <= 1.03 * real
    assert counted + RIB.ei_separate_nmm2 - stud == pytest.approx(real, rel=0.03)
