"""The house rules that a machine can check: lint, types, one-way imports, module sizes."""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "search" / "steepwright"


def run(*command: str) -> None:
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def tool(name: str) -> str:
    beside = Path(sys.executable).with_name(name)
    found = str(beside) if beside.exists() else shutil.which(name)
    assert found, f"{name} is not installed; the dev extra brings it"
    return found


def test_lint_is_clean() -> None:
    run(tool("ruff"), "check", "search", "tests")


def test_format_is_clean() -> None:
    run(tool("ruff"), "format", "--check", "search", "tests")


def test_types_are_strict() -> None:
    run(tool("mypy"))


def test_imports_run_one_way() -> None:
    run(tool("lint-imports"))


def test_modules_are_small() -> None:
    sizes = {
        str(path.relative_to(ROOT)): len(path.read_text(encoding="utf-8").splitlines())
        for path in PACKAGE.rglob("*.py")
    }
    assert max(sizes.values()) <= 400, sizes
    assert statistics.median(sizes.values()) < 200


def test_top_level_holds_only_what_the_design_names() -> None:
    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.splitlines()
    top = {line.split("/")[0] for line in listed}
    assert top == {
        ".ci",
        ".gitignore",
        "CHANGELOG.md",
        "DEVELOPERS.md",
        "LICENSE",
        "README.md",
        "catalogs",
        "pyproject.toml",
        "reports",
        "search",
        "tests",
    }
