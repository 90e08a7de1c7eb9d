"""Where the shipped files lie: inside the wheel, or beside it in a checkout."""

from __future__ import annotations

import hashlib
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


def shipped_catalog_dirs() -> tuple[Path, ...]:
    """Return all shipped yards, the example first; each has a currency of its own."""
    return tuple(sorted(catalogs_dir().glob("yard*")))


def program_hash() -> str:
    """Return a hash of this program's own text: whatever changes it may change its results."""
    digest = hashlib.sha256()
    for path in sorted(_PACKAGE.rglob("*.py")):
        digest.update(path.relative_to(_PACKAGE).as_posix().encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()
