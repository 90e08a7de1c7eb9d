"""The command: what it prints, its exit codes, and that damaged files never make it stumble."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from steepwright.cli.console import run
from steepwright.verify.checker import verify_documents

Doc = dict[str, Any]
Made = Callable[[int], tuple[Doc, Doc]]


def written(folder: Path, certificate: Any, document: Any) -> str:
    for name, held in (("certificate.json", certificate), ("designs.json", document)):
        (folder / name).write_text(json.dumps(held), encoding="utf-8")
    return str(folder)


def test_a_sound_folder_is_told_degree_by_degree(
    certified: Made, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    certificate, document = certified(13)
    assert run(["verify", written(tmp_path, certificate, document)]) == 0
    out = capsys.readouterr().out
    designs = f"{document['counts']['designs_in_space']:,}"
    assert out.startswith(f"For each whole degree from 20 to 48: nothing cheaper among {designs}")
    for design in certificate["steps"]:
        assert f"{design['cost_cents'] / 100:.2f} EUR" in out or design not in [
            d["cheapest"] for d in certificate["degrees"]
        ]
    assert "1200 mm wide" in out
    assert "grid of 200 mm" in out


def test_files_that_were_not_looked_at_are_named(
    certified: Made, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A page and a table of some other search in the folder change nothing of the verdict."""
    folder = written(tmp_path, *certified(1))
    assert run(["verify", folder]) == 0
    assert "Not looked at" not in capsys.readouterr().out
    (tmp_path / "report.html").write_text("a page of another search", encoding="utf-8")
    assert run(["verify", folder]) == 0
    assert "Not looked at: report.html. " in capsys.readouterr().out
    (tmp_path / "designs.csv").write_text("id\n", encoding="utf-8")
    assert run(["verify", folder]) == 0
    assert "Not looked at: report.html and designs.csv. " in capsys.readouterr().out


def test_json_is_one_document(
    certified: Made, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["verify", written(tmp_path, *certified(1)), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["holds"] is True
    assert [row["degree"] for row in told["degrees"]] == list(range(20, 49))


def test_what_is_taken_from_the_file_is_told_and_strict_fails(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from test_built import certified

    folder = written(tmp_path, *certified("tied", 22))
    assert run(["verify", folder]) == 0
    assert "not derived again: " in capsys.readouterr().err
    assert run(["verify", folder, "--strict"]) == 3
    assert "not derived again: " in capsys.readouterr().err


def test_a_finding_names_the_place_what_was_seen_and_what_was_expected(
    certified: Made, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    certificate, document = certified(1)
    next(iter(certificate["parts"][0]["levels"][0]["closed"].values()))[0] += 7
    assert run(["verify", written(tmp_path, certificate, document)]) == 3
    said = capsys.readouterr().err
    assert "box of size 64 with 1 width at (0, 0, 0)" in said
    assert "seen: " in said
    assert "expected: " in said
    assert "[certificate-closed]" in said


@pytest.mark.parametrize("missing", ["certificate.json", "designs.json"])
def test_a_missing_file_is_told(
    certified: Made, tmp_path: Path, missing: str, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = written(tmp_path, *certified(1))
    (tmp_path / missing).unlink()
    assert run(["verify", folder]) == 3
    assert missing in capsys.readouterr().err


def test_an_unfinished_search_names_the_degrees_that_are_not_certified(
    certified: Made, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _, document = certified(1)
    folder = written(tmp_path, None, document | {"complete": False})
    (tmp_path / "certificate.json").unlink()
    assert run(["verify", folder]) == 3
    assert "no degree from 20 to 48 is certified" in capsys.readouterr().err


@pytest.mark.parametrize("text", ["", "{", "[]", "null", "1e999", '"text"', "[" * 5000])
def test_files_that_are_none_are_told(
    certified: Made, tmp_path: Path, text: str, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = written(tmp_path, *certified(1))
    (tmp_path / "certificate.json").write_text(text, encoding="utf-8")
    assert run(["verify", folder]) == 3
    assert "Traceback" not in capsys.readouterr().err


def places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    found = [path] if path else []
    items = value.items() if isinstance(value, dict) else ()
    items = enumerate(value) if isinstance(value, list) else items
    for key, inner in items:
        found += places(inner, (*path, key))
    return found


DAMAGE: list[Any] = [None, "x", -1, 10**30, 0.5, [], {}, [[]], True]


def test_random_damage_is_told_and_never_raised(certified: Made) -> None:
    """Any one value replaced by another: a verdict comes back, whatever it says."""
    r = random.Random(7)
    for _ in range(60):
        pair = certified(1)
        held = pair[r.randrange(2)]
        path = r.choice(places(held))
        at: Any = held
        for key in path[:-1]:
            at = at[key]
        at[path[-1]] = r.choice(DAMAGE)
        verify_documents(*pair)
