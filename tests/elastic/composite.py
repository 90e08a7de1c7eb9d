"""A stud with a sheet screwed to it: semi-rigid composite action, EN 1995-1-1 Annex B.

A model with stresses and screw forces, to hold `rows.stiffening` and its limits against.

Part 1 is the sheet, part 2 the stud (gamma_2 = 1). All functions broadcast over arrays.
Annex B is exact for a sinusoidal load. Under a point load the sheet helps less than that at
the loaded section; `gamma_point_load` gives the factor that is exact there.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from steepwright.structure.types import FloatArray

Values = FloatArray | float


@dataclass(frozen=True, slots=True)
class Rib:
    """Section of a stud and the strip of sheet that helps it; numbers or arrays.

    Attributes
    ----------
    e_sheet_mpa, sheet_width_mm, sheet_mm
        Sheet: E along the stud [MPa], effective width [mm], thickness [mm].
    e_stud_mpa, stud_mm, depth_mm
        Stud: E [MPa], width b [mm], depth h [mm].
    """

    e_sheet_mpa: Values
    sheet_width_mm: Values
    sheet_mm: Values
    e_stud_mpa: Values
    stud_mm: Values
    depth_mm: Values

    @property
    def ea_sheet_n(self) -> Values:
        """Axial stiffness E1 A1 of the sheet strip [N]."""
        return self.e_sheet_mpa * self.sheet_width_mm * self.sheet_mm

    @property
    def ea_stud_n(self) -> Values:
        """Axial stiffness E2 A2 of the stud [N]."""
        return self.e_stud_mpa * self.stud_mm * self.depth_mm

    @property
    def ei_stud_nmm2(self) -> Values:
        """Bending stiffness of the stud alone [Nmm2]."""
        return self.ea_stud_n * self.depth_mm**2 / 12.0

    @property
    def ei_separate_nmm2(self) -> Values:
        """Bending stiffness of both parts lying loosely on each other, EI0 [Nmm2]."""
        return self.ea_sheet_n * self.sheet_mm**2 / 12.0 + self.ei_stud_nmm2

    @property
    def ei_rigid_nmm2(self) -> Values:
        """Bending stiffness with no slip at all, EIinf [Nmm2]."""
        return self.ei_separate_nmm2 + self.ea_joint_n * self.arm_mm**2

    @property
    def ea_joint_n(self) -> Values:
        """EA* = EA1 EA2 / (EA1 + EA2) [N]."""
        return self.ea_sheet_n * self.ea_stud_n / (self.ea_sheet_n + self.ea_stud_n)

    @property
    def arm_mm(self) -> Values:
        """Distance r between the middles of sheet and stud [mm]."""
        return (self.sheet_mm + self.depth_mm) / 2.0


@dataclass(frozen=True, slots=True)
class Joint:
    """A row of screws: slip modulus of one [N/mm] and their spacing [mm]."""

    slip_n_per_mm: Values
    spacing_mm: Values


@dataclass(frozen=True, slots=True)
class Composite:
    """Stiffness of a rib, and stresses and screw force it gets per unit moment and shear.

    Attributes
    ----------
    ei_nmm2
        Effective bending stiffness (EI)ef [Nmm2], (B.1).
    gamma
        gamma_1 of the sheet [-], (B.5).
    a_stud_mm
        a2, from the stud's middle to the rib's neutral axis [mm], (B.6).
    stud_bending_per_mm3, stud_axial_per_mm3
        Edge bending and axial stress of the stud per moment [1/mm3], (B.8) and (B.7). The
        axial stress has the other sign than the sheet's.
    sheet_bending_per_mm3, sheet_axial_per_mm3
        The same for the sheet.
    screw_n_per_n
        Force on one screw per unit shear force [N/N], (B.10).
    """

    ei_nmm2: Values
    gamma: Values
    a_stud_mm: Values
    stud_bending_per_mm3: Values
    stud_axial_per_mm3: Values
    sheet_bending_per_mm3: Values
    sheet_axial_per_mm3: Values
    screw_n_per_n: Values


def gamma(ea_n: Values, joint: Joint, length_mm: Values) -> Values:
    """Return the connection factor of a part of axial stiffness EA [N], (B.5).

    `length_mm` is the span of a simple beam, 0.8 span when continuous, twice a cantilever.
    """
    softness = np.pi**2 * ea_n * joint.spacing_mm / joint.slip_n_per_mm
    return 1.0 / (1.0 + softness / length_mm**2)


def effective(rib: Rib, joint: Joint, span_mm: Values) -> Composite:
    """Return stiffness and stresses of the rib as a simple beam by Annex B."""
    return with_gamma(rib, joint, gamma(rib.ea_sheet_n, joint, span_mm))


def with_gamma(rib: Rib, joint: Joint, gamma_1: Values) -> Composite:
    """Return stiffness and stresses of the rib for a given gamma of its sheet."""
    held = gamma_1 * rib.ea_sheet_n
    a_stud = held * rib.arm_mm / (held + rib.ea_stud_n)
    a_sheet = rib.arm_mm - a_stud
    ei = rib.ei_separate_nmm2 + held * a_sheet**2 + rib.ea_stud_n * a_stud**2
    return Composite(
        ei_nmm2=ei,
        gamma=gamma_1,
        a_stud_mm=a_stud,
        stud_bending_per_mm3=0.5 * rib.e_stud_mpa * rib.depth_mm / ei,
        stud_axial_per_mm3=rib.e_stud_mpa * a_stud / ei,
        sheet_bending_per_mm3=0.5 * rib.e_sheet_mpa * rib.sheet_mm / ei,
        sheet_axial_per_mm3=gamma_1 * rib.e_sheet_mpa * a_sheet / ei,
        screw_n_per_n=held * a_sheet * joint.spacing_mm / ei,
    )


def slip_decay_per_mm(rib: Rib, joint: Joint) -> Values:
    """Return alpha [1/mm] of partial interaction; 1/alpha is the sheet's transfer length.

    alpha^2 = K/s (1/EA* + r^2/EI0), from N'' = alpha^2 N - K r M / (s EI0).
    """
    smeared = joint.slip_n_per_mm / joint.spacing_mm
    return np.sqrt(smeared * (1.0 / rib.ea_joint_n + rib.arm_mm**2 / rib.ei_separate_nmm2))


def gamma_of_help(rib: Rib, help_share: Values) -> Values:
    """Return the gamma at a section where the sheet's force is `help_share` of full help.

    Full help (1) is the sheet force without slip. The section then has the curvature
    M/EI0 (1 - help (1 - EI0/EIinf)), which fixes (EI)ef, a2 and so gamma.
    """
    ei_0 = rib.ei_separate_nmm2
    ei = ei_0 / (1.0 - help_share * (1.0 - ei_0 / rib.ei_rigid_nmm2))
    joint_ea = (ei - ei_0) / rib.arm_mm**2
    return joint_ea * rib.ea_stud_n / (rib.ea_sheet_n * (rib.ea_stud_n - joint_ea))


def gamma_point_load(rib: Rib, joint: Joint, span_mm: Values) -> Values:
    """Return the gamma that is exact for stresses under a point load at mid-span.

    The sheet's force there is 1 - tanh(y)/y of full help with y = alpha span / 2 (solution of
    the equation in `slip_decay_per_mm` with N = 0 at both ends), less than Annex B's value.
    """
    half = slip_decay_per_mm(rib, joint) * span_mm / 2.0
    return gamma_of_help(rib, 1.0 - np.tanh(half) / half)
