"""What the wall's mounts do to the ceiling beam, at their own places along its span.

The climbers hang on any one mount. The weight of the lip hangs on the mounts in any way that
holds the board: the shares w >= 0 with sum 1 and their centre under the board's own. Moments and
deflections are linear in w, so the worst way is a corner of that set, and a corner loads at most
two mounts, one on each side of the centre. Mounts that take up unevenly are covered so, and one
that is lost as long as two are left around the centre. What a lost one's neighbour bears is told
besides.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from steepwright.geometry.mounts import lost_load, lost_weight, tip_load
from steepwright.structure.beam import (
    middle_deflection_mm,
    point_largest_deflection,
    point_moment_nmm,
)

NEAR_MM = 1.0
"""A mount this near to the board's centre may carry it alone."""


@dataclass(frozen=True, slots=True)
class HookEffects:
    """Largest effects on a simple beam by unit loads at the mounts, or beyond an outer one.

    Attributes
    ----------
    arm_climb_mm, arm_weight_mm
        Moment per load on one mount or beyond it, and per weight of the lip [mm].
    end_climb, end_weight
        Reaction of a support over the load [-].
    sag_climb, sag_weight
        Deflection over that by the same load at mid-span [-].
    tip_load
        Load on an outer mount per load at the outer stud beyond it [-].
    lost_load, lost_weight
        Load on a mount when one is lost, per load at any stud and per weight of the lip, if this is
        more than one [-].
    lost_arm_mm
        Moment per load at any stud when a mount is lost [mm].
    """

    arm_climb_mm: float
    arm_weight_mm: float
    end_climb: float
    end_weight: float
    sag_climb: float
    sag_weight: float
    tip_load: float
    lost_load: float
    lost_weight: float
    lost_arm_mm: float

    @property
    def row(self) -> tuple[float, ...]:
        """All ten in order."""
        return tuple(getattr(self, name) for name in self.__slots__)


def hook_effects(
    places_mm: tuple[float, ...], centre_mm: float, span_mm: float, over_mm: float = 0.0
) -> HookEffects:
    """Return the worst effects of mounts at `places_mm` from a support [mm].

    `centre_mm` is the place of the board's centre of gravity; outer studs lie `over_mm` beyond the
    outer mounts. Places outside the span count as at the support.

    A load beyond an outer mount pulls the next one up, which isn't counted: a chain can't push.
    The supports bear it by its own place all the same.
    """
    at = [min(max(place, 0.0), span_mm) for place in places_mm]
    centre = min(max(centre_mm, 0.0), span_mm)
    tips = tip_load(places_mm, over_mm) if over_mm else (1.0, 1.0)
    loads = [tips[0], *[1.0] * (len(at) - 2), tips[1]] if over_mm else [1.0] * len(at)
    singles = [_effects(((place, load),), span_mm) for place, load in zip(at, loads, strict=True)]
    lost = lost_load(places_mm, over_mm)
    beside = zip((at[:2][-1], at[-2:][0]), lost, strict=True)
    lost_arms = [_effects(((place, load),), span_mm)[0] for place, load in beside]
    ends = max(places_mm[0] - over_mm, 0.0), min(places_mm[-1] + over_mm, span_mm)
    ways = [_effects(way, span_mm) for way in _ways(at, centre)]
    return HookEffects(
        arm_climb_mm=max(arm for arm, _ in singles),
        arm_weight_mm=max(arm for arm, _ in ways),
        end_climb=max(span_mm - ends[0], ends[1]) / span_mm,
        end_weight=max(centre, span_mm - centre) / span_mm,
        sag_climb=max(sag for _, sag in singles),
        sag_weight=max(sag for _, sag in ways),
        tip_load=max(tips),
        lost_load=max(*tips, *lost),
        lost_weight=max(lost_weight(places_mm, centre_mm)),
        lost_arm_mm=max(*(arm for arm, _ in singles), *lost_arms),
    )


def _ways(at: list[float], centre: float) -> Iterator[tuple[tuple[float, float], ...]]:
    """Yield the corners: (place, share) of one mount under the centre, or of two around it."""
    for place in at:
        if abs(place - centre) <= NEAR_MM:
            yield ((place, 1.0),)
    for left in at:
        for right in at:
            if left < centre < right:
                share = (right - centre) / (right - left)
                yield ((left, share), (right, 1.0 - share))


def _effects(loads: tuple[tuple[float, float], ...], span_mm: float) -> tuple[float, float]:
    """Return the largest moment [mm] and an upper bound of the relative deflection [-]."""
    arms = [
        math.fsum(share * _moment_at(section, place, span_mm) for place, share in loads)
        for section, _ in loads
    ]
    sags = [share * float(point_largest_deflection(1.0, p, span_mm, 1.0)[0]) for p, share in loads]
    return max(arms), float(np.sum(sags)) / float(middle_deflection_mm(1.0, span_mm, 1.0))


def _moment_at(section_mm: float, place_mm: float, span_mm: float) -> float:
    """Return the moment at a section by a unit load [mm]: a line up to the load and down again."""
    peak = float(point_moment_nmm(1.0, place_mm, span_mm))
    if section_mm <= place_mm:
        return peak * section_mm / place_mm if place_mm > 0.0 else 0.0
    return peak * (span_mm - section_mm) / (span_mm - place_mm)
