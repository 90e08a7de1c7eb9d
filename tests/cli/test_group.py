"""The top-level command: light, helpful, and loading a command only when it is called."""

from __future__ import annotations

import importlib
import json
import os
import subprocess
import sys

import click
import pytest

from steepwright.cli.console import run
from steepwright.cli.group import COMMANDS, LIBRARIES, root

LISTED = root.list_commands(click.Context(root))
HEAVY = ("numpy", "scipy", "pandas", "optuna", "plotly", "pydantic", "rich", "jinja2")


def modules_after(*args: str) -> set[str]:
    code = (
        "import json, sys; from steepwright.cli.console import run; "
        f"code = run({list(args)!r}); "
        "print(json.dumps([code, sorted(sys.modules)]), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    exit_code, names = json.loads(done.stderr.splitlines()[-1])
    assert exit_code == 0
    return {name.split(".")[0] for name in names} | {n for n in names if n.startswith("steepw")}


@pytest.mark.parametrize("args", [("--help",), ("-h",), ("--version",)])
def test_help_loads_no_heavy_library_and_no_command(args: tuple[str, ...]) -> None:
    loaded = modules_after(*args)
    assert not loaded & set(HEAVY)
    assert not loaded & {f"steepwright.cli.{name}" for name in COMMANDS}


@pytest.mark.parametrize("name", LISTED)
def test_a_commands_help_loads_no_heavy_library(name: str) -> None:
    assert not modules_after(name, "--help") & {"numpy", "scipy", "pandas", "optuna", "plotly"}


@pytest.mark.parametrize("name", LISTED)
def test_every_command_has_a_purpose_and_an_example(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run([name, "-h"]) == 0
    text = capsys.readouterr().out
    assert "Example:" in text
    assert f"steepwright {name} " in text.split("Example:")[1]
    command = root.get_command(click.Context(root), name)
    assert command is not None
    assert (command.help or "").split("\n")[0].strip() == COMMANDS[name]


def test_new_search_and_assess_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--help"]) == 0
    text = capsys.readouterr().out
    assert all(f"\n  {name} " in text for name in ("new", "search", "assess"))
    assert all(importlib.util.find_spec(f"steepwright.cli.{name}") for name in LISTED)


def test_the_version_names_the_libraries(capsys: pytest.CaptureFixture[str]) -> None:
    from importlib import metadata

    import steepwright

    assert run(["--version"]) == 0
    rows = dict(row.split(" ", 1) for row in capsys.readouterr().out.splitlines())
    assert rows["steepwright"] == steepwright.__version__
    assert {name: rows[name] for name in LIBRARIES} == {n: metadata.version(n) for n in LIBRARIES}


@pytest.mark.parametrize(
    ("option", "said"),
    [("--angle", "'x' is not a valid number."), ("--top", "'x' is not a valid whole number.")],
)
def test_a_number_that_is_none_is_called_one(
    option: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["search", "room.toml", option, "x"]) == 2
    assert said in capsys.readouterr().err


def test_a_mistyped_command_names_the_one_meant(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["serch"]) == 2
    said = capsys.readouterr()
    assert "Did you mean search?" in said.err
    assert said.out == ""


def test_the_module_runs_like_the_command() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "steepwright", "--version"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout.startswith("steepwright ")


def test_a_shell_can_ask_for_completions() -> None:
    env = {**os.environ, "_STEEPWRIGHT_COMPLETE": "bash_complete", "COMP_CWORD": "1"}
    done = subprocess.run(
        [sys.executable, "-m", "steepwright"],
        env={**env, "COMP_WORDS": "steepwright se"}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.stdout.splitlines() == ["plain,search"]
