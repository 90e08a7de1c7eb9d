"""Files that belong together, written so that all of them are the old ones or all the new ones.

A set is written under other names into a hidden folder beside its files. One rename then says that
it is complete; from there on it only has to be moved into place. A program that is killed before
that rename has changed nothing; one that is killed behind it leaves the rest of the moving to
whoever reads or writes the folder next.
"""

from __future__ import annotations

import errno
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

READY = ".steepwright-ready"
"""Folder of a set that is complete and waits to be moved into place."""

_BEGUN = ".steepwright-begun-"
_NEW, _GONE = "+", "-"

Content = str | bytes | None
"""What a file shall hold; None for a file that shall not be there."""


def write_whole(path: Path, text: str) -> None:
    """Write text so that the file is the old one or the new one, never a part of either."""
    write_together({path: text})


def write_together(contents: Mapping[Path, Content]) -> None:
    """Write several files so that all are the old ones or all are the new ones, also when killed.

    All of them are on the disk before the first one takes its place; so a full disk leaves every
    old file as it was. Two programs that write into one folder take their turns. Files of several
    folders are one such set per folder.

    Raises
    ------
    OSError
        When one can't be written; it names the file.
    """
    sets: dict[Path, dict[Path, Content]] = {}
    for path, content in contents.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        sets.setdefault(path.parent.resolve(), {})[path] = content
    with ExitStack() as held:
        begun = [
            (folder, held.enter_context(_begun(folder, sets[folder]))) for folder in sorted(sets)
        ]
        for folder, made in begun:
            made.rename(folder / READY)
            _move(folder)


def finish_writing(folder: Path) -> None:
    """Move into place what a program left complete in this folder when it was killed.

    Raises
    ------
    OSError
        When the folder may not be written to; it names the file.
    """
    if (folder / READY).is_dir():
        with _alone_in(folder):
            _move(folder)


def write_for(path: Path, made: Path, data: bytes) -> None:
    """Write the file `made`, which is to become `path`, until the disk has all of it.

    Raises
    ------
    OSError
        When it can't be written; it names `path`.
    """
    with naming(path), made.open("wb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
    made.chmod(0o644)


def exchanged(one: Path, other: Path) -> bool:
    """Let two folders change places in one step; tell whether the system could (renameat2(2))."""
    import ctypes

    here, exchange = -100, 2  # AT_FDCWD, RENAME_EXCHANGE
    try:
        call = ctypes.CDLL(None).renameat2
    except (AttributeError, OSError, TypeError):
        return False
    return bool(call(here, os.fsencode(one), here, os.fsencode(other), exchange) == 0)


@contextmanager
def _begun(folder: Path, contents: Mapping[Path, Content]) -> Iterator[Path]:
    """Write a set into a hidden folder, with nobody else writing into `folder` meanwhile."""
    with _alone_in(folder) as alone:
        _move(folder)
        if alone:  # what others began, they were killed at
            for left in folder.glob(f"{_BEGUN}*"):
                shutil.rmtree(left, ignore_errors=True)
        with naming(next(iter(contents))):
            made = Path(tempfile.mkdtemp(dir=folder, prefix=_BEGUN))
        try:
            for path, content in contents.items():
                _write(made, path, content)
            yield made
        finally:
            shutil.rmtree(made, ignore_errors=True)


def _write(folder: Path, path: Path, content: Content) -> None:
    if path.is_dir():
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
    data = content.encode() if isinstance(content, str) else content or b""
    write_for(path, folder / f"{_GONE if content is None else _NEW}{path.name}", data)


def _move(folder: Path) -> None:
    """Move a complete set into place, or what is left of it; there is none as a rule."""
    ready = folder / READY
    if not ready.is_dir():
        return
    for made in sorted(ready.iterdir()):
        what, path = made.name[:1], folder / made.name[1:]
        if what == _NEW:
            made.replace(path)
        else:
            path.unlink(missing_ok=True)
            made.unlink()
    ready.rmdir()


@contextmanager
def _alone_in(folder: Path) -> Iterator[bool]:
    """Keep other programs from writing into a folder; tell whether that can be done here."""
    with ExitStack() as held:
        alone = False
        with suppress(ImportError, OSError):
            import fcntl

            handle = os.open(folder, os.O_RDONLY)
            held.callback(os.close, handle)
            fcntl.flock(handle, fcntl.LOCK_EX)
            alone = True
        yield alone


def held_elsewhere(file: BinaryIO) -> bool:
    """Hold an open file until it is closed; tell whether something else holds it already.

    That may be another program or another part of this one. The system lets go of it when a
    program ends, however it ends. Where it can't hold files nobody holds any.
    """
    try:
        import fcntl

        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return True
    except (ImportError, OSError):
        return False
    return False


@contextmanager
def naming(path: Path) -> Iterator[None]:
    """Name the file in an error of writing; the system does so only when it opens one."""
    try:
        yield
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error
