"""The order of hanging a wall that keeps its heaviest lift smallest, and then saves jobs overhead.

The frame is raised about its foot until the lip is at the mounts, with some parts on it already;
the others are added to the hanging frame, each with its lower end set down and its upper end
pushed up, blocking as a whole. At the least both rails, the outer studs and those at the mounts
make the frame. Sheets come when all studs and blocking are in, for they are screwed to them.

Every part added before the raise makes it heavier, and saves a lift of its own. So the least
heaviest lift is the least, over the distinct lifts s of single parts, of the larger of s and of the
raise with all parts whose own lift is above s (and what these parts need). With that lift
allowed, as many parts as can be go on before: studs, then blocking, then sheets, each kind's
lightest first; as each kind needs all of the one before it, no other choice has more.
"""

from __future__ import annotations

from dataclasses import dataclass

from steepwright.structure.raising import Body, foot_force_n, lip_force_n, together
from steepwright.units import GRAVITY_M_S2

KINDS = ("stud", "seam blocking", "board sheet")
"""In the order in which one needs the other."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the board: what it is, and where its mass is."""

    name: str
    kind: str
    body: Body

    @property
    def own_lift_n(self) -> float:
        """Force to add it to the hanging frame [N]: half its weight; blocking whole."""
        share = 1.0 if self.kind == "seam blocking" else 0.5
        return share * self.body.mass_kg * GRAVITY_M_S2


@dataclass(frozen=True, slots=True)
class Step:
    """One lift: what is moved, the force [N] and where, and what hangs afterwards."""

    what: str
    parts: tuple[tuple[str, int], ...]
    where: str
    moved: Body
    force_n: float
    hung: Body


@dataclass(frozen=True, slots=True)
class Order:
    """The steps, the heaviest lift overhead, and what it would be with the board whole [N]."""

    steps: tuple[Step, ...]
    heaviest_n: float
    whole_n: float


def best_order(must: tuple[Part, ...], others: tuple[Part, ...], length_mm: float) -> Order:
    """Return the order of hanging one board of some length.

    Parameters
    ----------
    must
        The parts that the frame can't be raised without.
    others
        Parts of the kinds in `KINDS` that may wait.
    """
    heaviest = min(
        max(limit, _raise_n(must, _needed(others, limit), length_mm))
        for limit in {0.0, *(part.own_lift_n for part in others)}
    )
    before = _as_many(must, others, length_mm, heaviest)
    after = tuple(part for part in others if part not in before)
    whole = _raise_n(must, others, length_mm)
    return Order(_steps(must + before, after, length_mm), heaviest, whole)


def _raise_n(must: tuple[Part, ...], more: tuple[Part, ...], length_mm: float) -> float:
    return lip_force_n(together(part.body for part in must + more), length_mm)


def _needed(others: tuple[Part, ...], limit_n: float) -> tuple[Part, ...]:
    """Return the parts whose own lift is above a limit, and all those of kinds they need."""
    heavy = [KINDS.index(part.kind) for part in others if part.own_lift_n > limit_n]
    last = max(heavy, default=-1)
    return tuple(
        part for part in others if KINDS.index(part.kind) < last or part.own_lift_n > limit_n
    )


def _as_many(
    must: tuple[Part, ...], others: tuple[Part, ...], length_mm: float, most_n: float
) -> tuple[Part, ...]:
    """Return as many parts as can go on before the raise, in the order in which they go on."""
    needed = _needed(others, most_n)
    on = list(needed)
    for kind in KINDS:
        rest = [part for part in others if part.kind == kind and part not in needed]
        rest.sort(key=lambda p: (p.body.mass_kg * p.body.up_mm, p.name, p.body))
        for part in rest:
            # The same force summed in another order may differ in its last digit.
            if _raise_n(must, (*on, part), length_mm) > most_n * (1 + 1e-12):
                return tuple(on)
            on.append(part)
    return tuple(on)


def _steps(on: tuple[Part, ...], after: tuple[Part, ...], length_mm: float) -> tuple[Step, ...]:
    hung = together(part.body for part in on)
    names = _counted(on)
    steps = [
        Step("raise the lip to the mounts", names, "lip", hung, lip_force_n(hung, length_mm), hung),
        Step("lift the foot", (), "lower edge", hung, foot_force_n(hung, length_mm), hung),
    ]
    order = sorted(after, key=lambda p: (KINDS.index(p.kind), p.body.up_mm, p.body.across_mm))
    for part in order:
        hung = together((hung, part.body))
        where = "whole" if part.kind == "seam blocking" else "upper end"
        add = Step("add", ((part.name, 1),), where, part.body, part.own_lift_n, hung)
        last = steps[-1]
        same = last.what == "add" and last.parts[0][0] == part.name and last.where == where
        if same:
            moved = Body(last.moved.mass_kg, part.body.up_mm, part.body.across_mm)
            add = Step(
                "add", ((part.name, last.parts[0][1] + 1),), where, moved, last.force_n, hung
            )
            steps.pop()
        steps.append(add)
    return tuple(steps)


def _counted(parts: tuple[Part, ...]) -> tuple[tuple[str, int], ...]:
    names = [part.name for part in parts]
    return tuple((name, names.count(name)) for name in dict.fromkeys(names))
