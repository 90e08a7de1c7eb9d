"""The top-level command: its subcommands are imported only when they are called."""

from __future__ import annotations

import importlib
import importlib.util
from typing import Any

import click

from steepwright.findings import nearest

COMMANDS = {
    "new": "Start a room: a commented room.toml and a catalogue to edit.",
    "search": "Find every wall that is worth having in a room.",
    "batch": "Search every room at every price list.",
    "refine": "Look at all walls near one design by the millimetre, exactly.",
    "sample": "Sample walls whose lengths go by the millimetre; what comes out is not certified.",
    "assess": "Check one wall that you already have in mind.",
    "prices": "Turn a yard's price list into a catalogue that search uses.",
    "sheets": "Print drawings and cut plans of one design.",
    "explain": "Say more about a finding's code.",
    "verify": "Check a finished search's certificate independently.",
}
"""Name and one line for each command; a command whose file is not there is not listed."""

LIBRARIES = ("numpy", "scipy", "pandas", "optuna", "plotly")
"""The five that do the heavy work; a report of a bug needs their versions."""

EXAMPLE = """\b
Example:
  steepwright new loft
  steepwright search loft/room.toml --angle 40
"""

CONTEXT = {"help_option_names": ["-h", "--help"], "max_content_width": 100}


class LazyGroup(click.Group):
    """A group that imports ``steepwright.cli.<name>`` when the command of this name is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of the commands whose files are there."""
        return [name for name in COMMANDS if self._is_there(name)]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import and return one command."""
        if cmd_name not in COMMANDS or not self._is_there(cmd_name):
            return None
        module = importlib.import_module(f"steepwright.cli.{cmd_name}")
        found = (
            item
            for item in vars(module).values()
            if isinstance(item, click.Command) and item.name == cmd_name
        )
        return next(found)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command, or name the one that was probably meant."""
        known = self.list_commands(ctx)
        if args[0] not in known and not args[0].startswith("-"):
            near = nearest(args[0], known)
            meant = f"Did you mean {near}?" if near else f"There are {', '.join(known)}."
            ctx.fail(f"There is no command {args[0]!r}. {meant}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without importing them."""
        rows = [(name, COMMANDS[name]) for name in self.list_commands(ctx)]
        with formatter.section("Commands"):
            formatter.write_dl(rows)

    @staticmethod
    def _is_there(name: str) -> bool:
        return importlib.util.find_spec(f"steepwright.cli.{name}") is not None


def _print_versions(ctx: click.Context, _param: click.Parameter, value: bool) -> None:
    """Print our version and those of the libraries, without importing these."""
    if not value or ctx.resilient_parsing:
        return
    import platform
    from importlib import metadata

    import steepwright

    click.echo(f"steepwright {steepwright.__version__}")
    click.echo(f"python {platform.python_version()}")
    for library in LIBRARIES:
        try:
            click.echo(f"{library} {metadata.version(library)}")
        except metadata.PackageNotFoundError:
            click.echo(f"{library} is missing")
    ctx.exit()


@click.group(cls=LazyGroup, context_settings=CONTEXT, epilog=EXAMPLE)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_print_versions,
    help="Show the version, and those of the libraries, and exit.",
)
@click.option(
    "--debug",
    is_flag=True,
    expose_value=False,
    help="Show the trace when something of ours fails; so does STEEPWRIGHT_DEBUG=1.",
)
def root(**_: Any) -> None:
    """Plan an overhanging home climbing wall for your room at your yard's prices.

    A wall can hurt someone. What comes out is no approval: local rules and a structural
    engineer come first.
    """
