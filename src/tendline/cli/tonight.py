"""``tendline tonight``: from logged games to tonight's sheet."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import click

from tendline.cli.evening import evening_of, evening_options, print_tonight
from tendline.cli.frame import Command, json_option, print_json, session_of, step


@click.command(
    cls=Command,
    examples=(
        "tendline --demo tonight",
        "tendline --demo tonight --block --helpers 1 --out block.pdf",
        "tendline --demo tonight --place 'half ice' --minutes 45 --paper Letter --json",
    ),
)
@evening_options
@click.option("--paper", type=click.Choice(["A4", "Letter"]), default="A4", show_default=True)
@click.option("--large", is_flag=True, help="Large print.")
@click.option("--back", is_flag=True, help="The drills' diagrams large on the back.")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), default=None,
    help="Where to write the PDF; beside the club's file if not given.",
)  # fmt: skip
@click.option("--no-pdf", is_flag=True, help="Do not write the PDF.")
@json_option
@click.pass_context
def tonight(
    context: click.Context,
    /,
    paper: str,
    large: bool,
    back: bool,
    out: Path | None,
    no_pdf: bool,
    as_json: bool,
    **values: Any,
) -> None:
    """What the games cost and why, what to train, and tonight's sheet as a PDF.

    The sheet is saved in the club's file: see it again with 'tendline sheet'.
    """
    from tendline.practice import sheet_to_dict
    from tendline.work.tonight import keep, sheet_pdf
    from tendline.work.tonight import tonight as make

    with session_of(context).store() as store:
        made = make(store, evening_of(values, datetime.now(), store), tell=step)
        if not store.is_read_only:
            keep(store, made)
        path = None
        if not no_pdf:
            with step("Drawing the sheet"):
                pdf = sheet_pdf(store, made, paper=paper, large_print=large, diagrams_on_back=back)
                path = write_pdf(pdf, out, store.path.parent, made.sheet.day.isoformat())
    if as_json:
        print_json(
            {
                "answer": made.answer,
                "goaltender": made.focus,
                "games": made.games,
                "findings": made.findings,
                "stage": made.stage,
                "train": made.needs,
                "sheet": sheet_to_dict(made.sheet),
                "pdf": path,
            }
        )
        return
    print_tonight(made)
    if path:
        click.echo(f"Sheet: {path}")


def write_pdf(content: bytes, out: Path | None, folder: Path, day: str) -> Path:
    """Write a PDF to ``out``, or to a file named after the day; return where it is."""
    from tendline.base import StoreError

    path = out or folder / f"practice-{day}.pdf"
    try:
        path.write_bytes(content)
    except OSError as error:
        raise StoreError(
            "the sheet cannot be written", came=str(error), item=str(path),
            hint="Give another place with --out.",
        ) from error  # fmt: skip
    return path
