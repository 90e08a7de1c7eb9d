"""A PostgreSQL server of a test's own: a folder under /tmp, a socket in it, no network.

``STEEPWRIGHT_REQUIRE_POSTGRES=1`` makes its absence a failure (.ci/run sets it).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest

PASSWORD = "only-for-tests"


@dataclass(frozen=True, slots=True)
class Server:
    """Where it listens, and how to stop and start it."""

    folder: Path
    tool: str

    def url(self, password: str = PASSWORD, database: str = "postgres") -> str:
        return f"postgresql://postgres:{password}@/{database}?host={self.folder}"

    def start(self) -> None:
        options = f"-c listen_addresses='' -c unix_socket_directories={self.folder} -c fsync=off"
        self.control("start", "-o", options, "-l", str(self.folder / "log"))

    def control(self, *args: str) -> None:
        as_user(self.tool, "-D", str(self.folder / "data"), "-w", *args)


def as_user(*args: str) -> None:
    """Run a command of the server's, which won't run as root."""
    user = ["runuser", "-u", "postgres", "--"] if os.geteuid() == 0 else []
    subprocess.run([*user, *args], check=True, cwd="/tmp", stdout=subprocess.DEVNULL)


def tool(name: str) -> str | None:
    """Return a server's program; Debian keeps them out of the path."""
    found = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"))
    return str(found[-1]) if found else shutil.which(name)


@contextmanager
def serving() -> Iterator[Server]:
    """Start a server, and stop it."""
    initdb, control = tool("initdb"), tool("pg_ctl")
    if initdb is None or control is None:
        missing = "PostgreSQL is not installed (Debian's package postgresql)"
        if os.environ.get("STEEPWRIGHT_REQUIRE_POSTGRES"):
            pytest.fail(missing)
        pytest.skip(missing)
    folder = Path(tempfile.mkdtemp(prefix="steepwright-pg-", dir="/tmp"))
    try:
        secret = folder / "password"
        secret.write_text(PASSWORD, encoding="utf-8")
        if os.geteuid() == 0:
            for path in (folder, secret):
                shutil.chown(path, "postgres")
        made = ["-D", str(folder / "data"), "-U", "postgres", "-A", "scram-sha-256", "-N"]
        as_user(initdb, *made, f"--pwfile={secret}")
        server = Server(folder, control)
        server.start()
        try:
            yield server
        finally:
            server.control("stop", "-m", "immediate")
    finally:
        shutil.rmtree(folder)
