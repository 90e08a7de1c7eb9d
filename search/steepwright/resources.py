"""Where the shipped files lie: inside the wheel, or beside it in a checkout."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def catalogs_dir() -> Path:
    """Return the folder of shipped catalogues.

    An editable install has no copy in the package, so the checkout's own folder serves.
    """
    inside = _PACKAGE / "catalogs"
    return inside if inside.is_dir() else _PACKAGE.parents[1] / "catalogs"


def shipped_catalog_dir() -> Path:
    """Return the shipped example yard, a folder in the form that ``--catalog`` takes."""
    return catalogs_dir() / "yard"


def write_whole(path: Path, text: str) -> None:
    """Write text so that the file is the old one or the new one, never a part of either."""
    write_together({path: text})


def write_together(texts: Mapping[Path, str]) -> None:
    """Write several files so that each is the old one or the new one, and all are of one kind.

    All are written under other names before the first one takes its place; so a full disk leaves
    every old file as it was. Two programs that write the same files take their turns.

    Raises
    ------
    OSError
        When one can't be written; it names the file.
    """
    waiting: dict[Path, Path] = {}
    try:
        for path, text in texts.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
            waiting[path] = Path(name)
            with _naming(path), os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
                stream.write(text)
            waiting[path].chmod(0o644)
        with _alone_in({path.parent for path in texts}):
            for path, made in waiting.items():
                made.replace(path)
    finally:
        for made in waiting.values():
            made.unlink(missing_ok=True)


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
def _alone_in(folders: Iterable[Path]) -> Iterator[None]:
    """Keep other programs from putting files of theirs among ours; where that can't be, go on."""
    with ExitStack() as held:
        with suppress(ImportError, OSError):
            import fcntl

            for folder in sorted(folders):
                handle = os.open(folder, os.O_RDONLY)
                held.callback(os.close, handle)
                fcntl.flock(handle, fcntl.LOCK_EX)
        yield


@contextmanager
def _naming(path: Path) -> Iterator[None]:
    """Name the file in an error of writing; the system does so only when it opens one."""
    try:
        yield
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


def program_hash() -> str:
    """Return a hash of this program's own text: whatever changes it may change its results."""
    digest = hashlib.sha256()
    for path in sorted(_PACKAGE.rglob("*.py")):
        digest.update(path.relative_to(_PACKAGE).as_posix().encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()
