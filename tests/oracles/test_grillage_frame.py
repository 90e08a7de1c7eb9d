"""Load sharing against an independent 3D frame solver (PyNiteFEA, general-purpose, BSD).

The frame: ribs along X as members, the sheet as 24 to 40 cross members of stiffness D_t x
spacing, twist-free (J next to nothing) so that ribs and cross members only push on each
other. Demanded agreement: 2 % in the largest moment and deflection of the worst rib.
"""

from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
import pytest
from Pynite import FEModel3D

from elastic.grillage import (
    CrossMember,
    Grillage,
    PointLoad,
    TieBack,
    respond,
)
from steepwright.structure.grillage_share import Share, stud_share

E_MPA = 11000.0
LOAD_N = 1000.0


@dataclass(frozen=True)
class Case:
    name: str
    ribs: int
    bay: float
    span: float
    ei: float
    across: float
    at: tuple[float, float]  # bays from the first rib, part of the span
    edge_ratio: float = 1.0  # EI of the outer ribs over that of the inner ones
    seams: tuple[int, ...] = ()
    ties: dict[int, float] = field(default_factory=dict)  # rib -> N/mm
    tie_part: float = 0.75
    cross_ei: float = 0.0
    cross_part: float = 0.5

    @property
    def rib_ei(self) -> np.ndarray:
        values = np.full(self.ribs, self.ei)
        values[[0, -1]] *= self.edge_ratio
        return values


# Birch plywood 18 mm across its face grain: 7452 MPa x 454 mm3 = 3.4e6 Nmm2/mm.
CASES = [
    Case("three studs, centre", 3, 600, 2400, 3.7e10, 3.4e6, (1, 0.5)),
    Case("three studs, edge", 3, 600, 2400, 3.7e10, 3.4e6, (0, 0.5)),
    Case("four studs, edge", 4, 400, 2000, 6e10, 3.4e6, (0, 0.5)),
    Case("five studs, edge", 5, 305, 3000, 6e10, 3.4e6, (0, 0.5)),
    Case("five studs, centre", 5, 305, 3000, 6e10, 3.4e6, (2, 0.5)),
    Case("five studs, between the outer two", 5, 400, 2500, 4e10, 3.4e6, (0.5, 0.5)),
    Case("six studs, between inner ones", 6, 350, 2800, 5e10, 4.6e6, (2.5, 0.5)),
    Case("seven studs, off centre", 7, 400, 3200, 1.2e11, 4.6e6, (1, 0.3)),
    Case("seven studs, near the lip", 7, 400, 3200, 1.2e11, 4.6e6, (2, 0.9)),
    Case("five studs, edge near the lip", 5, 500, 2400, 2e10, 1e7, (0, 0.9)),
    Case("soft edge studs, edge", 5, 500, 2400, 6e10, 3.4e6, (0, 0.5), edge_ratio=0.6),
    Case("seam up the slope, load on it", 5, 500, 2400, 4e10, 6e6, (2, 0.5), seams=(2,)),
    Case("seam up the slope, beside it", 7, 400, 2600, 4e10, 6e6, (2, 0.4), seams=(3,)),
    Case("tie-back at the outer studs", 5, 500, 3000, 6e10, 3.4e6, (1, 0.5), ties={0: 200, 4: 200}),
    Case("tie-back at every stud", 4, 600, 3600, 9e10, 3.4e6, (0, 0.5),
         ties=dict.fromkeys(range(4), 80)),
    Case("tie-back at three studs' middle one", 3, 600, 2800, 4e10, 3.4e6, (1, 0.5), ties={1: 150},
         tie_part=0.6),
    Case("tie-back of seven, load beside it", 7, 350, 3200, 9e10, 4.6e6, (5, 0.4),
         ties={0: 120, 6: 120}, tie_part=0.8),
    Case("tie-back, edge load near the lip", 5, 400, 2600, 5e10, 3.4e6, (0, 0.9),
         ties={0: 300, 2: 300, 4: 300}, tie_part=0.5),
    Case("tie-back and a seam up the slope", 5, 500, 3000, 6e10, 6e6, (1.5, 0.5), seams=(2,),
         ties={0: 250, 4: 250}, tie_part=0.7),
    Case("tie-back at every stud, edge load: the far ones are slack", 5, 400, 2400, 4e10, 3.4e6,
         (0, 0.5), ties=dict.fromkeys(range(5), 200), tie_part=0.5),
    Case("tie-back at every stud of seven, load between", 7, 300, 2600, 5e10, 6e6, (0.5, 0.3),
         ties=dict.fromkeys(range(7), 150), tie_part=0.5),
    Case("continuous cross member", 6, 500, 3000, 9e10, 1e6, (1, 0.5), cross_ei=3e9,
         cross_part=0.6),
]  # fmt: skip


