"""Where the shipped files lie: inside the wheel, or beside it in a checkout."""

from __future__ import annotations

import hashlib
import os
import tempfile
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
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def program_hash() -> str:
    """Return a hash of this program's own text: whatever changes it may change its results."""
    digest = hashlib.sha256()
    for path in sorted(_PACKAGE.rglob("*.py")):
        digest.update(path.relative_to(_PACKAGE).as_posix().encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()
