"""Every code that a finding can carry is explained, and nothing else is."""

from __future__ import annotations

import ast
import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from steepwright.cli.console import run
from steepwright.cli.explain import GROUPS, explain, explanations
from steepwright.findings import Finding

PACKAGE = Path(__file__).parents[2] / "search" / "steepwright"
KEBAB = re.compile(r"[a-z0-9]+(-[a-z0-9]+)+")
NO_CODES = {
    "utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32",
    "chromium-browser", "google-chrome", "include-vat", "exclude-vat",
}  # fmt: skip
"""Words of the same shape that are encodings, programs and answers to a question."""


def codes_in_the_code() -> set[str]:
    """Return every hyphenated word of the package outside the command line's own options."""
    found: set[str] = set()
    for file in PACKAGE.rglob("*.py"):
        if "cli" in file.relative_to(PACKAGE).parts:
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            word = node.value if isinstance(node, ast.Constant) else None
            if isinstance(word, str) and KEBAB.fullmatch(word):
                found.add(word)
    return found - NO_CODES


def test_every_code_is_explained() -> None:
    assert sorted(codes_in_the_code() - set(explanations())) == []


def test_nothing_else_is_explained() -> None:
    assert sorted(set(explanations()) - codes_in_the_code()) == []


def test_explanations_are_sentences_in_order() -> None:
    known = explanations()
    assert list(known) == sorted(known)
    for code, words in known.items():
        assert set(words) == {"means", "do"}, code
        assert all(text[0].isupper() and text.endswith(".") for text in words.values()), code


@pytest.mark.parametrize("code", ["grade-unknown", "[room-grade-unknown]"])
def test_explain_prints_meaning_and_next_step(code: str) -> None:
    told = CliRunner().invoke(explain, [code])
    words = explanations()["grade-unknown"]
    shown = " ".join(told.output.split())
    assert told.exit_code == 0
    assert words["means"] in shown
    assert words["do"] in shown


def test_without_a_code_all_are_listed() -> None:
    told = CliRunner().invoke(explain, ["--json"])
    assert json.loads(told.output)["findings"] == explanations()
    shown = CliRunner().invoke(explain, []).output
    codes = [c for line in shown.splitlines() if line[0] == " " for c in line.strip().split(", ")]
    assert sorted(code.rstrip(",") for code in codes) == sorted(explanations())
    assert len(shown.splitlines()) < 60
    assert "'steepwright explain CODE'" in shown.splitlines()[-3]


def test_a_group_s_codes_are_listed_with_a_line_each() -> None:
    told: list[str] = []
    for group in GROUPS:
        *lines, how = CliRunner().invoke(explain, [group]).output.splitlines()
        assert max(map(len, lines)) <= 88
        assert "explain CODE" in how
        told += [line.split()[0] for line in lines]
        known = json.loads(CliRunner().invoke(explain, [group, "--json"]).output)["findings"]
        assert list(known) == told[-len(lines) :]
    assert sorted(told) == sorted(explanations())


def test_an_unknown_code_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", "grade-unknwon"]) == 2
    assert "Did you mean grade-unknown?" in capsys.readouterr().err


def test_a_finding_shows_its_code() -> None:
    assert (
        Finding("beam-outside", "error", "the beam lies outside").text().endswith(" [beam-outside]")
    )


def test_a_failure_names_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    room = tmp_path / "room.toml"
    room.write_text("[rooom]\n", encoding="utf-8")
    assert run(["search", str(room)]) == 3
    told = capsys.readouterr().err
    assert "[room-unknown-key]" in told
    assert "steepwright explain" in told
