"""Try mutants: does any test notice? On a copy of this tree; nothing here is changed.

    python tests/mutants/draw.py 400 1 > out/sample.json    # needs cosmic-ray; how many, seed
    python tests/mutants/run.py out                         # stopped, it goes on where it was
    python tests/mutants/run.py out 60                      # survivors once more, with all of that

For each mutant the tests that reach its line run first, then those that reach its module, the
quickest first, up to so many seconds of CPU time as they take without mutant (5 unless told); one
that takes three times as long as it should has noticed. Answers: out/answers.jsonl.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TESTS = [
    "tests/geometry", "tests/structure", "tests/cutting", "tests/pricing", "tests/validation",
    "tests/oracles", "tests/optimise", "tests/referee", "tests/report",
    "tests/house/test_values.py", "tests/verify/test_small_rooms.py",
    "--ignore", "tests/optimise/test_cluster.py",
]  # fmt: skip


def pytest_on(copy: Path, **more: str) -> None:
    """Run the tests on the copy with the plugin."""
    paths = f"{copy}/search:{copy}/tests/mutants"
    env = {**os.environ, "PYTHONPATH": paths, "OPENBLAS_NUM_THREADS": "1", **more}
    command = [sys.executable, "-m", "pytest", "-q", "-p", "plugin", "-p", "no:cacheprovider"]
    subprocess.run([*command, *TESTS], cwd=copy, env=env, check=True)


def main() -> None:
    """Make the copy, note what the tests reach, and try the mutants."""
    out, budget = Path(sys.argv[1]).resolve(), sys.argv[2] if len(sys.argv) > 2 else "5"
    copy, covered = out / "copy", out / "covered.json"
    if not copy.exists():
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".*cache", "dist"))
    if not covered.exists():
        pytest_on(copy, COVERED=str(covered))
    pytest_on(copy, TRIED=str(out), BUDGET=budget)


if __name__ == "__main__":
    main()
