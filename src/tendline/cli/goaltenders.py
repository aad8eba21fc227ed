"""``tendline goaltender``: the goaltenders in the club's file; as little as possible is kept."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from tendline.base import Level, Side
from tendline.cli.frame import Command, Group, json_option, print_json, print_table, session_of


@click.group(cls=Group)
def goaltender() -> None:
    """Add, list, export and erase goaltenders."""


@goaltender.command(
    "add", cls=Command,
    examples=(
        'tendline goaltender add ida --name "Ida" --level U15 --catches left --stature 1.63',
    ),
)  # fmt: skip
@click.argument("person")
@click.option("--name", default="", help="What to call her; initials will do.")
@click.option(
    "--level", type=click.Choice([one.value for one in Level]), default=None,
    help="Playing level; her age class if not given.",
)  # fmt: skip
@click.option(
    "--catches", type=click.Choice([one.value for one in Side]), default=None,
    help="Her catching hand; left if not given.",
)  # fmt: skip
@click.option("--stature", type=float, default=None, help="Height, metres.")
@click.option("--born", type=int, default=None, help="Year of birth.")
@click.option("--team", default="", help="Put her on this team; made if it is not there.")
@click.pass_context
def add(
    context: click.Context,
    person: str,
    name: str,
    level: str | None,
    catches: str | None,
    stature: float | None,
    born: int | None,
    team: str,
) -> None:
    """Add a goaltender under the short name PERSON, or change her."""
    from tendline.work.goaltenders import save_goaltender

    with session_of(context).store() as store:
        saved = save_goaltender(
            store, person, day=date.today(), name=name, level=Level(level) if level else None,
            catching_hand=Side(catches) if catches else None, stature=stature, birth_year=born,
            team=team,
        )  # fmt: skip
    click.echo(f"Saved: {saved.display_name}.")


@goaltender.command(
    "list", cls=Command, examples=("tendline goaltender list", "tendline goaltender list --json")
)
@json_option
@click.pass_context
def list_goaltenders(context: click.Context, as_json: bool) -> None:
    """List the goaltenders."""
    from tendline.work.goaltenders import goaltenders

    with session_of(context).store() as store:
        found = goaltenders(store, date.today())
    if as_json:
        print_json(found)
    elif not found:
        click.echo("No goaltender yet: tendline goaltender add NAME")
    else:
        print_table(
            ("id", "name", "level", "catches", "games"),
            [(g.id, g.name, g.level, g.catches, str(g.games)) for g in found],
        )


@goaltender.command(
    "export", cls=Command, examples=("tendline --demo goaltender export ronja --out ronja.json",)
)
@click.argument("person")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), default=None,
    help="Write here instead of printing.",
)  # fmt: skip
@click.pass_context
def export(context: click.Context, person: str, out: Path | None) -> None:
    """Export everything kept about PERSON as JSON."""
    from tendline.cli.frame import write_json
    from tendline.store import export_person

    with session_of(context).store() as store:
        document = export_person(store, person)
    if out:
        write_json(document, out)
        click.echo(f"Written: {out}")
    else:
        print_json(document)


@goaltender.command("erase", cls=Command, examples=("tendline goaltender erase ida --yes",))
@click.argument("person")
@click.option("--yes", is_flag=True, help="Do not ask.")
@click.pass_context
def erase(context: click.Context, person: str, yes: bool) -> None:
    """Erase everything kept about PERSON. This cannot be taken back."""
    from tendline.store import erase_person

    with session_of(context).store() as store:
        if not yes:
            click.confirm(f"Erase everything about {person}? This cannot be undone", abort=True)
        done = erase_person(store, person)
    click.echo(done.words)
    for one in done.backups:
        click.echo(f"Older backup: {one}")
