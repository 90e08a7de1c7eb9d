"""A finished search's folder, read back: its document, one design of it, that design's lists."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, NoReturn

from steepwright.errors import UsageError
from steepwright.findings import Finding, Findings, nearest
from steepwright.report.views.cuts import BarCuts, SheetCuts, bar_cuts, marks_of, sheet_cuts
from steepwright.report.views.open_items import OpenItem, open_items
from steepwright.report.views.prices import BillLine, bill_lines
from steepwright.report.words import Document, in_inches
from steepwright.units import money
from steepwright.writing import finish_writing

FORMAT = "steepwright designs 1"
AGAIN = "run steepwright search once more; it writes designs.json and report.html together"
_MALFORMED = (KeyError, IndexError, TypeError, ValueError, AttributeError)
_COUNTED = ("count", "quantity")


@dataclass(frozen=True, slots=True)
class Chosen:
    """One design as the shop needs it: what to saw from what, and what to buy.

    Attributes
    ----------
    id
        The design's name in the document.
    cost_cents, currency
        The bill's total [cents] and its currency.
    bar_face_mm
        The wider side of the timber's section [mm]; all timber of a wall has one section.
    sheets, bars, bill
        The cut plan, equal sheets and bars counted, and the bill.
    open
        What is to be had without a price.
    inches
        Whether lists show lengths in inches.
    """

    id: str
    cost_cents: int
    currency: str
    bar_face_mm: int
    sheets: tuple[SheetCuts, ...]
    bars: tuple[BarCuts, ...]
    bill: tuple[BillLine, ...]
    open: tuple[OpenItem, ...] = ()
    inches: bool = False


def read_document(folder: Path) -> Document:
    """Return the document of a finished search's folder.

    Raises
    ------
    InputError
        When designs.json is missing, is no JSON, or is no document of ours.
    """
    path = folder / "designs.json"
    try:
        finish_writing(folder)
        document = json.loads(path.read_text(encoding="utf-8"), parse_constant=_no_number)
    except OSError as error:
        _stop(path, "designs-unreadable", f"can't be read ({error.strerror})")
    except (ValueError, RecursionError) as error:
        _stop(path, "designs-not-json", f"is no JSON as a search writes it ({error})")
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        seen = document.get("format") if isinstance(document, dict) else type(document).__name__
        _stop(path, "designs-format", "is no document of a search", str(seen), FORMAT)
    designs = document.get("designs")
    if not isinstance(designs, list) or not all(_has_id(design) for design in designs):
        _stop(path, "designs-format", "has no list of designs with an id each", key="designs")
    if not isinstance(document.get("cautions"), list):
        _stop(path, "designs-format", "has no list of cautions", key="cautions")
    return document


def choose(document: Document, name: str, folder: Path) -> Chosen:
    """Return one design of the document that `folder` holds.

    Raises
    ------
    UsageError
        When no design has this name; the text names some that there are.
    InputError
        When the design lacks what a plan needs.
    """
    designs = {design["id"]: design for design in document["designs"]}
    if name not in designs:
        message = f"There is no design {name!r} in {folder}. {_there_are(name, list(designs))}"
        raise UsageError(message)
    try:
        chosen = _chosen(designs[name], document["currency"])
        chosen = replace(chosen, inches=in_inches(document))
        json.dumps(asdict(chosen), ensure_ascii=False).encode("utf-8")  # refuses half characters
    except _MALFORMED as error:
        what = f"is not whole: {type(error).__name__}: {error}"
        _stop(folder / "designs.json", "designs-broken", what, key=f"design {name}")
    return chosen


def check_page(folder: Path, chosen: Chosen) -> Path:
    """Return the folder's report.html, once it is seen to hold this design at this cost.

    Raises
    ------
    InputError
        When there is no such page, or when it stems from another search than designs.json.
    """
    path = folder / "report.html"
    try:
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        _stop(path, "page-unreadable", f"can't be read ({error.strerror})")
    except ValueError:
        _stop(path, "page-not-text", "is no page as a search writes it")
    _, _, after = text.partition(f'<th scope="row">{chosen.id}</th>')
    row, _, _ = after.partition("</tr>")
    cost = money(chosen.cost_cents)
    if f'<td class="cost">{cost}<' not in row:
        what = f"does not list {chosen.id} at {cost}, as designs.json beside it does"
        _stop(path, "page-other-search", what)
    return path


def _chosen(design: dict[str, Any], currency: object) -> Chosen:
    marks = marks_of(design)
    chosen = Chosen(
        id=design["id"],
        cost_cents=design["cost_cents"],
        currency=str(currency),
        bar_face_mm=max(design["stud_mm"]),
        sheets=sheet_cuts(design, marks),
        bars=bar_cuts(design, marks),
        bill=bill_lines(design),
        open=open_items(design),
    )
    for key, value in _numbers(asdict(chosen)):
        if type(value) is not int:
            message = f"{key} is {value!r}, not a whole number"
            raise TypeError(message)
    return chosen


def _numbers(value: Any, key: str = "") -> Iterator[tuple[str, Any]]:
    """Yield every length, count and price, also one that is no number."""
    if isinstance(value, dict):
        for name, item in value.items():
            yield from _numbers(item, name)
    elif isinstance(value, list | tuple):
        for item in value:
            yield from _numbers(item, key)
    elif key.endswith(("_mm", "_cents")) or key in _COUNTED:
        yield key, value


def _has_id(design: object) -> bool:
    return isinstance(design, dict) and isinstance(design.get("id"), str)


def _there_are(name: str, known: list[str]) -> str:
    if not known:
        return "It has no designs."
    near = nearest(name.upper(), known)
    first = ", ".join(known[:3])
    rest = f" ... {known[-1]}" if len(known) > 3 else ""
    return f"{f'Did you mean {near}? ' if near else ''}There are {first}{rest}."


def _no_number(name: str) -> NoReturn:
    message = f"{name} is no number"
    raise ValueError(message)


def _stop(
    path: Path, code: str, what: str, seen: str = "", expected: str = "", key: str = ""
) -> NoReturn:
    found = Findings()
    found.add(
        Finding(
            code=code,
            severity="error",
            message=what,
            file=str(path),
            key=key,
            seen=seen,
            expected=expected,
            next_step=AGAIN,
        )
    )
    found.raise_if_errors("The folder of the search")
    raise AssertionError
