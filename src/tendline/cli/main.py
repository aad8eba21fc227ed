"""The command line: every page's work as a command."""

from __future__ import annotations

from pathlib import Path

import click

from tendline.cli.frame import Group, Session

_COMMANDS = {
    "start": "tendline.cli.start:start",
    "serve": "tendline.cli.start:serve",
    "tonight": "tendline.cli.tonight:tonight",
    "read": "tendline.cli.reading:read",
    "drill": "tendline.cli.drills:drill",
    "game": "tendline.cli.games:game",
    "records": "tendline.cli.records:records",
    "plan": "tendline.cli.plan:plan",
    "sheet": "tendline.cli.sheets:sheet",
    "season": "tendline.cli.season:season",
    "goaltender": "tendline.cli.goaltenders:goaltender",
    "origin": "tendline.cli.origin:origin",
    "settings": "tendline.cli.settings:settings",
    "backup": "tendline.cli.keeping:backup",
    "restore": "tendline.cli.keeping:restore",
    "demo": "tendline.cli.keeping:demo",
}


@click.group(cls=Group, modules=_COMMANDS, context_settings={"help_option_names": ["-h", "--help"]})
@click.option(
    "--file", "file", type=click.Path(path_type=Path, dir_okay=False), default=None,
    help="The club's file to work on; your own club's if not given.",
)  # fmt: skip
@click.option("--demo", is_flag=True, help="Work on the invented demo club.")
@click.version_option(package_name="tendline", prog_name="tendline")
@click.pass_context
def main(context: click.Context, file: Path | None, demo: bool) -> None:
    """Work out where to stand, what it cost and what to train.

    From logged games to tonight's practice sheet for goaltenders. Everything stays on this
    machine. Start with 'tendline start', or see a command's own help: 'tendline read --help'.
    """
    context.obj = Session(file=file, demo=demo)
