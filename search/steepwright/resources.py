"""Where the shipped files lie: inside the wheel, or beside it in a checkout."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
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
    every old file as it was.

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
        for path, made in waiting.items():
            made.replace(path)
    finally:
        for made in waiting.values():
            made.unlink(missing_ok=True)


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
