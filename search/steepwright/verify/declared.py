"""What the certificate declares as its space, against what room and offers make of it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import Grid, angles_rad, least_width_mm, pivot_of, whole_mdeg
from steepwright.verify.divisions import Sheeting, expected_sheetings, least_total_mm
from steepwright.verify.verdict import Verdict

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]

MOST_LENGTHS = 20_000
"""More lengths than any grid has; a file that asks for more is damaged."""


def grid_of(part: Document, room: Document) -> Grid:
    """Return the declared grid of lengths.

    Raises
    ------
    ValueError
        When it is empty or larger than any room's.
    """
    step = int(room["wall"]["step_mm"])
    axes = []
    for name in ("boards_mm", "kickers_mm"):
        first, last = part["space"][name]
        if step < 1 or not 0 <= first <= last or (last - first) // step > MOST_LENGTHS:
            message = f"{name} from {first} to {last} in steps of {step} are no lengths"
            raise ValueError(message)
        axes.append(np.arange(first, last + 1, step, dtype=np.int64))
    return Grid(axes[0], axes[1], least_width_mm(room))


def widths_of(room: Document) -> IntArray:
    """Return all widths [mm] that the claim has to be about: those that the room asks for.

    Raises
    ------
    ValueError
        When there are none, or more than in any room.
    """
    wall = room["wall"]
    first, last, step = least_width_mm(room), int(wall["width_mm"][1]), int(wall["step_mm"])
    if not 0 <= last - first <= MOST_LENGTHS * step:
        message = f"widths from {first} to {last} in steps of {step} are none"
        raise ValueError(message)
    return np.arange(first, last + 1, step, dtype=np.int64)


def sheetings_of(part: Document) -> list[Sheeting]:
    """Return the declared ways to make the board."""
    columns = part["space"]["sheetings"]
    return [
        Sheeting(*row) for row in zip(*(columns[name] for name in Sheeting._fields), strict=True)
    ]


@dataclass(frozen=True, slots=True)
class Axes:
    """The grid of lengths, all widths [mm], and the ways to make the board."""

    grid: Grid
    widths_mm: IntArray
    sheetings: list[Sheeting]


def axes_of(part: Document, room: Document) -> Axes:
    """Return what the declared space is laid out by."""
    return Axes(grid_of(part, room), widths_of(room), sheetings_of(part))


def check_space(part: Document, room: Document, axes: Axes, verdict: Verdict) -> int:
    """Tell every difference between the declared space and the room's; return its designs."""
    space, given, wall = part["space"], part["given"], room["wall"]
    grid, widths, sheetings = axes.grid, axes.widths_mm, axes.sheetings

    def same(what: str, seen: object, expected: object) -> None:
        if seen != expected:
            verdict.wrong("certificate-space", what, seen, expected)

    _check_sheetings(part, wall, axes, verdict)
    same("widths", space["widths_mm"], [int(widths[0]), int(widths[-1])])
    places = [[beam, facing] for beam in range(len(room["beams"])) for facing in ("+x", "-x")]
    same("places", sorted(space["places"]), sorted(places))
    factors = given["factors"]
    least, most = int(factors["search_least_mounts"]), int(factors["search_most_mounts"])
    same("numbers of mounts", space["mount_counts"], list(range(least, most + 1)))
    least, most, step = (int(factors[f"search_{n}_screw_mm"]) for n in ("least", "most", "step"))
    same("distances of screws", space["screws_mm"], list(range(most, least - 1, -step)))
    kickers = wall["kicker_mm"]
    steps = (kickers[1] - kickers[0]) // wall["step_mm"]
    same("kickers", space["kickers_mm"], [kickers[0], kickers[0] + steps * wall["step_mm"]])
    _check_boards(part, room, grid, verdict)
    _check_sides(part, verdict)
    hung = len(places) * len(given["mounts"]) * len(space["mount_counts"])
    sets = given["ties"]["sets"] if "tie_beam" in room else []
    same("ties", space.get("ties", []), [one["sku"] for one in sets])
    hung *= len(space["screws_mm"]) * (1 + len(sets))
    families = hung * len(sheetings) * len(given["sections"]) * 2
    cells = len(grid.boards_mm) * len(grid.kickers_mm)
    same("families", space["families"], families)
    same("grid points", space["cells"], cells)
    each = families // max(len(sheetings), 1) * cells
    least = int(factors["layout_min_piece_mm"])
    # A board that can be divided so at some width can be at every greater one.
    needed = [least_total_mm(s.columns, s.full_column_mm, least) for s in sheetings]
    designs = each * int((widths[None, :] >= np.array(needed)[:, None]).sum())
    same("designs", space["designs"], designs)
    return designs


def _check_sheetings(part: Document, wall: Document, axes: Axes, verdict: Verdict) -> None:
    longest, sheetings = int(axes.grid.boards_mm[-1]), axes.sheetings
    if wall["board_mm"] is not None:
        longest = int(wall["board_mm"][1])
    expected = set(expected_sheetings(part, wall, axes.widths_mm.tolist(), longest))
    declared = Counter(sheetings)
    for sheeting in sorted(expected - set(declared)):
        verdict.wrong("certificate-space", "a way to make the board is missing", "", sheeting)
    for sheeting in sorted(set(declared) - expected):
        verdict.wrong("certificate-space", "a way to make the board that is none", sheeting)
    for sheeting, times in declared.items():
        if times > 1:
            verdict.wrong("certificate-space", f"{tuple(sheeting)} is listed twice", times, 1)


def _check_boards(part: Document, room: Document, grid: Grid, verdict: Verdict) -> None:
    """Make sure that no board beside the grid stands at an angle asked for."""
    wall = room["wall"]
    if wall["board_mm"] is not None:
        least, most = wall["board_mm"]
        last = least + (most - least) // wall["step_mm"] * wall["step_mm"]
        if part["space"]["boards_mm"] != [least, last]:
            verdict.wrong("certificate-space", "boards", part["space"]["boards_mm"], [least, last])
        return
    step = int(wall["step_mm"])
    shorter = np.arange(step, int(grid.boards_mm[0]), step, dtype=np.int64)[-1:]
    longer = np.array([grid.boards_mm[-1] + step], dtype=np.int64)
    least, most = wall["angle_deg"]
    thicknesses = {f["thickness_mm"] for f in part["given"]["families"]}
    for beam in room["beams"]:
        for mount in part["given"]["mounts"]:
            for thickness in sorted(thicknesses):
                pivot = pivot_of(beam, mount, thickness)
                for boards in (shorter, longer):
                    beside = Grid(boards, grid.kickers_mm, grid.width_mm)
                    mdeg = whole_mdeg(angles_rad(beside, pivot))
                    if ((mdeg >= 1000 * least) & (mdeg <= 1000 * most)).any():
                        verdict.wrong(
                            "certificate-space",
                            "a board beside the grid stands at an angle asked for",
                            int(boards[0]),
                        )


def _check_sides(part: Document, verdict: Verdict) -> None:
    """Make sure that a board may be divided at every side of a sheet on sale."""
    for family in part["given"]["families"]:
        bought = [row for row in family["stock"] if row["limit"] is None]
        sides = {side for row in bought for side in (row["length_mm"], row["width_mm"])}
        if not sides <= set(family["split_sides_mm"]):
            verdict.wrong(
                "certificate-space",
                f"sides to divide at of {family['kind']} {family['thickness_mm']}",
                family["split_sides_mm"],
                sorted(sides),
            )
