"""Every command that the help and the README name is one that the command line takes."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from steepwright.cli.group import root

CHECKOUT = Path(__file__).parents[2]
README = CHECKOUT / "README.md"
COMMANDS = root.list_commands(click.Context(root, **root.context_settings))


def context_of(name: str) -> tuple[click.Command, click.Context]:
    command = root.get_command(click.Context(root, **root.context_settings), name)
    assert command is not None
    parent = click.Context(root, info_name="steepwright", **root.context_settings)
    return command, click.Context(command, info_name=name, parent=parent)


def parse(words: list[str]) -> click.Context:
    """Parse a command line as it stands, without carrying it out."""
    assert words[0] == "steepwright", words
    parent = click.Context(root, info_name="steepwright", **root.context_settings)
    name, command, rest = root.resolve_command(parent, words[1:])
    assert command is not None
    return command.make_context(name, rest, parent=parent)


def examples_in(help_text: str) -> list[str]:
    _, found, after = help_text.partition("Example:")
    assert found, "the help has no example"
    rows = [row.strip() for row in after.splitlines()]
    return [row for row in rows if row]


def test_help_lists_commands() -> None:
    assert {"new", "search", "assess", "prices"} <= set(COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_a_commands_help_has_an_example_of_itself(name: str) -> None:
    command, context = context_of(name)
    rows = examples_in(command.get_help(context))
    assert any(row.startswith(f"steepwright {name} ") for row in rows), rows


def test_the_first_help_has_an_example() -> None:
    assert examples_in(
        root.get_help(click.Context(root, info_name="steepwright", **root.context_settings))
    )


def all_examples() -> Iterator[str]:
    yield from examples_in(
        root.get_help(click.Context(root, info_name="steepwright", **root.context_settings))
    )
    for name in COMMANDS:
        command, context = context_of(name)
        yield from examples_in(command.get_help(context))


@pytest.mark.parametrize("row", sorted(set(all_examples())))
def test_an_example_parses(row: str) -> None:
    assert parse(shlex.split(row)).params


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_says_what_it_is(name: str) -> None:
    command, _ = context_of(name)
    silent = [p.name for p in command.params if isinstance(p, click.Option) and not p.help]
    assert silent == []


def test_a_wrong_example_would_be_seen() -> None:
    for row in ("steepwright search", "steepwright search a --no-such", "steepwright serch a"):
        with pytest.raises(click.UsageError):
            parse(shlex.split(row))


def fenced(marker: str) -> list[str]:
    """Return the rows of the fence that follows a marker in the README."""
    text = README.read_text(encoding="utf-8")
    found = re.search(rf"<!-- {marker} -->\s*\n```[a-z]*\n(.*?)\n```", text, re.DOTALL)
    assert found, f"README.md has no fence after <!-- {marker} -->"
    joined = found[1].replace("\\\n", " ")
    return [row for row in joined.splitlines() if row.strip() and not row.startswith("#")]


def words_of(row: str) -> list[str]:
    """Return a row's words without the way to the program in front."""
    words = shlex.split(row.partition(" > ")[0], comments=True)
    at = next((i for i, word in enumerate(words) if Path(word).name == "steepwright"), None)
    assert at is not None, f"no steepwright in {row!r}"
    return ["steepwright", *words[at + 1 :]]


def test_the_readmes_main_command_parses_and_names_files_that_are_there() -> None:
    rows = [row for row in fenced("main command") if "steepwright" in row]
    assert any(" search " in f"{row} " for row in rows), rows
    made: set[str] = set()
    for row in rows:
        words = words_of(row)
        context = parse(words)
        if context.info_name == "new":
            made.add(words[-1])
        room = context.params.get("room_file")
        if room is not None and room.parts[0] not in made:
            assert (CHECKOUT / room).exists(), f"README.md names {room}, which is not there"


def test_the_readmes_test_command_runs_the_tests() -> None:
    rows = fenced("test command")
    assert any("pytest" in row for row in rows), rows
    for row in rows:
        for word in shlex.split(row):
            if word.startswith("tests") or word.endswith((".toml", ".txt", ".cfg")):
                assert (CHECKOUT / word).exists(), f"README.md names {word}, which is not there"
