"""Whether a freestanding frame stands and holds: EN 1990 6.4.1, EN 1995-1-1 sections 6 and 8.

One side bears what hangs nearest to it. Along the room its post is propped by the brace that it
leans on, pulled level at the head beam's top; across it two knee braces hold the posts upright.
Of what holds the frame down the climbers' weight and its own count, the board's does not.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.hooked import Hooked
from steepwright.verify.mounts import Hanging, board_weight_n
from steepwright.verify.stands import END_D, stand_pieces
from steepwright.verify.strength import Loads
from steepwright.verify.timbers import buckling, timber_of, weight_n_mm3

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]
Uses = dict[str, FloatArray]

TIPS, TIPS_ASIDE, SLIDES = "frame tips over", "frame tips sideways", "frame slides"
POST, POST_ASIDE, BRACE = "frame post", "frame post, sideways", "frame brace"
BRACED, HEAD, HEEL = "frame brace's joint", "frame head's joint", "frame post's foot joint"
BOLTS, FOOT, UNDER = "frame bolts' room", "frame foot", "frame foot under the post"
SWAY = "frame sway"
OF_FRAMES = (
    TIPS, TIPS_ASIDE, SLIDES, POST, POST_ASIDE, BRACE, BRACED, HEAD, HEEL, BOLTS, FOOT, UNDER, SWAY
)  # fmt: skip
"""The checks' names in a design."""


