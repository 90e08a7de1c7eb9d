"""One design's sheets as PDF: the folder's page, printed by a browser that is installed."""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import signal
import subprocess
import tempfile
from pathlib import Path
from urllib.parse import quote

from steepwright.errors import UsageError

NAMES = ("chromium", "chromium-browser", "google-chrome")
VARIABLE = "STEEPWRIGHT_BROWSER"
TIMEOUT_S = 120

POINTS = {"a4": (595.3, 841.9), "letter": (612.0, 792.0)}
"""Width and height [1/72 inch]: ISO 216 A4 is 210 x 297 mm, ANSI/ASME Y14.1 A is 8.5 x 11 inch."""

FLAGS = (
    "--headless",
    "--disable-gpu",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-extensions",
    "--disable-sync",
    "--disable-background-networking",
    "--disable-component-update",
    "--host-resolver-rules=MAP * ~NOTFOUND",
    "--no-pdf-header-footer",
    "--print-to-pdf-no-header",
)
"""No network, no traces in the user's profile; the last two serve newer and older browsers."""


def find_browser() -> Path | None:
    """Return the browser that the environment names, or the first usual name on the PATH.

    Raises
    ------
    UsageError
        When STEEPWRIGHT_BROWSER names something that can't be run.
    """
    named = os.environ.get(VARIABLE, "")
    if named:
        found = shutil.which(named)
        if found is None:
            message = f"{VARIABLE} is {named!r}, which can't be run; name a browser of that family."
            raise UsageError(message)
        return Path(found)
    return next((Path(path) for name in NAMES if (path := shutil.which(name))), None)


def need_browser(page: Path, design_id: str) -> Path:
    """Return the browser to print with.

    Raises
    ------
    UsageError
        When there is none; the text says how to print by hand.
    """
    browser = find_browser()
    if browser is None:
        message = (
            f"No browser that prints by itself was found ({', '.join(NAMES)}; {VARIABLE} may name "
            f"one). {by_hand(page, design_id)}"
        )
        raise UsageError(message)
    return browser


def by_hand(page: Path, design_id: str) -> str:
    """Return how to print a design from any browser."""
    return (
        f"Open {_address(page, design_id)} in any browser and print it there: the page prints "
        f"the sheets of {design_id} alone."
    )


def printed(page: Path, design_id: str, beside: Path, paper: str, browser: Path) -> bytes:
    """Return one design of a page as a PDF.

    The browser works on a copy of the page that asks for the paper, in a folder in `beside` that
    is taken away afterwards: some packaged browsers see no other temporary folder.

    Raises
    ------
    UsageError
        When the browser fails, hangs, or prints on other paper.
    """
    beside.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(
        dir=beside, prefix="printing-", ignore_cleanup_errors=True
    ) as name:
        work = Path(name).resolve()
        copy, made = work / "report.html", work / "sheets.pdf"
        text = page.read_text(encoding="utf-8")
        sized = f"<head><style>@page {{ size: {paper} portrait; }}</style>"
        copy.write_text(text.replace("<head>", sized, 1), encoding="utf-8")
        said = _run(browser, work, made, _address(copy, design_id))
        data = b"" if said else made.read_bytes()
        trouble = said or _trouble(data, paper)
        if trouble:
            message = f"{browser} {trouble}. {by_hand(page, design_id)}"
            raise UsageError(message)
        return data


def _address(page: Path, design_id: str) -> str:
    return f"{page.resolve().as_uri()}#{quote(design_id)}"


def _run(browser: Path, work: Path, made: Path, address: str) -> str:
    """Run the browser; return what went wrong, or nothing."""
    command = [str(browser), *FLAGS, f"--user-data-dir={work / 'profile'}"]
    if getattr(os, "geteuid", lambda: 1)() == 0:
        command.append("--no-sandbox")  # it refuses to start as root otherwise
    command += [f"--print-to-pdf={made}", address]
    with (work / "said.txt").open("wb") as said:
        try:
            process = subprocess.Popen(
                command,
                stdin=subprocess.DEVNULL,
                stdout=said,
                stderr=said,
                start_new_session=True,  # so that its helpers can be ended with it
            )
        except OSError as error:
            return f"can't be started ({error.strerror})"
        try:
            code = process.wait(timeout=TIMEOUT_S)
        except subprocess.TimeoutExpired:
            return f"printed nothing within {TIMEOUT_S} s"
        finally:
            _end(process)
    return "" if code == 0 and made.is_file() else _last_words(work / "said.txt", code)


def _end(process: subprocess.Popen[bytes]) -> None:
    """End a browser that still runs, with its helpers."""
    if process.poll() is not None:
        return
    with contextlib.suppress(ProcessLookupError):
        if hasattr(os, "killpg"):
            os.killpg(process.pid, signal.SIGKILL)
        else:
            process.kill()
    process.wait()


def _last_words(said: Path, code: int) -> str:
    lines = said.read_text(encoding="utf-8", errors="replace").strip().splitlines()
    last = f"; it said: {lines[-1].strip()}" if lines else ""
    return f"printed nothing (exit code {code}{last})"


def _trouble(data: bytes, paper: str) -> str:
    """Return what is wrong with a PDF: no whole file, or other paper than was asked for."""
    if not data.startswith(b"%PDF-") or b"%%EOF" not in data[-1024:]:
        return "left no whole PDF"
    boxes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", data)
    wide, high = POINTS[paper]
    if any(abs(float(w) - wide) > 2 or abs(float(h) - high) > 2 for w, h in boxes):
        return f"printed on other paper than {paper}"
    return ""
