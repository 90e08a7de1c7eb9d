"""The space as arrays: what the bounds and the structure need to look up per entry."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Panel
from steepwright.optimise.access import AccessTables, build_access
from steepwright.optimise.entries import Entries
from steepwright.optimise.exact import ExactCosts
from steepwright.optimise.fixing import Fixing
from steepwright.optimise.fold import back_rise_mm
from steepwright.optimise.hooks import HookTables, build_hooks, hook_columns
from steepwright.optimise.lift import LiftTables, build_lifts, nearest_eye_mm
from steepwright.optimise.made import FrameArrays, SheetingArrays, frame_arrays, sheeting_arrays
from steepwright.optimise.pad_tables import PadTables, build_pad_tables
from steepwright.optimise.reach import Reach, build_reach
from steepwright.optimise.space import Space, limit_range, wider_space
from steepwright.optimise.tie import TieTables, build_ties, tie_columns
from steepwright.pricing.hardware import Counts, HardwarePricer, build_pricer
from steepwright.structure import Batch, Tables, build_tables
from steepwright.structure.tie_share import MIDDLE

IntArray = npt.NDArray[np.int64]
FloatArray = npt.NDArray[np.float64]

BOX_SIZES = (64, 32, 16, 8, 4, 2, 1)


@dataclass(frozen=True, slots=True)
class Model:
    """Everything that stays the same during one search.

    Attributes
    ----------
    hangs
        Per mount, sheeting and section: whether the frame clears its own beam.
    section_mm
        Narrow side of each section [mm].
    kickers
        Per sheeting: other families whose sheet may make the kicker.
    stand_cents
        What a place's freestanding frame costs [cents], [place, delivered].
    wider
        The same for all widths asked for, where they are looked at.
    """

    space: Space
    sheetings: SheetingArrays
    frames: FrameArrays
    hangs: npt.NDArray[np.bool_]
    section_mm: IntArray
    reach: Reach
    pads: PadTables
    lifts: LiftTables
    ties: TieTables | None
    hooks: HookTables
    access: AccessTables
    pricer: HardwarePricer
    tables: Tables
    exact: ExactCosts
    kickers: tuple[tuple[int, ...], ...]
    stand_cents: IntArray
    wider: Model | None = None

    @property
    def grid(self) -> tuple[int, int]:
        """Number of board lengths and kicker heights."""
        return len(self.space.boards_mm), len(self.space.kickers_mm)

    def mounting(self, entries: Entries) -> IntArray:
        """Return each entry's mounting number in the reach tables."""
        thickness = self.sheetings.thickness[entries.sheeting]
        return self.reach.index[entries.place, entries.mount, thickness]

    def steepest_rad(self, entries: Entries) -> FloatArray:
        """Return the steepest angle [rad] at which each entry's least corner may stand."""
        thickness = self.sheetings.thickness[entries.sheeting]
        pose = self.reach.pose[entries.place, entries.mount, thickness]
        return self.reach.steepest_rad[pose, entries.row, entries.column]

    def strip_families(self, sheeting: int, column: int) -> tuple[int, ...]:
        """Return the families that the kicker may be made of and whose strips get in."""
        families = (self.space.sheetings[sheeting].family, *self.kickers[sheeting])
        return self.access.kickers_at(sheeting, column, families)

    def fixing(self, entries: Entries) -> Fixing:
        """Return how the entries are fixed."""
        return Fixing.picked(self.space.fixings, entries.fixing)

    def counts(self, entries: Entries) -> Counts:
        """Return what the small parts of each entry's least corner depend on."""
        s, fixing = self.sheetings, self.fixing(entries)
        return Counts(
            studs=s.studs[entries.sheeting],
            columns=s.columns[entries.sheeting],
            rows=s.rows[entries.sheeting],
            mounts=fixing.mounts,
            board_mm=self.space.boards_mm[entries.row],
            kicker_mm=self.space.kickers_mm[entries.column],
            width_mm=self.space.widths_mm[entries.width],
            screw_mm=fixing.screw_mm,
            tie=fixing.tie,
        )

    def batch(self, entries: Entries, fixing: Fixing | None, size: int = 1, tie: int = 0) -> Batch:
        """Return the structural candidates at the least corner of each entry's box.

        The angle there is raised to the least one asked for: no wall of the box is less steep.
        The lifting eye is that of the box's longest board, the most favourable one, and a beam
        above it is looked at only if the eyes of all the box's boards lie under it. Without a
        fixing the strongest stands for all with that `tie`: what fails with it fails with any.
        The wall has its least width, but mounts that hang as favourably as at any that it may
        have: which is the one thing that a greater width may ease.
        """
        s, space = self.sheetings, self.space
        angle = self.steepest_rad(entries)
        least = np.radians(space.market.room.wall.angle_deg[0])
        board = space.boards_mm[entries.row]
        rows = s.rows[entries.sheeting]
        full = s.full_row_mm[entries.sheeting]
        seam = np.where(rows > 1, np.where(full > 0, full, -(-board // rows)), 0)
        beams = np.array([beam for beam, _ in space.places], dtype=np.int64)
        studs = s.studs[entries.sheeting]
        mounts = None if fixing is None else fixing.mounts
        hooks = self.hooks.look_up(entries.sheeting, entries.section, entries.place, mounts)
        if fixing is None:
            fixing = Fixing.of(space.mount_counts[-1], space.screws_mm[-1], len(entries), tie)
        longest = np.minimum(entries.row + size - 1, len(space.boards_mm) - 1)
        eye = entries.place, entries.mount, longest
        mounting = entries.place, entries.mount, s.thickness[entries.sheeting]
        boxes = entries.row // size, entries.column // size
        above = self.lifts.beam_over(entries.place, entries.mount, entries.row, longest)
        lift = self.hooks.look_up_lift(entries.sheeting, entries.section, above)
        return Batch(
            beam=beams[entries.place],
            sheet=s.family[entries.sheeting],
            timber=entries.section,
            mount=entries.mount,
            stud_count=studs,
            mount_count=np.minimum(fixing.mounts, studs),
            columns=s.columns[entries.sheeting],
            rows=rows,
            bay_mm=self.frames.bay_mm[entries.sheeting, entries.section],
            seam_mm=seam.astype(float),
            grain_across=s.across[entries.sheeting],
            screw_mm=fixing.screw_mm.astype(float),
            **hook_columns(hooks, lift),
            eye_mm=nearest_eye_mm(space, self.lifts.eye_mm[eye]),
            lift_beam=above,
            tie=fixing.tie,
            **tie_columns(self.ties, (*mounting, *boxes), size),
            tie_board_mm=space.boards_mm[longest].astype(float),
            tie_place=np.full(len(entries), MIDDLE),
            board_mm=board.astype(float),
            kicker_mm=space.kickers_mm[entries.column].astype(float),
            width_mm=space.widths_mm[entries.width].astype(float),
            angle_rad=np.fmax(angle, least),
        )


def build_model(space: Space, reach: Reach | None = None, tables: Tables | None = None) -> Model:
    """Precompute the tables of one search.

    `reach` is taken over from a model whose walls stand alike: same room, mounts and lengths, and
    every thickness of this space's boards among its own. `tables` are taken over where they would
    be the same.
    """
    market = space.market
    if reach is None:
        reach = build_reach(space, board_thicknesses_mm(space), BOX_SIZES)
    known = reach.thicknesses_mm
    numbers = [
        known.index(f.thickness_mm) if f.thickness_mm in known else -1 for f in market.families
    ]
    sheetings = sheeting_arrays(space, np.array(numbers, dtype=np.int64))
    others = [kicker_families(space, family) for family in range(len(market.families))]
    kickers = tuple(others[sheeting.family] for sheeting in space.sheetings)
    if tables is None:
        tables = build_tables(market.catalog, market.room, market.families, market.sections)
    pricer = build_pricer(market, largest_counts(space))
    beams = np.array([beam for beam, _ in space.places], dtype=np.int64)
    return Model(
        space=space,
        sheetings=sheetings,
        frames=frame_arrays(space),
        hangs=_hangs(space),
        section_mm=np.array([s.width_mm for s in market.sections], dtype=np.int64),
        reach=reach,
        pads=build_pad_tables(space, reach),
        lifts=build_lifts(space),
        ties=build_ties(space, reach.thicknesses_mm, BOX_SIZES),
        hooks=build_hooks(space),
        access=build_access(space, kickers),
        pricer=pricer,
        tables=tables,
        exact=ExactCosts(space),
        kickers=kickers,
        stand_cents=pricer.stand_cents[beams],
    )


def build_wide_model(space: Space) -> Model:
    """Precompute the tables of a search of all widths asked for, the least one first."""
    model, whole = build_model(space), wider_space(space)
    return model if whole is None else replace(model, wider=build_model(whole, model.reach))


def priced_model(space: Space, like: Model) -> Model:
    """Return a model that knows what its walls cost and nothing else.

    What does not bear on costs is that of another model, and says nothing of this one's walls.
    """
    market = space.market
    others = [kicker_families(space, family) for family in range(len(market.families))]
    return replace(
        like,
        space=space,
        sheetings=sheeting_arrays(space, np.full(len(market.families), -1, dtype=np.int64)),
        frames=frame_arrays(space),
        section_mm=np.array([s.width_mm for s in market.sections], dtype=np.int64),
        pricer=build_pricer(market, largest_counts(space)),
        exact=ExactCosts(space),
        wider=None,
        kickers=tuple(others[sheeting.family] for sheeting in space.sheetings),
    )


def board_thicknesses_mm(space: Space) -> tuple[int, ...]:
    """Return the thicknesses [mm] that a board of the space may have, ascending."""
    families = space.market.families
    return tuple(sorted({families[sheeting.family].thickness_mm for sheeting in space.sheetings}))


def largest_counts(space: Space) -> Counts:
    """Return the most and the longest of everything that the space's walls have."""
    market = space.market
    sizes = (
        limit_range(market, "studs")[-1],
        market.room.wall.max_columns,
        market.room.wall.max_rows,
        space.mount_counts[-1],
        int(space.boards_mm[-1]),
        int(space.kickers_mm[-1]),
        int(space.widths_mm[-1]),
        space.screws_mm[-1],
        0,
    )
    return Counts(*(np.array([size], dtype=np.int64) for size in sizes))


def _hangs(space: Space) -> npt.NDArray[np.bool_]:
    """Tell which frames can clear their own beam at some of the angles asked for.

    The rise of the frame's back corner is least at one end of the angle range; each wall's own
    angle is looked at when it is settled.
    """
    market = space.market
    wall = market.room.wall
    drop, setback, behind = (
        np.array([getattr(m, name) for m in market.catalog.mounts])[:, None, None]
        for name in ("drop_mm", "setback_mm", "behind_sheet_mm")
    )
    depth = np.array([s.depth_mm for s in market.sections])[None, None, :]
    back = np.maximum(depth - behind, 0)
    rises = [
        back_rise_mm(back, setback, np.radians(angle), wall.fold_up) for angle in wall.angle_deg
    ]
    clear = np.asarray(np.minimum(*rises) <= drop)
    return np.repeat(clear, len(space.sheetings), axis=1)


def kicker_families(space: Space, family: int) -> tuple[int, ...]:
    """Return the other families that may make the kicker of a board of one.

    The checks look at the board's sheet: a kicker's own family would be one more choice of every
    row of the search, for a strip that the board's sheets nearly always yield. So another family
    may stand in for it only if it is at least as strong and stiff in its weaker direction as the
    board's is in its stronger one.
    """
    panels = space.market.catalog.materials.panels
    families = space.market.families
    own = panels[families[family].panel]
    others = [(i, panels[f.panel]) for i, f in enumerate(families) if i != family]
    return tuple(i for i, panel in others if _outdoes(panel, own))


def _outdoes(other: Panel, own: Panel) -> bool:
    """Compare bending, stiffness and both kinds of shear, each with its own kind."""

    def values(panel: Panel, of: Callable[[float, float], float]) -> tuple[float, ...]:
        t = panel.mean_thickness_mm
        across = panel.fv_planar_across_mpa or panel.fv_planar_mpa
        return (
            of(panel.fm_along_mpa, panel.fm_across_mpa) * t**2,
            of(panel.e_along_mpa, panel.e_across_mpa) * t**3,
            of(panel.fv_planar_mpa, across) * t,
            panel.fv_panel_mpa * t,
        )

    return all(a >= b for a, b in zip(values(other, min), values(own, max), strict=True))
