"""Sampled search: walls that no grid holds, or that a measure of the user's own decides on.

Lengths go by the millimetre, and one more objective may be given as a function of a design's
document. NSGA-II proposes walls; each is priced and checked by the exact solvers. What it finds
is good, not proven: the document says so.
"""

from __future__ import annotations

import itertools
import time
import warnings
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from steepwright.catalog.types import Catalog
from steepwright.errors import InfeasibleError
from steepwright.optimise.document import Document, design_document
from steepwright.optimise.journal import key_of
from steepwright.optimise.model import build_model
from steepwright.optimise.sampled_choice import CONSTRAINTS, Choices, Params, Tried
from steepwright.optimise.sampled_document import Sampled, sampled_document
from steepwright.optimise.sampled_measures import Named
from steepwright.optimise.search import Result
from steepwright.optimise.space import build_space
from steepwright.optimise.storages import keep_to, kept_in, open_study
from steepwright.optimise.terms import silent
from steepwright.optimise.walls import workshop
from steepwright.optimise.yards import markets
from steepwright.room.types import Room

POPULATION = 100
MOST_REPEATS = 5 * POPULATION
"""So many walls in a row that were all tried before end the search."""

FITS = "fits"

Objective = Callable[[Document], float]


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to sample, and how.

    Attributes
    ----------
    trials, seconds
        The most new walls to try, and the longest to take [s]; None is no limit.
    seed
        Makes a run repeatable, as long as it works alone on its storage.
    step_mm
        Grid of board and kicker [mm].
    storage
        URL of a database that keeps all walls tried, such as ``sqlite:///walls.db``; several
        machines may share one (PostgreSQL). A study that is there already is taken up again.
    own_places
        Whether ties and lifting eyes may be elsewhere than where the exact search has them.
    """

    trials: int = 2000
    seconds: float | None = None
    seed: int = 0
    storage: str | None = None
    step_mm: int = 1
    own_places: bool = True


@dataclass(frozen=True, slots=True)
class Own:
    """An objective of the user's own: a function of a design's document, and its direction."""

    measure: Objective
    maximise: bool = False


@dataclass(slots=True)
class Sampler:
    """One run over a study."""

    choices: tuple[Choices, ...]
    own: Own | None
    study: Any
    step_mm: int = 1
    known: set[tuple[object, ...]] = field(default_factory=set)
    seen: int = 0
    repeats: int = 0

    def suggest(self, trial: Any) -> dict[str, Any]:
        """Return a trial's choices; the space is the same for every trial."""
        every = self.choices[-1]
        params: dict[str, Any] = {
            name: trial.suggest_categorical(name, options) for name, options in every.names.items()
        }
        sets = [str(n) for n in range(len(self.choices))]
        params["yards"] = trial.suggest_categorical("yards", sets)
        for name, (low, high) in every.ranges.items():
            if name == "width_mm" and self.own is None:
                high = low
            step = self.step_mm if name in ("board_mm", "kicker_mm") else 1
            params[name] = trial.suggest_int(name, low, high - (high - low) % step, step=step)
        return params

    def catch_up(self) -> None:
        """Learn of the walls tried before, and meanwhile by others who share the storage.

        What is begun isn't known yet: who began it may have been killed over it.
        """
        trials = self.study.get_trials(deepcopy=False)[self.seen :]
        done = [trial.state.is_finished() for trial in trials]
        for trial in itertools.compress(trials, done):
            self.known.add(tuple(sorted(trial.params.items())))
        self.seen += [*done, False].index(False)

    def step(self) -> bool:
        """Try one wall; return whether it was a new one. Every path sets all constraints."""
        from optuna.trial import TrialState

        self.catch_up()
        trial = self.study.ask()
        params = self.suggest(trial)
        key = tuple(sorted(params.items()))
        if key in self.known:
            self._constrain(trial, dict.fromkeys(CONSTRAINTS, 0.0))
            self.study.tell(trial, state=TrialState.FAIL)
            self.repeats += 1
            return False
        self.repeats = 0
        tried = self.choices[int(params["yards"])].try_out(params)
        self._constrain(trial, tried.violations)
        trial.set_user_attr(FITS, tried.fits)
        self.study.tell(trial, [*tried.values, *self._own_value(tried, params)])
        return True

    @staticmethod
    def _constrain(trial: Any, violations: Mapping[str, float]) -> None:
        for name in CONSTRAINTS:
            trial.set_constraint(name, float(violations[name]))

    def _own_value(self, tried: Tried, params: Params) -> list[float]:
        if self.own is None:
            return []
        if not tried.fits or tried.wall is None:
            return [0.0]
        shop = self.choices[int(params["yards"])].shop
        return [float(self.own.measure(design_document(shop, tried.wall, "S00")))]


