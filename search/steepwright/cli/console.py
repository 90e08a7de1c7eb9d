"""The one place that owns stdout and stderr, and that turns every failure into a message.

stdout carries the result and nothing else; stderr carries progress and problems. With ``--json``
stdout carries exactly one JSON document, also when something fails.
"""

from __future__ import annotations

import json
import math
import os
import sys
import traceback
from collections.abc import Callable, Sequence
from typing import Any

import click

from steepwright.errors import SteepwrightError, UsageError

DONE, OUR_BUG, USAGE, SO_FAR, INTERRUPTED, PIPE_CLOSED = 0, 1, 2, 5, 130, 141
"""Exit codes beside those of `steepwright.errors`; 141 is 128 + SIGPIPE, as shells have it."""

PROGRAM, COMPLETION = "steepwright", "_STEEPWRIGHT_COMPLETE"
"""Our name, and the variable by which a shell asks click for completions."""

ERROR_FORMAT = "steepwright error 1"

EXPLAIN = "\n'steepwright explain CODE' says more about a code in square brackets."


def run(args: Sequence[str]) -> int:
    """Carry out one command line and return its exit code; raises nothing."""
    from steepwright.cli.group import root

    words = [word for word in args if word != "--debug"]
    debug = len(words) < len(args) or os.environ.get("STEEPWRIGHT_DEBUG", "") not in ("", "0")
    _tolerate_narrow_encodings()
    return guarded(
        lambda: _call(root, words),
        as_json="--json" in words,
        debug=debug,
    )


def _call(root: click.Group, words: list[str]) -> Any:
    """Carry out a command line; click's own `main` would hide a closed pipe from us."""
    if COMPLETION in os.environ:
        return root.main(args=words, prog_name=PROGRAM)
    with root.make_context(PROGRAM, words) as context:
        return root.invoke(context)


def guarded(work: Callable[[], Any], *, as_json: bool = False, debug: bool = False) -> int:
    """Do the work; return its exit code, or tell its failure and return that one's."""
    try:
        code = work()
        sys.stdout.flush()
    except BrokenPipeError:
        _silence_stdout()
        return PIPE_CLOSED
    except click.exceptions.Exit as error:
        return error.exit_code
    except (KeyboardInterrupt, click.Abort):
        return fail(INTERRUPTED, "Interrupted; nothing more was written.", as_json=as_json)
    except click.UsageError as error:
        return _usage(error, as_json)
    except Exception as error:
        if debug:
            traceback.print_exc()
        return _failure(error, as_json)
    return code if isinstance(code, int) else DONE


def _usage(error: click.UsageError, as_json: bool) -> int:
    if as_json:
        return fail(USAGE, error.format_message(), as_json=True)
    error.show()
    return USAGE


def _failure(error: Exception, as_json: bool) -> int:
    if isinstance(error, SteepwrightError):
        findings = [finding.as_dict() for finding in getattr(error, "findings", ())]
        more = EXPLAIN if findings and not as_json else ""
        return fail(error.exit_code, str(error) + more, findings, as_json=as_json)
    if isinstance(error, click.ClickException):
        return fail(USAGE, error.format_message(), as_json=as_json)
    if isinstance(error, OSError) and error.strerror:
        place = error.filename or "The output can't be written"
        message = f"{place}: {error.strerror}. Check the name, the rights and the disk."
        return fail(USAGE, message, as_json=as_json)
    message = (
        f"This is a mistake in steepwright, not yours ({type(error).__name__}: {error}). "
        "Run the same command with --debug to see the trace, and report it with that."
    )
    return fail(OUR_BUG, message, as_json=as_json)


def fail(code: int, message: str, findings: Sequence[Any] = (), *, as_json: bool = False) -> int:
    """Tell a failure on stderr, with ``--json`` as one document on stdout; return the code."""
    if as_json:
        document = {
            "format": ERROR_FORMAT,
            "exit_code": code,
            "message": message,
            "findings": list(findings),
        }
        write_json(document)
    else:
        note(message)
    return code


def out(text: str = "") -> None:
    """Write a line of the result to stdout."""
    click.echo(text)


def note(text: str) -> None:
    """Write a line about the work to stderr."""
    click.echo(text, err=True)


def write_json(document: Any) -> None:
    """Write the one JSON document of a command to stdout; an endless number becomes null."""
    out(json.dumps(_finite(document), indent=2, ensure_ascii=False, allow_nan=False))


def _finite(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _finite(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_finite(item) for item in value]
    return None if isinstance(value, float) and not math.isfinite(value) else value


def cents_option(text: str | None, option: str) -> int | None:
    """Return an amount given on the command line as integer cents.

    Raises
    ------
    UsageError
        When it is no amount like 350 or 349.90.
    """
    from steepwright.units import cents

    if text is None:
        return None
    try:
        amount = cents(text)
    except ValueError:
        amount = -1
    if amount <= 0:
        message = f"{option}: {text!r} is not an amount above 0 like 350 or 349.90"
        raise UsageError(message)
    return amount


def _tolerate_narrow_encodings() -> None:
    """Let a terminal that lacks a letter show another mark instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


def _silence_stdout() -> None:
    """Keep the interpreter from complaining about a reader that went away."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        return