class Standing:
    """The frame below one beam, one side of it."""

    names = OF_FRAMES

    def __init__(self, given: Document, beam: Document) -> None:
        f = self.factors = given["factors"]
        stand, timber = beam["stand"], timber_of(given, beam)
        self.post, self.brace = stand["post_mm"], stand["brace_mm"]
        self.timber, self.beam = timber, beam
        self.top: float = max(beam["underside_mm"]) + beam["depth_mm"]
        self.up: float = stand["brace_up_mm"]
        self.out: float = stand["foot_mm"]
        self.reach: float = stand["foot_mm"] - f["frame_toe_mm"]
        self.span: float = beam["span_mm"]
        self.rated: float | None = stand["floor_rated_n"]
        pieces = stand_pieces(f, beam)
        volume = sum(
            math.prod(section) * length * count
            for section, lengths in pieces.items()
            for length, count in lengths.items()
        )
        self.weight_n = volume / 2 * weight_n_mm3(timber)
        self.d: float = f["frame_bolt_mm"]
        self.lasts = f["kmod_solid_short"] / f["gamma_m_solid"]
        self.joined = f["kmod_solid_short"] / f["gamma_m_connection"]

    def uses(self, loads: Loads, hooks: Hooked, hung: Hanging) -> Uses:
        """Return the uses by the checks' names of walls that hang from this frame."""
        f, lever = self.factors, hung.lever
        whole = f["gamma_q"] * loads.all_n * lever
        side = whole * hooks.end_climb
        pull, aside = f["hold_pull_factor"] * side, f["frame_sideways_share"] * whole
        board = board_weight_n(loads, hung.width_mm) / 2 * lever * hooks.end_weight
        down = side + f["gamma_g"] * (board + self.weight_n)
        own = f["gamma_g_favourable"] * self.weight_n
        nearest = whole * np.maximum(1 - hooks.end_climb, 0) * self.span
        return {
            TIPS: pull * self.top / ((side + own) * self.out),
            TIPS_ASIDE: aside * self.top / (own * self.span + nearest),
            SLIDES: self._slides(np.maximum(pull - f["friction_timber_floor"] * (side + own), 0)),
            SWAY: self._sway(pull / f["gamma_q"] / loads.known.climber["dynamic_factor"]),
            BOLTS: np.full(len(side), self._bolts_room()),
            **self._posts(pull, aside, down),
            **self._braces(pull, aside),
            **self._feet(pull, down, side),
        }

    def _slides(self, left_n: FloatArray) -> FloatArray:
        """Return the use of what holds a foot; where that isn't told it may be all that is left."""
        if self.rated is not None:
            return left_n / self.rated
        return left_n / np.maximum(left_n, 1.0)

    def _posts(self, pull: FloatArray, aside: FloatArray, down: FloatArray) -> Uses:
        """Return the uses of a post, which buckles over twice its height (6.23, 6.24)."""
        across, along = self.post
        fm, knee = self.lasts * self.timber["fm_k_mpa"], self.factors["frame_knee_mm"]
        bears = self.lasts * self.timber["fc0_k_mpa"] * across * along
        bears *= buckling(self.timber, 2 * self.top, min(across, along))
        by_brace = pull * self.top / self.reach
        bent = pull * (self.top - self.up) / (fm * across * along * (along - self.d - 1) / 6)
        tilt = aside * self.top / self.span + self._knee_n(aside) / math.sqrt(2)
        free = max(self.top - knee, 0.0)
        return {
            POST: (down + by_brace) / bears + bent,
            POST_ASIDE: (down + tilt) / bears + aside / 2 * free / (fm * along * across**2 / 6),
            UNDER: (down + by_brace)
            / (
                self.lasts
                * self.timber["fc90_k_mpa"]
                * self.factors["kc90_default"]
                * across
                * along
            ),
        }

    def _knee_n(self, aside: FloatArray) -> FloatArray:
        """Return the force of the brace across the room at one post, 45 degrees steep."""
        return np.asarray(aside / math.sqrt(2) * self.top / self.factors["frame_knee_mm"])

    def _braces(self, pull: FloatArray, aside: FloatArray) -> Uses:
        """Return the uses of braces, of their bolts, and of the cheeks at the head."""
        f, d = self.factors, self.d
        thin, deep = min(self.brace), max(self.brace)
        thick, wide = self.brace
        long = math.hypot(self.reach, self.up)
        force = np.maximum(pull * self.top / self.up * long / self.reach, self._knee_n(aside))
        press = buckling(self.timber, long, thin) * self.timber["fc0_k_mpa"] * thin * deep
        tear = self.timber["ft0_k_mpa"] * thick * (wide - d - 1)
        n = f["frame_bolts_per_joint"]
        together = min(n, n**0.9 * (5 / 13) ** 0.25)  # (8.34), 5 d apart
        leg, clasp, head = f["frame_cheek_mm"], END_D * d, self.beam["depth_mm"]
        washer = math.pi / 4 * ((3 * d) ** 2 - (d + 1) ** 2)
        washer *= self.joined * f["washer_bearing_factor"] * self.timber["fc90_k_mpa"]
        # ISO 898-1: pi/4 (d - 0.9382 p)^2 with a pitch of 0.15 d.
        core = math.pi / 4 * (d - 0.9382 * 0.15 * d) ** 2
        steel = f["bolt_tension_factor"] * f["frame_bolt_tensile_mpa"] * core / f["gamma_m2_steel"]
        pulled = pull * (head + leg) / (leg - clasp) / min(steel, washer)
        cheek = self.lasts * self.timber["fm_k_mpa"] * (deep - d - 1) * thin**2 / 6
        lever = self.top / f["frame_knee_mm"]
        sheared = aside / 2 * math.hypot(max(lever - 1, 0), lever) / self._bolt_n(square=True)
        return {
            BRACE: force / (self.lasts * min(press, tear)),
            BRACED: force / (together * self._bolt_n(square=False)),
            HEAD: np.max([pulled, pull * (head + clasp) / cheek, sheared], axis=0),
        }

    def _feet(self, pull: FloatArray, down: FloatArray, side: FloatArray) -> Uses:
        """Return the uses of a foot: bent beyond the brace, pulled by it, bolted to the post."""
        f, (across, along) = self.factors, self.post
        net = across * (along - self.d - 1)
        prop, timber = pull * self.top / self.up, self.timber
        bent = down * f["frame_toe_mm"] / (self.lasts * timber["fm_k_mpa"] * net * along / 6)
        lift = np.maximum(pull * self.top / self.reach - side, 0)
        return {
            FOOT: prop / (self.lasts * timber["ft0_k_mpa"] * net) + bent,
            HEEL: np.hypot(prop - pull, lift) / self._bolt_n(square=True),
        }

    def _bolts_room(self) -> float:
        """Return the use of the room for bolts in the middle of each part (Table 8.4)."""
        f, d = self.factors, 2 * self.d
        loaded = f["bolt_loaded_edge_d"] * d / min(*self.post, self.beam["depth_mm"])
        return float(max(loaded, f["bolt_unloaded_edge_d"] * d / max(self.brace)))

    def _sway(self, pull: FloatArray) -> FloatArray:
        """Return the sway under climbers at rest over what is allowed, bolts' slip counted."""
        f, timber = self.factors, self.timber
        across, along = self.post
        stiff = timber["e0_mean_mpa"] * across * along**3 / 12
        over = self.top - self.up
        bent = pull * over**2 * (self.up + over) / (3 * stiff)
        long = math.hypot(self.reach, self.up)
        slip = timber["rho_mean_kg_m3"] ** 1.5 * self.d / 23 * f["frame_bolts_per_joint"]
        gives = 2 / slip + long / (timber["e0_mean_mpa"] * math.prod(self.brace))
        force = long / self.reach * self.top / self.up
        return np.asarray((bent + pull * force**2 * gives) * f["frame_sway_ratio"] / self.top)

    def _bolt_n(self, *, square: bool) -> float:
        """Return the design shear of one bolt in two parts (8.6), no rope effect [N].

        The part that a brace or cheek meets is loaded square to its grain (8.31), the other one
        along it or square, too.
        """
        f, d = self.factors, self.d
        t1, t2 = min(self.brace), min(*self.post, self.beam["width_mm"])
        along = 0.082 * (1 - 0.01 * d) * self.timber["rho_k_kg_m3"]
        across = along / (1.35 + 0.015 * d)
        one, yields = (across if square else along), 0.3 * f["frame_bolt_tensile_mpa"] * d**2.6
        b, r, p = across / one, t2 / t1, one * d
        turned = math.sqrt(b + 2 * b**2 * (1 + r + r**2) + b**3 * r**2) - b * (1 + r)
        first = math.sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * yields / (p * t1**2)) - b
        other = math.sqrt(2 * b**2 * (1 + b) + 4 * b * (1 + 2 * b) * yields / (p * t2**2)) - b
        modes = (
            p * t1,
            across * d * t2,
            p * t1 * turned / (1 + b),
            1.05 * p * t1 * first / (2 + b),
            1.05 * p * t2 * other / (1 + 2 * b),
            1.15 * math.sqrt(2 * b / (1 + b) * 2 * yields * p),
        )
        return float(self.joined * min(modes))