def sample(
    room: Room,
    catalog: Catalog,
    *,
    effort: Effort | None = None,
    own: Own | None = None,
    seeds: tuple[Document, ...] = (),
    progress: Callable[[str], None] = silent,
) -> Result:
    """Sample walls and return the front of all that fit; it is not certified.

    Parameters
    ----------
    own
        One more objective beside cost, angle and fall space.
    seeds
        Designs of an exact search to begin with.

    Raises
    ------
    UsageError
        When the storage can't be used, is lost, or is of another room, objective or prices.
    InfeasibleError
        When no wall that was tried fits.
    """
    effort = effort or Effort()
    shops = (workshop(build_model(build_space(m))) for m in markets(room, catalog))
    choices = tuple(Choices(shop, effort.own_places) for shop in shops)
    if not choices[-1].names["sheet"]:
        message = "No board can be made of the sheets on offer; run steepwright search to hear why."
        raise InfeasibleError(message)
    with kept_in(effort.storage):
        study = _study(effort, own, room, catalog)
        sampler = Sampler(choices, own, study, effort.step_mm)
        sampler.catch_up()
        for design in seeds:
            _enqueue(sampler, design)
        _run(sampler, effort, progress)
        tried = [trial for trial in study.get_trials(deepcopy=False) if trial.values]
    rows = [Sampled(t.params, tuple(t.values)) for t in tried if t.user_attrs.get(FITS)]
    if not rows:
        message = (
            f"None of {len(tried)} sampled walls fits. Run steepwright search: it settles every"
            " wall of the grid and tells which constraint binds."
        )
        raise InfeasibleError(message)
    document = sampled_document(choices, rows, len(tried), own is not None and own.maximise)
    return Result(_told(document, own))


def _told(document: Document, own: Own | None) -> Document:
    """Return the document with a named objective's words and what it rests on."""
    if own is None or not isinstance(own.measure, Named):
        return document
    named = own.measure
    aim = "large" if named.maximise else "small"
    said = f"One more objective, kept {aim}: {named.words} ({named.basis})."
    objective = {"words": named.words, "unit": named.unit, "maximise": named.maximise}
    assumptions = [document["assumptions"][0], said, *document["assumptions"][1:]]
    return document | {"assumptions": assumptions, "objective": objective}


def _run(sampler: Sampler, effort: Effort, progress: Callable[[str], None]) -> None:
    began, done = time.monotonic(), 0
    while done < effort.trials and sampler.repeats < MOST_REPEATS:
        if effort.seconds is not None and time.monotonic() - began > effort.seconds:
            return
        done += sampler.step()
        if done % POPULATION == 0:
            progress(f"walls sampled: {done} of {effort.trials}")


def _enqueue(sampler: Sampler, design: Document) -> None:
    for number, choices in reversed(list(enumerate(sampler.choices))):
        params = choices.params_of(design)
        if params is not None:
            if sampler.own is None:
                params["width_mm"] = choices.ranges["width_mm"][0]
            sampler.study.enqueue_trial(params | {"yards": str(number)}, skip_if_exists=True)
            return


def _study(effort: Effort, own: Own | None, room: Room, catalog: Catalog) -> Any:
    import optuna

    directions = ["minimize", "maximize", "maximize"]
    if own is not None:
        directions.append("maximize" if own.maximise else "minimize")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", optuna.exceptions.ExperimentalWarning)
        sampler = optuna.samplers.NSGAIISampler(population_size=POPULATION, seed=effort.seed)
    study = open_study(effort.storage, sampler, directions)
    if effort.storage is not None:
        keep_to(study, effort.storage, f"{key_of(room, catalog)} {_name(own)}")
    return study


def _name(own: Own | None) -> str:
    """Return what tells a user's objectives apart."""
    if own is None:
        return ""
    if isinstance(own.measure, Named):
        return own.measure.key
    return str(getattr(own.measure, "__qualname__", ""))
