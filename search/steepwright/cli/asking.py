"""The guided session of ``steepwright new --ask``: one measure after another, with a sketch."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import click

from steepwright.cli.console import note
from steepwright.errors import UsageError
from steepwright.findings import nearest
from steepwright.room.questions import (
    MOST_BEAMS,
    Question,
    blamed,
    put,
    questions,
    read_answer,
    room_text,
    trouble,
)
from steepwright.room.sketches import SKETCHES

BEAMS = "beams"


def given_answers(pairs: tuple[str, ...]) -> dict[str, str]:
    """Return the answers of ``--answer KEY=VALUE`` flags by key.

    Raises
    ------
    UsageError
        When one has no ``=`` or its key is not asked for.
    """
    known = [BEAMS, *(question.name for question in questions(MOST_BEAMS))]
    answers = {}
    for pair in pairs:
        key, found, value = pair.partition("=")
        if not found or key not in known:
            near = nearest(key, known)
            message = f"--answer takes KEY=VALUE, and {key!r} is no such key." + (
                f" Did you mean {near!r}?" if near else ""
            )
            raise UsageError(message)
        answers[key] = value
    return answers


def asked_room(given: Mapping[str, str]) -> str:
    """Ask for everything that is not given; return the room file's text.

    Raises
    ------
    UsageError
        When a given answer can't be right.
    """
    note(
        "Measure in millimetres, or write feet and inches, such as 8 ft 2 1/2 in. Empty answers"
        " take what stands in brackets, Ctrl-C ends."
    )
    waiting = list(questions(_beams(given)))
    asked = tuple(waiting)
    data: dict[str, Any] = {}
    shown = ""
    while waiting:
        question = waiting.pop(0)
        if question.table != shown and question.name not in given:
            note(SKETCHES[question.table])
            shown = question.table
        data = put(data, question.path, _answer(question, given))
        finding = trouble(data)
        if finding is not None:
            wrong = blamed(finding, asked) or question
            if wrong.name in given:
                message = f"--answer {wrong.name}={given[wrong.name]}: {finding.text()}"
                raise UsageError(message)
            note(finding.text())
            data = put(data, wrong.path, None)
            waiting.insert(0, wrong)
    return room_text(data)


def _beams(given: Mapping[str, str]) -> int:
    if BEAMS in given:
        if given[BEAMS].isdecimal() and 1 <= int(given[BEAMS]) <= MOST_BEAMS:
            return int(given[BEAMS])
        message = f"--answer beams={given[BEAMS]}: expected: a number from 1 to {MOST_BEAMS}"
        raise UsageError(message)
    kind = click.IntRange(1, MOST_BEAMS)
    return int(click.prompt("How many ceiling beams could a wall hang from?", type=kind, err=True))


def _answer(question: Question, given: Mapping[str, str]) -> Any:
    if question.name in given:
        try:
            return read_answer(question, given[question.name])
        except ValueError as error:
            message = f"--answer {question.name}={given[question.name]}: {error}"
            raise UsageError(message) from None
    number = f"Beam {question.path[1] + 1}. " if isinstance(question.path[1], int) else ""
    while True:
        text = click.prompt(
            f"{number}{question.words}",
            default=question.offered,
            show_default=bool(question.offered),
            err=True,
        )
        try:
            return read_answer(question, str(text))
        except ValueError as error:
            note(f"That can't be: {error}.")
