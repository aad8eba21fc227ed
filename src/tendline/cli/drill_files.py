"""``tendline drill export`` and ``booklet``: drills as files to print, send and show."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from tendline.cli.frame import Command, session_of


@click.command(
    "export", cls=Command,
    examples=(
        "tendline drill export E08 card.pdf --paper A6",
        "tendline drill export L01 run.gif",
        "tendline drill export L01 drill.html",
    ),
)  # fmt: skip
@click.argument("name")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option(
    "--paper", type=click.Choice(["A4", "A5", "A6"]), default="A5", show_default=True,
    help="Paper of a card (pdf).",
)  # fmt: skip
@click.option("--branch", default="", help="Which branch a film shows; the first if not given.")
@click.pass_context
def export(context: click.Context, name: str, file: Path, paper: str, branch: str) -> None:
    """Write drill NAME to FILE; its ending says how.

    pdf: the card; svg, png: the diagram; gif, mp4, webm: the run as a film; html: one page that
    plays without a network; drill: the script.
    """
    from tendline.work.drill_export import export_drill
    from tendline.work.drills import all_drills, find_drill

    with session_of(context).store() as store:
        drill = find_drill(all_drills(store), name)
        kind = file.suffix.removeprefix(".").lower()
        with click.progressbar(length=1, label=f"Drawing {drill.id}", file=sys.stderr) as bar:

            def told(done: int, total: int) -> None:
                bar.length = total
                bar.update(done - bar.pos)

            content = export_drill(
                store, drill, kind, paper=paper, branch=branch, progress=told
            )  # fmt: skip
            bar.update((bar.length or 1) - bar.pos)
    file.write_bytes(content)
    click.echo(f"{file}: {len(content) / 1000:.0f} kB")


@click.command(
    "booklet", cls=Command,
    examples=("tendline drill booklet lateral.pdf --theme lateral",),
)  # fmt: skip
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--theme", default="", help="Only drills with this theme.")
@click.option(
    "--paper", type=click.Choice(["A4", "A5", "A6"]), default="A5", show_default=True, help="Paper."
)
@click.pass_context
def booklet(context: click.Context, file: Path, theme: str, paper: str) -> None:
    """Write many drills to FILE as one PDF with contents."""
    from tendline.base import unknown_name
    from tendline.drill import search_drills
    from tendline.drill.vocabulary import Theme
    from tendline.work.drill_export import export_booklet
    from tendline.work.drills import all_drills

    names = [one.value for one in Theme]
    if theme and theme not in names:
        raise unknown_name("theme", theme, names)
    with session_of(context).store() as store:
        found = search_drills(all_drills(store), theme=Theme(theme) if theme else None)
        with click.progressbar(length=len(found), label="Drawing cards", file=sys.stderr) as bar:
            content = export_booklet(
                store, found, paper=paper, progress=lambda done, total: bar.update(done - bar.pos)
            )
    file.write_bytes(content)
    click.echo(f"{file}: {len(found)} drills, {len(content) / 1000:.0f} kB")
