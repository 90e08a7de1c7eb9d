"""Reads a search's two files and holds one against the other."""

from __future__ import annotations

import hashlib
import json
import zlib
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np

from steepwright.errors import InputError
from steepwright.verify.bounds import Bounds
from steepwright.verify.declared import axes_of, check_space
from steepwright.verify.hoists import PULLED
from steepwright.verify.mounts import BESIDE_LOST, HELD, RATED, ROOM
from steepwright.verify.sane import need_sense
from steepwright.verify.stair import Stair
from steepwright.verify.strength import CHECKS, HOLD
from steepwright.verify.tie_bolts import OF_TIES
from steepwright.verify.ties import UNDONE
from steepwright.verify.upheld import OF_ALL
from steepwright.verify.verdict import Verdict
from steepwright.verify.walk import Walk
from steepwright.verify.witness import Witness
from steepwright.verify.yards import check_parts
from steepwright.writing import finish_writing

Document = dict[str, Any]

FORMAT = "steepwright certificate 2"

DAMAGE = (
    KeyError,
    TypeError,
    ValueError,
    IndexError,
    AttributeError,
    ArithmeticError,
    RecursionError,
    MemoryError,
    zlib.error,
)
"""What a damaged file makes the checker stumble over; told, never raised."""


def verify_folder(folder: Path) -> Verdict:
    """Check the certificate in a folder that a search has written.

    Raises
    ------
    InputError
        When one of the two files is missing or is no JSON, or the search was not finished.
    """
    finish_writing(folder)
    designs = _read(folder / "designs.json")
    path = folder / "certificate.json"
    if not path.exists() and isinstance(designs, dict) and designs.get("complete") is False:
        message = (
            f"The search in {folder} was not finished, so it has no certificate:"
            f" {_uncertified(designs)} Run the same command again: it goes on where it was."
        )
        raise InputError(message)
    return verify_documents(_read(path), designs)


def _uncertified(designs: Document) -> str:
    """Return which degrees are not certified, in a sentence: all of them."""
    try:
        least, most = designs["room"]["wall"]["angle_deg"]
        return f"no degree from {-(-least // 1):g} to {most // 1:g} is certified."
    except DAMAGE:
        return "no degree is certified."


def _read(path: Path) -> Any:
    try:
        return json.loads(path.read_text(encoding="utf-8"))
    except (ValueError, RecursionError) as error:
        message = f"{path} is damaged: {error}. Run the search again."
        raise InputError(message) from error
    except OSError as error:
        message = (
            f"{path} can't be read: {error.strerror}. Name the folder that a search has written;"
            " it holds designs.json and certificate.json."
        )
        raise InputError(message) from error


def verify_documents(certificate: Any, designs: Any) -> Verdict:
    """Check a certificate against the search's document; every fault is a finding."""
    verdict = Verdict()
    try:
        with np.errstate(all="ignore"):  # figures that make no sense end as findings
            _verify(certificate, designs, verdict)
    except DAMAGE as error:
        verdict.wrong(
            "certificate-damaged",
            "the files can't be followed any further here; run the search again",
            f"{type(error).__name__}: {error}",
        )
    return verdict


def digest(document: Any) -> str:
    """Return the SHA-256 of plain data written in one canonical way."""
    text = json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _verify(certificate: Document, document: Document, verdict: Verdict) -> None:
    if certificate["format"] != FORMAT:
        verdict.wrong("certificate-format", "not this form", certificate["format"], FORMAT)
        return
    room, designs = document["room"], document["designs"]
    verdict.currency = document["currency"]
    least, most = (int(mm) for mm in certificate["widths_mm"])
    verdict.widths_mm = least, most
    verdict.step_mm = int(room["wall"]["step_mm"])
    pairs = [("room_sha256", room), ("designs_sha256", designs)]
    for name, held in pairs:
        if certificate[name] != digest(held):
            verdict.wrong(
                "certificate-hash",
                f"{name}: designs.json is not the one that this certificate was made for",
                certificate[name],
                digest(held),
            )
    _check_claims(certificate, room, designs, verdict)
    verdict.complete = bool(certificate["complete"])
    left = sum(len(part["open_boxes"]) for part in certificate["parts"])
    if certificate["complete"] is not document["complete"] or (verdict.complete and left):
        verdict.wrong(
            "certificate-incomplete",
            "the files disagree on whether the search was finished",
            f"{certificate['complete']} with {left} boxes left open",
            f"{document['complete']}, and no open box where it was finished",
        )
        return
    stair = _stair(designs)
    for part in certificate["parts"]:
        need_sense(part, room)
    check_parts(certificate["parts"], room, verdict)
    for part in certificate["parts"]:
        if part["given_sha256"] != digest(part["given"]):
            verdict.wrong(
                "certificate-hash",
                "the offers and figures given were changed",
                part["given_sha256"],
                digest(part["given"]),
            )
        _check_part(part, room, stair, verdict)
    _check_sums(certificate, verdict)
    names = {check["name"] for design in designs for check in design["checks"]}
    own = {*CHECKS, HOLD, ROOM, HELD, BESIDE_LOST, RATED, PULLED, UNDONE, *OF_TIES, *OF_ALL}
    verdict.checks_derived = len(names & own)
    verdict.checks_read = len(names) - verdict.checks_derived
    for design in designs:
        _check_design(design, certificate["parts"], room, verdict)


