"""Load sharing of parallel studs coupled by the sheet across them, for a batch at once.

A full solution with ties, cross members and unequal ribs, to hold the tables of `grillage_share`
and `tie_share` against; it is itself held against a frame solver (tests/oracles).

Ribs are simply supported over one span, u running from the foot (0) to the lip (span). The
sheet acts across them as a continuous layer of beams that takes no twist, pinned to the ribs.
Each harmonic sin(m pi u / span) is one small system of equations, one unknown per rib. The
ribs' own response to a point load is added in closed form and the series only carries what
the sheet moves from rib to rib; its terms fall with m^-6 (moment), so few are needed.

Blocking and a tie-back act at one place along the span: forces found from flexibility. A rope
can't push: ties that would are let go, one set after the other, until those that hold all pull.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from steepwright.structure.beam import simple_deflection, simple_moment
from steepwright.structure.grillage_transverse import rib_loads, transverse_stiffness
from steepwright.structure.types import FloatArray

HARMONICS = 24
SECTIONS = 33


@dataclass(frozen=True, slots=True)
class CrossMember:
    """One continuous member across all ribs (not blocking in pieces between them).

    `along_mm` (B,) its place from the foot [mm], `ei_nmm2` (B,) its stiffness [Nmm2].
    """

    along_mm: FloatArray
    ei_nmm2: FloatArray


@dataclass(frozen=True, slots=True)
class TieBack:
    """Elastic supports at one place along the span, for instance straps to a second beam.

    `along_mm` (B,) [mm]; `stiffness_n_per_mm` (B, n) square to the board, 0 where none. They pull
    against the load and never push; without it they are just taut, neither slack nor tight.
    """

    along_mm: FloatArray
    stiffness_n_per_mm: FloatArray


@dataclass(frozen=True, slots=True)
class Grillage:
    """A batch of B grillages of n ribs.

    Attributes
    ----------
    span_mm, bay_mm
        (B,) span and largest bay [mm].
    ei_rib_nmm2
        (B, n) bending stiffness of each rib [Nmm2]; outer ribs may differ.
    across_nmm2_per_mm
        (B,) bending stiffness across per unit length of span, D_t [Nmm2/mm].
    seams
        Inner ribs on which the sheet is parted (a seam up the slope).
    cross, ties
        Members and elastic supports at single places.
    """

    span_mm: FloatArray
    bay_mm: FloatArray
    ei_rib_nmm2: FloatArray
    across_nmm2_per_mm: FloatArray
    seams: tuple[int, ...] = ()
    cross: tuple[CrossMember, ...] = field(default=())
    ties: tuple[TieBack, ...] = field(default=())

    @property
    def ribs(self) -> int:
        """Number of ribs n."""
        return int(self.ei_rib_nmm2.shape[1])


@dataclass(frozen=True, slots=True)
class PointLoad:
    """A unit load: `across_bays` (B,) from the first rib [bays], `along_mm` (B,) [mm]."""

    across_bays: FloatArray
    along_mm: FloatArray


@dataclass(frozen=True, slots=True)
class Response:
    """What a load of 1 N does; all arrays (B, n) but `tie_n`.

    Attributes
    ----------
    moment_nmm, deflection_mm
        Largest bending moment [Nmm] and deflection [mm] of each rib.
    foot_n, lip_n
        Reaction of each rib at its ends [N].
    tie_n
        (B, number of tie-backs, n) force of each tie-back [N].
    """

    moment_nmm: FloatArray
    deflection_mm: FloatArray
    foot_n: FloatArray
    lip_n: FloatArray
    tie_n: FloatArray


def across_stiffness_nmm2_per_mm(e_across_mpa: FloatArray, thickness_mm: FloatArray) -> FloatArray:
    """Return D_t = E t^3 / 12 of a sheet, E being that across the studs [Nmm2/mm]."""
    return e_across_mpa * thickness_mm**3 / 12.0


def respond(grillage: Grillage, load: PointLoad) -> Response:
    """Return moments, deflections and reactions of every rib under a unit load.

    Raises
    ------
    ValueError
        When a load or member lies outside the span or the ribs.
    ArithmeticError
        When no set of ties is found that all pull while the others are slack.
    """
    _require_inside(grillage, load)
    series = _Series.of(grillage)
    places, forces = _all_forces(grillage, load, series)
    moved = series.moved(places, forces)
    moment, sag = _along_ribs(series, places, forces, moved)
    sign = (-1.0) ** np.arange(1, HARMONICS + 1)
    part = places / grillage.span_mm[:, None]
    foot = np.einsum("bp,bpi->bi", 1.0 - part, forces)
    lip = np.einsum("bp,bpi->bi", part, forces)
    return Response(
        moment_nmm=np.abs(moment).max(axis=1),
        deflection_mm=np.abs(sag).max(axis=1) / grillage.ei_rib_nmm2,
        foot_n=foot - np.einsum("bm,bmi->bi", 1.0 / series.beta, moved),
        lip_n=lip + np.einsum("bm,bmi->bi", sign / series.beta, moved),
        tie_n=-forces[:, 1 + len(grillage.cross) :],
    )


def _along_ribs(
    series: _Series, places: FloatArray, forces: FloatArray, moved: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return moment [Nmm] and EI x deflection at sections (B, S, n), the forces' places too."""
    span = series.span[:, None]
    even = np.linspace(0.0, 1.0, SECTIONS)[None, :] * span
    at = np.concatenate([even, places], axis=1)
    wave = np.sin(series.beta[:, :, None] * at[:, None, :])
    pairs = (at[:, :, None], places[:, None, :], span[:, :, None])
    eased = [
        np.einsum("bm,bms,bmi->bsi", series.beta**power, wave, moved) for power in (-2.0, -4.0)
    ]
    moment = simple_moment(*pairs) @ forces - eased[0]
    return moment, simple_deflection(*pairs) @ forces - eased[1]


