"""``tendline records``: what the games say, counts first."""

from __future__ import annotations

import click

from tendline.cli.frame import Command, json_option, print_json, print_table, session_of


@click.command(
    cls=Command, examples=("tendline records ida", "tendline records ida --last 6 --json")
)
@click.argument("goaltender")
@click.option("--last", type=click.IntRange(1), default=None, help="Only her last games.")
@json_option
@click.pass_context
def records(context: click.Context, goaltender: str, last: int | None, as_json: bool) -> None:
    """Show a GOALTENDER's record by situation and by zone, with spans for small numbers."""
    from tendline.base import NotFoundError
    from tendline.log import records_of

    with session_of(context).store() as store:
        settings = store.choices.settings()
        games = store.games.of(goaltender, last=last, settings=settings)
    if not games:
        raise NotFoundError(
            "no logged game of hers", came=f"'{goaltender}'",
            hint="List the games and ids: tendline game list",
        )  # fmt: skip
    found = records_of(games, goaltender)
    if as_json:
        print_json(found)
        return
    total = found.total
    click.echo(
        f"{found.games} games: {total.saves} saves on {total.shots} shots, {total.goals} goals."
    )
    for title, cells in (("situation", found.situations), ("zone", found.zones)):
        click.echo("")
        print_table(
            (title, "shots", "goals", "goals of shots"),
            [(c.name, str(c.shots), str(c.goals), c.scored.words) for c in cells if c.attempts],
        )
    rebounds = found.rebounds_controlled
    if rebounds.of:
        click.echo("")
        click.echo(f"Rebounds controlled: {rebounds.words}.")