def ours(case: Case):
    one = np.array([1.0])
    ties = np.zeros((1, case.ribs))
    for rib, stiffness in case.ties.items():
        ties[0, rib] = stiffness
    grillage = Grillage(
        span_mm=case.span * one,
        bay_mm=case.bay * one,
        ei_rib_nmm2=case.rib_ei[None, :],
        across_nmm2_per_mm=case.across * one,
        seams=case.seams,
        cross=(CrossMember(case.cross_part * case.span * one, case.cross_ei * one),)
        if case.cross_ei
        else (),
        ties=(TieBack(case.tie_part * case.span * one, ties),) if case.ties else (),
    )
    return respond(grillage, PointLoad(case.at[0] * one, case.at[1] * case.span * one))


def add_ribs(model: FEModel3D, case: Case, strips: int, lines: list[float]) -> None:
    step = case.span / strips
    for line in lines:
        for k in range(strips + 1):
            model.add_node(f"n{line}_{k}", k * step, 0.0, line * case.bay)
    for rib in range(case.ribs):
        inertia = case.rib_ei[rib] / E_MPA
        model.add_section(f"rib{rib}", 1e5, inertia, inertia, 1e-6)
        for k in range(strips):
            model.add_member(f"r{rib}_{k}", f"n{rib}_{k}", f"n{rib}_{k + 1}", "wood", f"rib{rib}")
        for k in (0, strips):
            model.def_support(f"n{rib}_{k}", True, True, True, True, k == 0, False)


def add_strips(model: FEModel3D, case: Case, strips: int, lines: list[float]) -> None:
    for k in range(strips + 1):
        # End strips lie on supports and stand for half a step each.
        ei = case.across * case.span / strips * (0.5 if k in (0, strips) else 1.0)
        if k == round(case.cross_part * strips):
            ei += case.cross_ei
        model.add_section(f"strip{k}", 1e5, ei / E_MPA, ei / E_MPA, 1e-6)
        for left, right in pairwise(lines):
            name = f"s{left}_{k}"
            model.add_member(name, f"n{left}_{k}", f"n{right}_{k}", "wood", f"strip{k}")
            if right in case.seams:
                model.def_releases(name, Ryj=True, Rzj=True)