def _require_inside(grillage: Grillage, load: PointLoad) -> None:
    places = [load.along_mm, *(c.along_mm for c in grillage.cross)]
    places += [t.along_mm for t in grillage.ties]
    if any(np.any((p < 0) | (p > grillage.span_mm)) for p in places):
        message = "every load and member must lie between foot and lip"
        raise ValueError(message)
    if np.any((load.across_bays < 0) | (load.across_bays > grillage.ribs - 1)):
        message = "a load must lie between the outer ribs"
        raise ValueError(message)


@dataclass(frozen=True, slots=True)
class _Series:
    """The harmonics' wave numbers (B, M) and what the sheet moves off the ribs (B, M, n, n)."""

    span: FloatArray
    beta: FloatArray
    transfer: FloatArray

    @classmethod
    def of(cls, grillage: Grillage) -> _Series:
        order = np.arange(1, HARMONICS + 1)
        beta = np.pi * order[None, :] / grillage.span_mm[:, None]
        scale = grillage.across_nmm2_per_mm / grillage.bay_mm**3
        shape = transverse_stiffness(grillage.ribs, grillage.seams)
        across = (scale[:, None, None] * shape)[:, None]
        along = beta[:, :, None] ** 4 * grillage.ei_rib_nmm2[:, None, :]
        whole = across + along[..., None] * np.eye(grillage.ribs)
        # transfer = S (S + E)^-1; both are symmetric, so solve for the transpose.
        transfer = np.linalg.solve(whole, np.broadcast_to(across, whole.shape))
        return cls(grillage.span_mm, beta, np.swapaxes(transfer, -1, -2))

    def moved(self, places: FloatArray, forces: FloatArray) -> FloatArray:
        """Return the harmonics (B, M, n) of the load that the sheet takes off each rib."""
        wave = np.sin(self.beta[:, :, None] * places[:, None, :])
        loads = 2.0 / self.span[:, None, None] * np.einsum("bmp,bpi->bmi", wave, forces)
        return np.asarray(np.einsum("bmij,bmj->bmi", self.transfer, loads))

    def flexibility(self, ei_rib: FloatArray, to: FloatArray, by: FloatArray) -> FloatArray:
        """Return deflections (B, T, n, P, n) at places `to` by unit forces at places `by`."""
        span = self.span[:, None, None]
        alone = simple_deflection(to[:, :, None], by[:, None, :], span)
        waves_to = np.sin(self.beta[:, :, None] * to[:, None, :])
        waves_by = np.sin(self.beta[:, :, None] * by[:, None, :])
        weight = 2.0 / self.span[:, None] * self.beta**-4.0
        shared = np.einsum("bm,bmt,bmp,bmij->btipj", weight, waves_to, waves_by, self.transfer)
        eye = np.eye(ei_rib.shape[1])
        own = alone[:, :, None, :, None] * eye[None, None, :, None, :]
        return np.asarray((own - shared) / ei_rib[:, None, :, None, None])