def _check_sums(certificate: Document, verdict: Verdict) -> None:
    """Compare what the claim is about with the parts."""
    asked = {tuple(part["space"]["widths_mm"]) for part in certificate["parts"]}
    if asked != {verdict.widths_mm}:
        seen = certificate["widths_mm"]
        verdict.wrong("certificate-space", "widths that the claim is about", seen, sorted(asked))
    if certificate["designs_in_space"] != verdict.designs:
        seen = certificate["designs_in_space"]
        verdict.wrong("certificate-space", "designs in the space", seen, verdict.designs)


def _check_part(part: Document, room: Document, stair: Stair, verdict: Verdict) -> None:
    axes = axes_of(part, room)
    sound = len(verdict.findings)
    verdict.designs += check_space(part, room, axes, verdict)
    if len(verdict.findings) > sound:
        # Boxes of another space say nothing about this one.
        return
    Walk(part, Bounds(part, room, axes), stair, verdict).run()


def _check_design(
    design: Document, parts: list[Document], room: Document, verdict: Verdict
) -> None:
    """Hold a design against the set of yards that it is bought from, whichever that is."""
    trials = []
    for part in parts:
        trial = Verdict()
        try:
            Witness(design, part, room, trial).check()
        except DAMAGE as error:
            trial.wrong("certificate-design", f"{design['id']}: {type(error).__name__}", error)
        if trial.holds:
            return
        trials.append(trial)
    for finding in trials[-1].findings:
        verdict.wrong(finding.code, finding.message, finding.seen, finding.expected)


def _stair(designs: list[Document]) -> Stair:
    rows = sorted((round(d["angle_deg"] * 1000), d["cost_cents"]) for d in designs)
    cents = np.array([cents for _, cents in rows], dtype=np.int64)
    least = np.minimum.accumulate(cents[::-1])[::-1]
    return Stair(np.array([angle for angle, _ in rows], dtype=np.int64), least)


def _check_claims(
    certificate: Document, room: Document, designs: list[Document], verdict: Verdict
) -> None:
    """Compare the claims with what the designs say: per degree and per step of the stair."""
    least, most = room["wall"]["angle_deg"]
    asked = range(int(-(-least // 1)), int(most // 1) + 1)
    stated = {row["degree"]: row["cheapest"] for row in certificate["degrees"]}
    twice = [n for n, c in Counter(r["degree"] for r in certificate["degrees"]).items() if c > 1]
    if sorted(stated) != list(asked) or twice:
        verdict.wrong("certificate-claim", "degrees", sorted(stated), list(asked))
    for degree in asked:
        steep = [d for d in designs if d["angle_deg"] >= degree]
        best = min((d["cost_cents"] for d in steep), default=None)
        said = stated.get(degree)
        if (None if said is None else said["cost_cents"]) != best:
            verdict.wrong("certificate-claim", f"cheapest at {degree} degrees", said, best)
        _check_named(said, designs, verdict)
        verdict.degrees.append((degree, said))
    for step in certificate["steps"]:
        _check_named(step, designs, verdict)
    steps = {
        cost
        for angle, cost in ((d["angle_deg"], d["cost_cents"]) for d in designs)
        if not any(d["cost_cents"] <= cost and d["angle_deg"] > angle for d in designs)
        and not any(d["cost_cents"] < cost and d["angle_deg"] >= angle for d in designs)
    }
    if {step["cost_cents"] for step in certificate["steps"]} != steps:
        verdict.wrong("certificate-claim", "steps of the stair", len(certificate["steps"]))
    verdict.steps = len(steps)


def _check_named(step: Document | None, designs: list[Document], verdict: Verdict) -> None:
    if step is None:
        return
    found = [d for d in designs if d["id"] == step["id"]]
    if not found or any(found[0][name] != step[name] for name in ("angle_deg", "cost_cents")):
        verdict.wrong("certificate-claim", f"design {step['id']} is another one", step)
