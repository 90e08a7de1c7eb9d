"""Every check of the wall, for one design in plain words or for a batch at once."""

from __future__ import annotations

import numpy as np

from steepwright.structure import (
    rules_beam,
    rules_frame,
    rules_kicker,
    rules_ledger,
    rules_lift,
    rules_lip,
    rules_mount,
    rules_sheet,
    rules_slab,
    rules_spread,
    rules_stand,
    rules_tie,
)
from steepwright.structure.nds_words import assumption_of, clause_of
from steepwright.structure.rows import Rows, board_weight_n, kicker_weight_n, look_up
from steepwright.structure.rule import FIND_OUT, Kind, Part, Rule, is_of, known
from steepwright.structure.tables import Tables
from steepwright.structure.types import Batch, Check, FloatArray, IntArray
from steepwright.units import GRAVITY_M_S2

RULES: tuple[Rule, ...] = (
    *rules_frame.RULES,
    *rules_sheet.RULES,
    *rules_mount.RULES,
    *rules_lip.RULES,
    *rules_beam.RULES,
    *rules_slab.RULES,
    *rules_stand.RULES,
    *rules_ledger.RULES,
    *rules_spread.RULES,
    *rules_kicker.RULES,
    *rules_lift.RULES,
    *rules_tie.RULES,
)
_FIRST = (
    "sheet bending",
    "seam stud width",
    "hand force on the hoist",
    "seam blocking joint",
    "lift beam deflection",
    "stud bending",
    "sheet rolling shear",
    "sheet screw combined",
)
SIEVE: tuple[Rule, ...] = (
    *(rule for name in _FIRST for rule in RULES if rule.name == name),
    *(rule for rule in RULES if rule.name not in _FIRST),
)
"""All rules, those first that soonest tell most of a search's walls that fail."""

CHUNK_ROWS = 32_768
"""Rows worked on at once: more of them take memory."""

SHRINK_BY = 64
"""When so many walls of a chunk have failed, the rules go on with the others alone."""


def uses(tables: Tables, batch: Batch) -> dict[str, FloatArray]:
    """Return the use (demand over capacity) of every check for every wall.

    No use falls when board, kicker, width, bay, screw distance or angle (0 to 90 degrees) grows,
    nor when the number of mounts or the lifting eye's distance from the pivot shrinks. A tied
    wall's uses don't fall when `tie_cos` or `tie_board_mm` shrinks or `tie_mm` grows, nor when a
    length grows and these stay.
    """
    found = {rule.name: np.empty(len(batch)) for rule in RULES}
    start = 0
    for part in chunks(batch):
        rows, end = look_up(tables, part), start + len(part)
        for rule in RULES:
            found[rule.name][start:end] = rule.evaluate(rows).use
        start = end
    return found


def worst_use(tables: Tables, batch: Batch, limit: float = 1.0, part: Part = "all") -> FloatArray:
    """Return each wall's largest use of all rules, or of a part of them.

    A wall that fails one check isn't looked at further: above `limit` the value is the largest
    use found until then, so only "more than limit" is certain.
    """
    worst = np.zeros(len(batch))
    rules = tuple(rule for rule in SIEVE if is_of(rule, part))
    for start, some in zip(range(0, len(batch), CHUNK_ROWS), chunks(batch), strict=True):
        worst[start : start + len(some)] = _worst_of(tables, some, limit, rules)
    return worst


def _worst_of(tables: Tables, batch: Batch, limit: float, rules: tuple[Rule, ...]) -> FloatArray:
    worst, left, now = np.zeros(len(batch)), np.arange(len(batch)), np.zeros(len(batch))
    rows = look_up(tables, batch)
    kinds = kinds_of(rows)
    for rule in rules:
        if rule.of not in kinds:
            continue
        np.maximum(now, rule.evaluate(rows).use, out=now)
        good = now <= limit
        number = np.count_nonzero(good)
        if not number:
            break
        if number <= len(left) - SHRINK_BY:
            worst[left] = now
            left, now, rows = left[good], now[good], rows.take(np.flatnonzero(good))
    worst[left] = now
    # What is no number fails: `np.maximum` has carried it here.
    return np.where(np.isnan(worst), np.inf, worst)


def kinds_of(rows: Rows) -> set[Kind]:
    """Return what some of the walls are; rules of other kinds have no use for any of them."""
    tables, beam = rows.tables, rows.batch.beam
    slab = tables.beams.slab[beam]
    some: dict[Kind, bool] = {
        "all": True,
        "timber": not bool(slab.all()),
        "slab": bool(slab.any()),
        "frame": bool(tables.stands.stands[beam].any()),
        "ledger": bool(tables.ledgers.lies[beam].any()),
        "tie": bool(rows.tied.any()),
        "spreader": bool(rows.spread.hangs.any()),
        "fold": tables.loads.fold_up,
    }
    return {kind for kind, there in some.items() if there}


def checks(tables: Tables, batch: Batch) -> tuple[Check, ...]:
    """Return every check of one wall.

    Raises
    ------
    ValueError
        When the batch doesn't hold exactly one wall.
    """
    if len(batch) != 1:
        message = f"checks are for one wall at a time, not {len(batch)}"
        raise ValueError(message)
    rows = look_up(tables, batch)
    kinds = kinds_of(rows)
    return tuple(_check(rule, rows) for rule in RULES if rule.of in kinds)


def _check(rule: Rule, rows: Rows) -> Check:
    ratio = rule.evaluate(rows)
    words = rows.tables.words
    unknown = [fact for fact in rule.rests_on if not known(fact, rows)[0]]
    find_out = tuple(FIND_OUT[fact].format_map(words) for fact in unknown)
    clause, assumption = rule.clause, rule.assumption
    if rows.tables.code == "NDS":
        clause, assumption = clause_of(rule.name, clause), assumption_of(assumption)
    return Check(
        name=rule.name,
        clause=clause.format_map(words),
        demand=float(ratio.demand[0]),
        capacity=float(ratio.capacity[0]),
        unit=rule.unit,
        use=float(ratio.use[0]),
        assumption="; ".join((assumption.format_map(words), *find_out)),
        settled=not unknown,
        find_out=find_out,
    )


def self_mass(tables: Tables, batch: Batch, kicker_sheet: IntArray) -> FloatArray:
    """Return the mass of sheets, frame and holds of board and kicker [kg] per wall."""
    board, kicker = self_weights_n(tables, batch, kicker_sheet)
    return (board + kicker) / GRAVITY_M_S2


def self_weights_n(
    tables: Tables, batch: Batch, kicker_sheet: IntArray
) -> tuple[FloatArray, FloatArray]:
    """Return the weights of the board with frame and holds, and of the kicker [N] per wall.

    `kicker_sheet` holds indices into `Tables.sheets`: the kicker may be of a sheet of its own.
    """
    bar = tables.timber.take(batch.timber)
    weight = tables.sheets.weight_n_per_mm2[:, 0]
    area = weight[batch.sheet] + tables.loads.hold_n_per_mm2
    kicker = kicker_weight_n(batch, bar, weight[kicker_sheet])
    return board_weight_n(batch, bar, area), kicker


def chunks(batch: Batch) -> list[Batch]:
    """Return the batch in parts of at most `CHUNK_ROWS` rows."""
    if len(batch) <= CHUNK_ROWS:
        return [batch] if len(batch) else []
    names = Batch.__slots__
    return [
        Batch(*(getattr(batch, name)[start : start + CHUNK_ROWS] for name in names))
        for start in range(0, len(batch), CHUNK_ROWS)
    ]