def _all_forces(
    grillage: Grillage, load: PointLoad, series: _Series
) -> tuple[FloatArray, FloatArray]:
    """Return places (B, P) and forces (B, P, n): the load first, then members, then ties."""
    first = load.along_mm[:, None]
    direct = rib_loads(grillage.ribs, grillage.seams, load.across_bays)[:, None, :]
    members = [c.along_mm for c in grillage.cross] + [t.along_mm for t in grillage.ties]
    if not members:
        return first, direct
    places = np.stack(members, axis=1)
    bend = series.flexibility(grillage.ei_rib_nmm2, places, places)
    free = np.einsum(
        "btipj,bpj->bti", series.flexibility(grillage.ei_rib_nmm2, places, first), direct
    )
    held = _held(_member_stiffness(grillage), bend, free, len(grillage.cross))
    return np.concatenate([first, places], axis=1), np.concatenate([direct, held], axis=1)


def _held(stiffness: FloatArray, bend: FloatArray, free: FloatArray, members: int) -> FloatArray:
    """Return the forces (B, P, n) of members, which push and pull, and of ties, which only pull.

    A set of ties is right when those in it pull and the others' places give way towards them.
    """
    pulls = np.ones_like(free)
    for _ in range(2 * free.shape[1] * free.shape[2] + 1):
        sag = _sag(stiffness * pulls[..., None, :], bend, free)
        right = np.ones_like(free)
        right[:, members:] = sag[:, members:] > 0.0
        if (right == pulls).all():
            return np.asarray(-np.einsum("bpjk,bpk->bpj", stiffness, sag * pulls))
        pulls = right
    message = "the ties' forces were not found"
    raise ArithmeticError(message)


def _sag(stiffness: FloatArray, bend: FloatArray, free: FloatArray) -> FloatArray:
    """Return how far the places give way (B, P, n), from their flexibility and their free sag."""
    batch, count, ribs = free.shape
    coupled = np.einsum("btipj,bpjk->btipk", bend, stiffness)
    whole = np.eye(count * ribs) + coupled.reshape(batch, count * ribs, count * ribs)
    sag = np.linalg.solve(whole, free.reshape(batch, count * ribs, 1))
    return np.asarray(sag.reshape(free.shape))


def _member_stiffness(grillage: Grillage) -> FloatArray:
    """Return the stiffness (B, P, n, n) of every member at a single place."""
    shape = transverse_stiffness(grillage.ribs)
    cube = grillage.bay_mm**3
    parts = [(c.ei_nmm2 / cube)[:, None, None] * shape for c in grillage.cross]
    eye = np.eye(grillage.ribs)
    parts += [t.stiffness_n_per_mm[:, :, None] * eye for t in grillage.ties]
    return np.stack(parts, axis=1)
