"""The rows of a yard's files as pydantic models: the one place where their columns are named."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, ClassVar, Generic, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError, field_validator, model_validator

from steepwright.catalog.columns import Price, Real, Text, Whole, refuse
from steepwright.catalog.tables import TableRow
from steepwright.catalog.types import OFFCUT, Hardware, Mount, Screw, SheetProduct, TimberProduct
from steepwright.findings import Finding, Findings, nearest

HARDWARE_KINDS = (
    "hinge",
    "tnut",
    "bolt",
    "rope",
    "strap",
    "pulley",
    "brake",
    "latch",
    "pad",
    "tie",
)
Record = TypeVar("Record", SheetProduct, TimberProduct, Screw, Mount, Hardware)
Product = SheetProduct | TimberProduct | Screw | Mount | Hardware


class Row(BaseModel):
    """What all rows share. A column with a default may be left out or blank."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    words: ClassVar[dict[str, tuple[str, ...]]] = {}
    """Columns that take one of a few words."""

    sku: Text
    name: Text
    price: Price
    yard: Text = ""

    @field_validator("*", mode="after")
    @classmethod
    def _one_of_the_words(cls, value: object, info: Any) -> object:
        words = cls.words.get(info.field_name)
        if words and value not in words:
            refuse(
                "catalog-unknown-word",
                "this word is not known here",
                f"one of {', '.join(words)}",
                did_you_mean(str(value), words),
            )
        return value

    @classmethod
    def required(cls) -> tuple[str, ...]:
        """Names of the columns that must be there."""
        return tuple(name for name, field in cls.model_fields.items() if field.is_required())

    @classmethod
    def optional(cls) -> tuple[str, ...]:
        """Names of the columns that may be left out or blank."""
        return tuple(name for name, field in cls.model_fields.items() if not field.is_required())


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return a question that names the nearest known word, or nothing."""
    like = nearest(word, known)
    return f"did you mean {like!r}?" if like else ""


class SheetRow(Row):
    """A row of ``sheets.csv``."""

    words: ClassVar = {"face_grain": ("length", "width")}

    kind: Text
    panel: Text
    thickness_mm: Whole
    length_mm: Whole
    width_mm: Whole
    face_grain: Text
    limit: Whole | None = None

    @field_validator("sku")
    @classmethod
    def _no_offcut_of_the_room_file(cls, value: str) -> str:
        if value.startswith(OFFCUT):
            refuse(
                "catalog-offcut-sku",
                f"numbers that begin with {OFFCUT} are those of the offcuts in the room file",
                "another number",
                f"write +{value}, say",
            )
        return value


class TimberRow(Row):
    """A row of ``timber.csv``."""

    width_mm: Whole
    depth_mm: Whole
    length_mm: Whole
    strength_class: Text
    surface: Text
    limit: Whole | None = None

    @model_validator(mode="after")
    def _narrow_side_first(self) -> TimberRow:
        if self.width_mm > self.depth_mm:
            refuse(
                "catalog-width-depth",
                f"the width is more than the depth ({self.width_mm} x {self.depth_mm} mm)",
                "width_mm is the narrow side, depth_mm the deep side",
                "swap the two",
            )
        return self


class ThreadedRow(Row):
    """What screws and the screws of mounts share."""

    diameter_mm: Real
    root_mm: Real
    thread_mm: Real
    tensile_mpa: Real

    @model_validator(mode="after")
    def _root_inside(self) -> ThreadedRow:
        if self.root_mm >= self.diameter_mm:
            message = f"the root ({self.root_mm:g} mm) is as thick as the thread"
            refuse("catalog-root", message, f"less than {self.diameter_mm:g} mm")
        return self


class ScrewRow(ThreadedRow):
    """A row of ``screws.csv``."""

    words: ClassVar = {"role": ("sheet", "frame")}

    role: Text
    length_mm: Real
    head_mm: Real
    pack_quantity: Whole

    @model_validator(mode="after")
    def _thread_inside(self) -> ScrewRow:
        if self.thread_mm > self.length_mm:
            message = f"the thread ({self.thread_mm:g} mm) is longer than the screw"
            refuse("catalog-thread", message, f"at most {self.length_mm:g} mm")
        return self


class MountRow(ThreadedRow):
    """A row of ``mounts.csv``."""

    drop_mm: Whole
    setback_mm: Whole
    behind_sheet_mm: Whole
    screws: Whole
    rated_n: Real | None = None
    adjust_mm: Whole
    thread_pitch_mm: Real
    plate_mm: Whole | None = None
    row_gap_mm: Whole = 0
    stiff_mm: Whole | None = None

    @model_validator(mode="after")
    def _rows_on_the_plate(self) -> MountRow:
        if self.row_gap_mm and self.plate_mm is not None and self.row_gap_mm >= self.plate_mm:
            message = f"the two rows of screws lie {self.row_gap_mm} mm apart, beside the plate"
            refuse("catalog-plate", message, f"less than {self.plate_mm} mm, the plate's width")
        if self.row_gap_mm and self.screws % 2:
            message = f"{self.screws} screws don't make two equal rows"
            refuse("catalog-plate", message, "an even number of screws, or no row_gap_mm")
        return self


class HardwareRow(Row):
    """A row of ``hardware.csv``."""

    words: ClassVar = {"kind": HARDWARE_KINDS}

    kind: Text
    pack_quantity: Whole
    diameter_mm: Real = 0.0
    length_mm: Whole = 0
    width_mm: Whole = 0
    thickness_mm: Whole = 0
    rated_n: Real | None = None
    breaking_n: Real | None = None
    stiffness_n: Real | None = None
    efficiency: Real | None = None

    @model_validator(mode="after")
    def _tie_in_full(self) -> HardwareRow:
        if self.kind == "tie" and not (self.length_mm and self.rated_n and self.stiffness_n):
            message = "a tie needs its longest length, its working load and its stiffness"
            refuse("catalog-tie", message, "length_mm, rated_n and stiffness_n")
        return self


@dataclass(frozen=True, slots=True)
class Table(Generic[Record]):
    """One file of a catalogue: its name, its row model, its record type, whether it must be."""

    file: str
    row: type[Row]
    make: Callable[..., Record]
    needed: bool


SHEETS = Table("sheets.csv", SheetRow, SheetProduct, needed=True)
TIMBER = Table("timber.csv", TimberRow, TimberProduct, needed=True)
SCREWS = Table("screws.csv", ScrewRow, Screw, needed=False)
MOUNTS = Table("mounts.csv", MountRow, Mount, needed=False)
HARDWARE = Table("hardware.csv", HardwareRow, Hardware, needed=False)
YARD_FILE = "yard.toml"
TRIPS_FILE = "trips.csv"
"""What one trip to each yard costs; a catalogue of one yard seldom has it."""
CATALOG_FILES = (YARD_FILE, SHEETS.file, TIMBER.file, SCREWS.file, MOUNTS.file, HARDWARE.file)
"""The files of a catalogue's folder; the last three may be left out."""


def make_records(
    table: Table[Record], path: Path, rows: Iterable[TableRow], yard: str, problems: Findings
) -> tuple[tuple[int, Record], ...]:
    """Return the rows that are right as (line, record); the others become findings.

    A blank ``yard`` cell stands for the yard that the catalogue is named after.
    """
    optional = set(table.row.optional())
    made = []
    for row in rows:
        cells = {name: cell for name, cell in row.cells.items() if cell or name not in optional}
        try:
            values = table.row.model_validate(cells, context=table.file).model_dump()
        except ValidationError as error:
            problems.extend(row_findings(error, path, row))
            continue
        values["price_cents"] = values.pop("price")
        values["yard"] = values["yard"] or yard
        made.append((row.line, table.make(**values)))
    return tuple(made)


def row_findings(error: ValidationError, path: Path, row: TableRow) -> Iterable[Finding]:
    """Yield one finding per cell that a row's model refused."""
    for item in error.errors():
        context = item["ctx"]
        key = str(item["loc"][0]) if item["loc"] else ""
        yield Finding(
            context["code"],
            "error",
            context["message"],
            str(path),
            row.line,
            key,
            seen=row.cells.get(key, ""),
            expected=context["expected"],
            next_step=context["next_step"],
        )
