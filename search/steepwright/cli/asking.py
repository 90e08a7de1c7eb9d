"""The guided session of ``steepwright new --ask``: one measure after another, with a sketch."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import click

from steepwright.cli.console import note
from steepwright.cli.options import Count
from steepwright.errors import UsageError
from steepwright.findings import nearest
from steepwright.room.problems import says_inches
from steepwright.room.questions import (
    CALLED,
    MOST_ROWS,
    Question,
    blamed,
    lacks_unit,
    needless,
    put,
    questions,
    read_answer,
    trouble,
    words_for,
)
from steepwright.room.sketches import SKETCHES

HOW_MANY = {
    "beams": "How many ceiling beams could a wall hang from?",
    "joists": "How many even rows of joists hidden above the ceiling, running across the room?",
    "slabs": "How many rows of places where a concrete ceiling could take anchors?",
    "frames": "How many kinds of freestanding frame would you look at?",
}


def given_answers(pairs: tuple[str, ...]) -> dict[str, str]:
    """Return the answers of ``--answer KEY=VALUE`` flags by key.

    Raises
    ------
    UsageError
        When one has no ``=`` or its key is not asked for.
    """
    known = [*HOW_MANY, *(question.name for question in questions(MOST_ROWS))]
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


def asked_room(given: Mapping[str, str]) -> dict[str, Any]:
    """Ask for everything that is not given; return the answers as the room file has them.

    Raises
    ------
    UsageError
        When a given answer can't be right.
    """
    note(
        "Measure in millimetres, or write feet and inches, such as 8 ft 2 1/2 in. Empty answers"
        " take what stands in brackets, Ctrl-C ends."
    )
    rows = _rows(given)
    asked = questions(rows)
    waiting = list(asked)
    data: dict[str, Any] = {}
    shown = ""
    while waiting:
        question = waiting.pop(0)
        if question.table != shown and question.name not in given:
            note(SKETCHES[question.table])
            shown = question.table
        answer = _answer(question, given, says_inches(data))
        data = put(data, question.path, answer)
        waiting = [one for one in waiting if not needless(question, answer, one)]
        if question.path == ("room", "units"):
            waiting = list(questions(rows, answer)[1:])
        finding = trouble(data)
        if finding is not None:
            wrong = blamed(finding, asked) or [question]
            if wrong[0].name in given:
                message = f"--answer {wrong[0].name}={given[wrong[0].name]}: {finding.text()}"
                raise UsageError(message)
            note(finding.text())
            for one in wrong:
                data = put(data, one.path, None)
            waiting[:0] = wrong
    return data


def _rows(given: Mapping[str, str]) -> dict[str, int]:
    """Return how many there are of each thing that a wall may hang from; at least one in all."""
    rows = {table: _given_rows(table, given[table]) for table in HOW_MANY if table in given}
    asked = [table for table in HOW_MANY if table not in given]
    if not asked and not sum(rows.values()):
        message = "--answer: a wall needs something to hang from: one of " + ", ".join(HOW_MANY)
        raise UsageError(message)
    while True:
        for table in asked:
            kind = Count(0, MOST_ROWS[table])
            rows[table] = int(click.prompt(HOW_MANY[table], type=kind, default=0, err=True))
        if sum(rows.values()):
            return rows
        note("A wall needs something to hang from; a freestanding frame can stand anywhere.")


def _given_rows(table: str, text: str) -> int:
    most = MOST_ROWS[table]
    if text.isdecimal() and int(text) <= most:
        return int(text)
    message = f"--answer {table}={text}: expected: a number from 0 to {most}"
    raise UsageError(message)


def _answer(question: Question, given: Mapping[str, str], inches: bool) -> Any:
    if question.name in given:
        try:
            return read_answer(question, given[question.name], inches)
        except ValueError as error:
            message = f"--answer {question.name}={given[question.name]}: {error}"
            raise UsageError(message) from None
    number = ""
    if isinstance(question.path[1], int):
        number = f"{CALLED[question.table].capitalize()} {question.path[1] + 1}. "
    while True:
        text = click.prompt(
            f"{number}{words_for(question, inches)}",
            default=question.offered,
            show_default=bool(question.offered),
            err=True,
        )
        try:
            value = read_answer(question, str(text), inches)
        except ValueError as error:
            note(f"That can't be: {error}.")
            continue
        example = lacks_unit(question, value) if inches else ""
        if not example:
            return value
        note(f"A number alone does not say its unit: write it behind, such as {example}.")