def frame(case: Case) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return moment [Nmm], deflection [mm] and lip reaction [N] of each rib for LOAD_N."""
    model, strips = solved(case)
    return results(model, case.ribs, strips)


def solved(case: Case) -> tuple[FEModel3D, int]:
    """Return the solved frame and into how many strips its span is divided."""
    model = FEModel3D()
    model.add_material("wood", E_MPA, 1e-3, 0.3, 1e-9)
    strips = 40 if case.at[1] > 0.8 else 20
    lines = sorted({*range(case.ribs), case.at[0]})
    add_ribs(model, case, strips, lines)
    add_strips(model, case, strips, lines)
    for rib, stiffness in case.ties.items():
        # The load goes down: what pulls only resists nothing but that.
        model.def_support_spring(f"n{rib}_{round(case.tie_part * strips)}", "DY", stiffness, "-")
    if case.at[0] % 1:  # the strips' nodes between ribs must not spin about the strips' axes
        for k in range(strips + 1):
            model.def_support(f"n{case.at[0]}_{k}", True, False, True, False, True, True)
    model.add_node_load(f"n{case.at[0]}_{round(case.at[1] * strips)}", "FY", -LOAD_N)
    if case.ties:
        model.analyze(check_stability=False)
    else:
        model.analyze_linear(check_stability=False)
    return model, strips


def results(model: FEModel3D, ribs: int, strips: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    moment, sag, lip = np.zeros(ribs), np.zeros(ribs), np.zeros(ribs)
    for rib in range(ribs):
        members = [model.members[f"r{rib}_{k}"] for k in range(strips)]
        nodes = [model.nodes[f"n{rib}_{k}"] for k in range(strips + 1)]
        moment[rib] = max(max(m.max_moment("Mz"), -m.min_moment("Mz")) for m in members)
        sag[rib] = max(abs(n.DY["Combo 1"]) for n in nodes)
        lip[rib] = nodes[-1].RxnFY["Combo 1"]
    return moment, sag, lip


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)
def test_load_sharing_agrees_with_a_frame_solver_within_two_percent(case):
    moment, sag, lip = frame(case)
    response = ours(case)
    assert LOAD_N * response.moment_nmm[0].max() == pytest.approx(moment.max(), rel=0.02)
    assert LOAD_N * response.deflection_mm[0].max() == pytest.approx(sag.max(), rel=0.02)
    # Every rib, measured against the worst one, and the reactions at the lip.
    np.testing.assert_allclose(LOAD_N * response.moment_nmm[0], moment, atol=0.02 * moment.max())
    np.testing.assert_allclose(LOAD_N * response.deflection_mm[0], sag, atol=0.02 * sag.max())
    np.testing.assert_allclose(LOAD_N * response.lip_n[0], lip, atol=0.02 * LOAD_N)


@pytest.mark.parametrize("case", [c for c in CASES if c.ties], ids=lambda c: c.name)
def test_a_ties_pull_agrees_with_a_frame_solver_within_two_percent(case):
    """A tie's force is its stiffness times how far the frame's node goes down; it never pushes."""
    model, strips = solved(case)
    pull = np.zeros(case.ribs)
    for rib, stiffness in case.ties.items():
        node = model.nodes[f"n{rib}_{round(case.tie_part * strips)}"]
        pull[rib] = max(0.0, -stiffness * node.DY["Combo 1"])
    assert np.abs(pull).max() > 0.01 * LOAD_N
    ours_n = LOAD_N * ours(case).tie_n[0, 0]
    assert (ours_n >= 0.0).all()
    np.testing.assert_allclose(ours_n, pull, atol=0.02 * np.abs(pull).max())


TABLED = [c for c in CASES if not c.ties and not c.cross_ei and c.edge_ratio == 1.0]
"""What the tables that judge walls cover: equal ribs, seams that divide them evenly."""


def tabled(case: Case) -> Share:
    patterns = (np.array([len(case.seams) + 1]), np.array([case.ribs]))
    return stud_share(
        *patterns, *(np.array([v]) for v in (case.bay, case.span, case.ei, case.across))
    )


@pytest.mark.parametrize("case", TABLED, ids=lambda c: c.name)
def test_no_stud_of_a_frame_bears_more_than_the_tables_say(case):
    """2 %: how far these frames lie off, with their strips in place of a sheet."""
    moment, sag, lip = frame(case)
    share = tabled(case)
    assert moment.max() <= 1.02 * share.moment[0] * LOAD_N * case.span / 4
    assert sag.max() <= 1.02 * share.deflection[0] * LOAD_N * case.span**3 / (48 * case.ei)
    assert lip.max() <= 1.02 * share.reaction[0] * LOAD_N
    assert -lip.min() <= share.lift[0] * LOAD_N + 0.02 * LOAD_N


@pytest.mark.parametrize("case", [c for c in TABLED if c.at == (0, 0.5)], ids=lambda c: c.name)
def test_the_outer_stud_loaded_in_the_middle_is_what_the_tables_hold(case):
    moment, sag, _ = frame(case)
    share = tabled(case)
    assert share.moment[0] * LOAD_N * case.span / 4 == pytest.approx(moment.max(), rel=0.02)
    sags = share.deflection[0] * LOAD_N * case.span**3 / (48 * case.ei)
    assert sags == pytest.approx(sag.max(), rel=0.02)


def test_some_ties_of_these_frames_would_push_if_they_could():
    """So that the two tests above say something about ties that are let go."""
    slack = [(ours(c).tie_n[0, 0, list(c.ties)] == 0.0).sum() for c in CASES if c.ties]
    assert sum(count > 0 for count in slack) >= 3


def test_a_stiffer_tie_pulls_more_and_a_frame_with_one_sags_less():
    """Maxwell: what an elastic support takes grows with its stiffness."""
    soft, stiff = (
        ours(Case("", 5, 500, 3000, 6e10, 3.4e6, (2, 0.5), ties=dict.fromkeys(range(5), k)))
        for k in (50.0, 500.0)
    )
    alone = ours(Case("", 5, 500, 3000, 6e10, 3.4e6, (2, 0.5)))
    assert soft.tie_n.sum() < stiff.tie_n.sum()
    sags = [one.deflection_mm.max() for one in (stiff, soft, alone)]
    assert sags == sorted(sags)
