"""What every table of the room file has in common."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict

from steepwright.room.fields import Pair, Text, Whole

Name = Annotated[str, Text()]
FLAT_PIECE = Pair(Whole(100, 20_000), ("length", "width"), order="falling")


class Table(BaseModel):
    """A TOML table whose keys are all known."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=True)
