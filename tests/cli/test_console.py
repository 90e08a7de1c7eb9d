"""Every failure ends in a message and its exit code; with --json in exactly one document."""

from __future__ import annotations

import errno
import json
import math
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn

import click
import pytest

from steepwright.cli.console import ERROR_FORMAT, cents_option, guarded, run, write_json
from steepwright.errors import InfeasibleError, InputError, UsageError
from steepwright.findings import Finding


def raising(error: BaseException) -> Callable[[], NoReturn]:
    def work() -> NoReturn:
        raise error

    return work


FINDING = Finding("x-y", "error", "it is wrong", "a.toml", 3, "k")
FAILURES: list[tuple[BaseException, int, str]] = [
    (UsageError("not so"), 2, "not so"),
    (InputError("a.toml has 1 problem", (FINDING,)), 3, "a.toml has 1 problem"),
    (InfeasibleError("no wall fits"), 4, "no wall fits"),
    (KeyboardInterrupt(), 130, "Interrupted"),
    (click.Abort(), 130, "Interrupted"),
    (click.BadParameter("odd"), 2, "odd"),
    (OSError(errno.ENOSPC, "No space left on device", "out.html"), 2, "out.html: No space"),
    (ZeroDivisionError("by zero"), 1, "a mistake in steepwright"),
    (RecursionError("deep"), 1, "--debug"),
]


@pytest.mark.parametrize(("error", "code", "words"), FAILURES, ids=lambda v: type(v).__name__)
def test_a_failure_is_told_on_stderr(
    error: BaseException, code: int, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert guarded(raising(error)) == code
    said = capsys.readouterr()
    assert said.out == ""
    assert words in said.err
    assert "Traceback" not in said.err


@pytest.mark.parametrize(("error", "code", "words"), FAILURES, ids=lambda v: type(v).__name__)
def test_a_failure_with_json_is_one_document(
    error: BaseException, code: int, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert guarded(raising(error), as_json=True) == code
    said = capsys.readouterr()
    document = json.loads(said.out)
    assert (document["format"], document["exit_code"]) == (ERROR_FORMAT, code)
    assert words in document["message"]
    findings = [FINDING.as_dict()] if isinstance(error, InputError) else []
    assert document["findings"] == findings
    assert said.err == ""


def test_the_trace_is_shown_when_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    assert guarded(raising(ZeroDivisionError()), debug=True) == 1
    assert "Traceback" in capsys.readouterr().err


def test_debug_may_stand_anywhere(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    missing = str(tmp_path / "none.toml")
    for words in (["--debug", "search", missing], ["search", missing, "--debug"]):
        assert run(words) == 3
        assert "Traceback" in capsys.readouterr().err


@pytest.mark.parametrize("args", [["search"], ["search", "--no-such"], ["nonsense", "--json"]])
def test_wrong_use_is_exit_code_2(args: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(args) == 2
    said = capsys.readouterr()
    if "--json" in args:
        assert json.loads(said.out)["exit_code"] == 2
    else:
        assert said.out == ""
        assert "Error:" in said.err


def test_a_reader_that_goes_away_is_no_failure_of_ours() -> None:
    code = "import sys; from steepwright.cli.console import run; sys.exit(run(['--help']))"
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run([sys.executable, "-c", code], stdout=write, stderr=subprocess.PIPE)
    os.close(write)
    assert done.returncode == 141
    assert done.stderr == b""


def test_a_terminal_without_the_letter_is_no_failure(tmp_path: Path) -> None:
    env = {**os.environ, "PYTHONIOENCODING": "ascii"}
    done = subprocess.run(
        [sys.executable, "-m", "steepwright", "new", "dachb\u00f6den"],
        capture_output=True, cwd=tmp_path, env=env, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert b"Next: steepwright search" in done.stdout


@pytest.mark.parametrize(("text", "cents"), [("350", 35000), ("349.90", 34990), (None, None)])
def test_money_on_the_command_line(text: str | None, cents: int | None) -> None:
    assert cents_option(text, "--max-cost") == cents


@pytest.mark.parametrize("text", ["3,50", "0", "-1", "nan", "1.999", "", "much"])
def test_what_is_no_money_is_refused(text: str) -> None:
    with pytest.raises(UsageError, match="--max-cost"):
        cents_option(text, "--max-cost")


def test_json_holds_no_endless_number(capsys: pytest.CaptureFixture[str]) -> None:
    write_json({"capacity": math.inf, "uses": [0.5, math.nan]})
    assert json.loads(capsys.readouterr().out) == {"capacity": None, "uses": [0.5, None]}
