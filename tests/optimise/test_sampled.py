"""The sampled search: what it finds fits, it keeps what it is given, and it says it proves nothing.

The referee is the exact search: on its own grid no sampled wall may beat it.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
from small_rooms import tiny_catalog, tiny_room

from steepwright.errors import UsageError
from steepwright.optimise import search
from steepwright.optimise.evaluate import cost_cents, fits_room, holds
from steepwright.optimise.model import build_model
from steepwright.optimise.refine import refine, what_it_gains
from steepwright.optimise.sampled import Effort, Own, Sampler, sample
from steepwright.optimise.sampled_choice import CONSTRAINTS, Choices
from steepwright.optimise.sampled_measures import NAMED
from steepwright.optimise.space import build_space
from steepwright.optimise.walls import workshop
from steepwright.optimise.widen import splits_well
from steepwright.pricing.market import build_market
from steepwright.report.files import designs_csv
from steepwright.report.views.answer import certainty

SEED = 12
ROOM, CATALOG = tiny_room(SEED), tiny_catalog(SEED)
SHORT = Effort(trials=250, seed=3)
Doc = dict[str, Any]


@pytest.fixture(scope="module")
def exact() -> Doc:
    return search(ROOM, CATALOG, changes=False).document


@pytest.fixture(scope="module")
def sampled(exact: Doc) -> Doc:
    return sample(ROOM, CATALOG, effort=SHORT, seeds=tuple(exact["designs"])).document


def choices() -> Choices:
    return Choices(workshop(build_model(build_space(build_market(ROOM, CATALOG)))))


def test_it_is_marked_as_not_certified_everywhere(sampled: Doc) -> None:
    assert (sampled["method"], sampled["complete"]) == ("sampled", False)
    assert "Not certified" in sampled["assumptions"][0]
    assert "Not certified" in str(certainty(sampled))
    head, *rows = designs_csv(sampled).splitlines()
    assert head.endswith(",certified")
    assert rows
    assert all(row.endswith(",no") for row in rows)


def test_an_exact_front_given_to_it_is_kept_or_beaten(exact: Doc, sampled: Doc) -> None:
    for design in exact["designs"]:
        assert any(
            d["cost_cents"] <= design["cost_cents"]
            and d["angle_deg"] >= design["angle_deg"]
            and d["fall_space_mm"] >= design["fall_space_mm"]
            for d in sampled["designs"]
        )


def test_what_is_sampled_passes_the_plain_evaluation(sampled: Doc) -> None:
    shop = choices()
    for design in sampled["designs"]:
        params = shop.params_of(design)
        assert params is not None
        tried = shop.try_out(params)
        assert tried.fits
        assert tried.wall is not None
        assert fits_room(shop.shop, tried.wall)
        assert holds(shop.shop, tried.wall)
        assert splits_well(shop.shop, tried.wall)
        assert cost_cents(shop.shop, tried.wall) == design["cost_cents"]


def test_it_repeats_itself_and_tries_no_wall_twice() -> None:
    one, two = (sample(ROOM, CATALOG, effort=SHORT).document for _ in range(2))
    assert one == two
    assert one["counts"]["tried"] == SHORT.trials


def test_every_trial_has_every_constraint(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[set[str]] = []
    plain = Sampler._constrain

    def noted(trial: Any, violations: dict[str, float]) -> None:
        plain(trial, violations)
        seen.append(set(violations))

    monkeypatch.setattr(Sampler, "_constrain", staticmethod(noted))
    sample(ROOM, CATALOG, effort=Effort(trials=120))
    assert len(seen) >= 120
    assert all(names == set(CONSTRAINTS) for names in seen)


def test_a_study_in_a_database_is_taken_up_again(exact: Doc, tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'walls.db'}"
    seeds = tuple(exact["designs"])
    first = sample(
        ROOM, CATALOG, effort=Effort(trials=30, storage=url, seed=3), seeds=seeds
    ).document
    second = sample(ROOM, CATALOG, effort=Effort(trials=10, storage=url)).document
    assert (first["counts"]["tried"], second["counts"]["tried"]) == (30, 40)
    assert second["counts"]["fitting"] >= first["counts"]["fitting"]
    with pytest.raises(UsageError, match="other objectives"):
        sample(ROOM, CATALOG, effort=Effort(trials=1, storage=url), own=Own(lambda _: 0.0))
    with pytest.raises(UsageError, match="can't be used"):
        sample(ROOM, CATALOG, effort=Effort(trials=1, storage="sqlite:////no/such/folder/x.db"))


def test_an_objective_of_ones_own_is_minimised_or_maximised(exact: Doc) -> None:
    """The number of saw cuts: at least as few as in the exact front, or as many as can be found."""

    def cuts(design: Doc) -> float:
        return float(sum(len(sheet["cuts"]) for sheet in design["cut_plan"]["sheets"]))

    seeds = tuple(exact["designs"])
    few = sample(ROOM, CATALOG, effort=SHORT, own=Own(cuts), seeds=seeds).document
    many = sample(ROOM, CATALOG, effort=SHORT, own=Own(cuts, True), seeds=seeds).document
    assert all(d["own_objective"] == cuts(d) for d in few["designs"])
    least = min(d["own_objective"] for d in few["designs"])
    most = max(d["own_objective"] for d in many["designs"])
    assert least <= min(cuts(d) for d in seeds)
    assert most > least


def rows(design: Doc) -> list[int]:
    """How far up the board the rows of holds are that its drawing has [mm]."""
    return sorted({u for _, u in design["holds"]["free_mm"]})


@pytest.mark.parametrize("name", sorted(NAMED))
def test_a_measure_of_climbing_by_name(exact: Doc, name: str) -> None:
    """Cost, angle and fall space alone leave walls out that are better to climb."""
    named = NAMED[name]
    seeds = tuple(exact["designs"])
    found = sample(
        ROOM, CATALOG, effort=SHORT, own=Own(named, named.maximise), seeds=seeds
    ).document
    values = [d["own_objective"] for d in found["designs"]]
    by_hand = {
        "climbable": lambda d: d["board_mm"] + d["kicker_mm"],
        "moves": lambda d: (rows(d)[-1] - rows(d)[0]) // (0.3 * ROOM.climber.span_mm),
        "spans": lambda d: math.floor(100 * d["width_mm"] / ROOM.climber.span_mm) / 100,
        "start": lambda d: round(
            d["kicker_mm"] + rows(d)[0] * math.cos(math.radians(d["angle_deg"]))
        ),
    }[name]
    assert values == pytest.approx([by_hand(d) for d in found["designs"]], abs=0.011)
    best = (max if named.maximise else min)(by_hand(d) for d in seeds)
    assert max(values) >= best if named.maximise else min(values) <= best
    assert named.words in found["assumptions"][1]
    assert found["objective"]["maximise"] is named.maximise


def test_refining_never_loses_and_is_exact(exact: Doc) -> None:
    design = exact["designs"][0]
    fine = refine(ROOM, CATALOG, design).document
    assert fine["complete"]
    assert (
        min(d["cost_cents"] for d in fine["designs"] if d["angle_deg"] >= design["angle_deg"])
        <= design["cost_cents"]
    )
    lines = what_it_gains(design, fine)
    steeper = max(
        d["angle_deg"] for d in fine["designs"] if d["cost_cents"] <= design["cost_cents"]
    )
    assert any(f"{int(steeper * 1000) / 1000:.3f}" in line for line in lines) == (
        steeper > design["angle_deg"]
    )
