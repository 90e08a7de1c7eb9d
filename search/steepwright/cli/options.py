"""Options that several commands take, each stated once, so that all say and check the same."""

from __future__ import annotations

import os
from pathlib import Path

import click

FOLDER = click.Path(file_okay=False, path_type=Path)
"""A folder to write into, there or not; a file of that name is refused before any work is done."""


class Number(click.FloatRange):
    """A number within limits, called so where it is none."""

    name = "number"


class Count(click.IntRange):
    """A whole number within limits, called so where it is none."""

    name = "whole number"


room_argument = click.argument("room_file", metavar="ROOM", type=click.Path(path_type=Path))

catalog_option = click.option(
    "--catalog",
    "catalog_dir",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="The yard's catalogue, instead of the one that ROOM names.",
)

angle_option = click.option(
    "--angle",
    "angle_deg",
    metavar="DEG",
    type=Number(0, 70),
    help="The overhang you want at least, in degrees from the vertical.",
)

max_cost_option = click.option(
    "--max-cost", metavar="N", help="The most you will pay, such as 350 or 349.90."
)

workers_option = click.option(
    "--workers",
    metavar="N",
    type=Count(1, 256),
    default=lambda: os.cpu_count() or 1,
    help="How many processes work  [default: one per processor].",
)

time_limit_option = click.option(
    "--time-limit",
    "time_limit_s",
    metavar="SECONDS",
    type=Number(0, min_open=True),
    help="Stop a search then; what was found is kept and marked incomplete, and proved so far.",
)

quiet_option = click.option("--quiet", is_flag=True, help="Show no progress.")
