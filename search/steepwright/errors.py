"""One family of errors; each knows the exit code its reader should see."""

from __future__ import annotations


class SteepwrightError(Exception):
    """Base of every error that is meant for the user; its text is a full sentence."""

    exit_code = 1


class UsageError(SteepwrightError):
    """The command was called in a way that can't be carried out."""

    exit_code = 2


class InputError(SteepwrightError):
    """The user's files have errors; `findings` lists all of them."""

    exit_code = 3

    def __init__(self, message: str, findings: tuple[object, ...] = ()) -> None:
        super().__init__(message)
        self.findings = findings


class InfeasibleError(SteepwrightError):
    """No design satisfies the constraints; the text says which one binds and by how much."""

    exit_code = 4


class UnfinishedError(SteepwrightError):
    """The search was stopped before it had found anything."""

    exit_code = 130
