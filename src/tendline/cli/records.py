"""``tendline records``: what the games say, counts first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from tendline.cli.frame import Command, json_option, print_json, print_table, session_of, step

if TYPE_CHECKING:
    from tendline.log import Game
    from tendline.store import Store


@click.command(
    cls=Command,
    examples=("tendline records ida", "tendline records ida --last 6 --json",
              "tendline --demo records ronja --why"),
)  # fmt: skip
@click.argument("goaltender")
@click.option("--last", type=click.IntRange(1), default=None, help="Only her last games.")
@click.option("--why", is_flag=True, help="Say what the games cost, why, and what to train.")
@json_option
@click.pass_context
def records(
    context: click.Context, goaltender: str, last: int | None, why: bool, as_json: bool
) -> None:
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
        if why:
            _print_why(store, games, goaltender, as_json=as_json)
            return
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


def _print_why(store: Store, games: Sequence[Game], person: str, *, as_json: bool) -> None:
    from tendline.work.cost import cost_of

    with step("Asking the engine about each shot"):
        refused = tuple(one.theme for one in store.choices.refusals(person))
        cost = cost_of(
            store, games, person, refused=refused, settings=store.choices.settings(person)
        )
    if as_json:
        print_json({"answer": cost.answer, "findings": cost.found})
        return
    for sentence in (*cost.answer, *cost.found.chances):
        click.echo(sentence)
