"""``tendline game``: log games, look at them, bring them in from a table."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tendline.base import Level, ScoringSituation, ShotResult
from tendline.cli.frame import (
    Command,
    Group,
    json_option,
    print_json,
    print_table,
    session_of,
    step,
)

if TYPE_CHECKING:
    from tendline.log import Game
    from tendline.store import Store


@click.group(cls=Group)
def game() -> None:
    """Log games shot by shot, list and show them, import them."""


@game.command(
    "new", cls=Command,
    examples=(
        'tendline game new "Lakeside" --goaltender ida --level U15 --day 2026-01-10 --id sunday',
    ),
)  # fmt: skip
@click.argument("opponent")
@click.option("--goaltender", required=True, help="Id of the goaltender who starts.")
@click.option("--team", default="", help="Your team.")
@click.option(
    "--level", type=click.Choice([one.value for one in Level]), default=Level.U18.value,
    show_default=True, help="Playing level.",
)  # fmt: skip
@click.option(
    "--day", type=click.DateTime(["%Y-%m-%d"]), default=None, help="Day of the game; today if not."
)
@click.option("--id", "game_id", default="", help="A short name for the game.")
@click.pass_context
def new(
    context: click.Context,
    opponent: str,
    goaltender: str,
    team: str,
    level: str,
    day: datetime | None,
    game_id: str,
) -> None:
    """Start a game against OPPONENT; prints its id."""
    from tendline.log import GameSetUp, PeriodStart
    from tendline.work.games import new_id

    with session_of(context).store() as store:
        set_up = GameSetUp(
            id=game_id or new_id("game"), day=day.date() if day else date.today(), team=team,
            opponent=opponent, goaltender=goaltender, level=Level(level),
            rule_set=store.club.get().rule_set,
        )  # fmt: skip
        name = store.games.start(set_up)
        if not store.games.game(name).period:
            store.games.add(name, PeriodStart(id=f"{name}-p1", period=1))
    click.echo(name)


@game.command(
    "shot", cls=Command,
    examples=(
        "tendline game shot 6.1 6.7 save",
        'tendline game shot 2,1 goal --situation rebound --game sat',
        'tendline game shot "high slot" wide',
    ),
)  # fmt: skip
@click.argument("where", nargs=-1, required=True)
@click.option(
    "--situation", type=click.Choice([one.value for one in ScoringSituation]), default=None,
    help="Which of the ten scoring situations it was.",
)  # fmt: skip
@click.option("--game", "game_id", default="", help="The game; the newest one if not given.")
@click.pass_context
def shot(
    context: click.Context, where: tuple[str, ...], situation: str | None, game_id: str
) -> None:
    """Log a shot: a place as X Y (metres from our net) or a spot, then the result.

    Results: goal, save, 'save, held', 'save, safe rebound', 'save, dangerous rebound', wide,
    blocked.
    """
    from tendline.base import InputError, unknown_name
    from tendline.cli.places import place
    from tendline.ice import require_on_ice, rink
    from tendline.work.games import log_shot

    *words, result = where
    results = {one.value: one for one in ShotResult}
    if result not in results:
        raise unknown_name("result", result, results)
    if not words:
        raise InputError("a shot needs a place", allowed="X Y in metres, or a spot")
    with session_of(context).store() as store:
        name = game_id or _newest(store)
        sheet = rink(store.club.get().rule_set)
        x, y = place(",".join(words) if len(words) > 1 else words[0], sheet, item="shot")
        require_on_ice(sheet, x=x, y=y, item="shot")
        after = log_shot(
            store, name, x=x, y=y, result=results[result],
            situation=ScoringSituation(situation) if situation else None,
        )  # fmt: skip
    click.echo(f"{_tally(after)} Saved.")


@game.command("undo", cls=Command, examples=("tendline game undo",))
@click.option("--game", "game_id", default="", help="The game; the newest one if not given.")
@click.pass_context
def undo(context: click.Context, game_id: str) -> None:
    """Take back the last entry of a game (kept in the log as taken back)."""
    from tendline.work.games import undo_last

    with session_of(context).store() as store:
        after = undo_last(store, game_id or _newest(store))
    click.echo(f"Taken back. {_tally(after)}")


@game.command("period", cls=Command, examples=("tendline game period",))
@click.argument("number", type=click.IntRange(1), required=False)
@click.option("--game", "game_id", default="", help="The game; the newest one if not given.")
@click.pass_context
def period(context: click.Context, number: int | None, game_id: str) -> None:
    """Start the next period, or period NUMBER; ends change as the game's set-up says."""
    from tendline.work.games import start_period

    with session_of(context).store() as store:
        after = start_period(store, game_id or _newest(store), number)
    click.echo(_tally(after))


@game.command("change", cls=Command, examples=("tendline game change bea",))
@click.argument("goaltender", required=False, default="")
@click.option("--game", "game_id", default="", help="The game; the newest one if not given.")
@click.pass_context
def change(context: click.Context, goaltender: str, game_id: str) -> None:
    """Put another GOALTENDER in the net; nobody when left out (an empty net)."""
    from tendline.work.games import change_goaltender

    with session_of(context).store() as store:
        after = change_goaltender(store, game_id or _newest(store), goaltender)
    click.echo(f"In the net: {after.goaltender or 'nobody'}. {_tally(after)}")


@game.command("list", cls=Command, examples=("tendline game list", "tendline game list --json"))
@click.option("--goaltender", default="", help="Only games in which she played.")
@json_option
@click.pass_context
def list_games(context: click.Context, goaltender: str, as_json: bool) -> None:
    """List the games, newest first."""
    with session_of(context).store() as store:
        headers = store.games.headers(goaltender=goaltender)
    if as_json:
        print_json(headers)
    elif not headers:
        click.echo("No game yet. Start one: tendline game new OPPONENT --goaltender ID")
    else:
        print_table(
            ("day", "opponent", "level", "goaltenders", "entries", "id"),
            [
                (h.day.isoformat(), h.opponent, h.level.value, ", ".join(h.goaltenders),
                 str(h.events), h.id)
                for h in headers
            ],
        )  # fmt: skip


@game.command("show", cls=Command, examples=("tendline game show", "tendline game show --json"))
@click.argument("game_id", required=False)
@json_option
@click.pass_context
def show(context: click.Context, game_id: str | None, as_json: bool) -> None:
    """Show a game shot by shot; the newest one if none is named."""
    with session_of(context).store() as store:
        found = store.games.game(game_id or _newest(store))
    if as_json:
        print_json(
            {"id": found.id, "day": found.day, "opponent": found.opponent, "period": found.period,
             "goaltender": found.goaltender, "shots": found.shots, "notes": found.notes}
        )  # fmt: skip
        return
    click.echo(f"{found.day.isoformat()} against {found.opponent}. {_tally(found)}")
    print_table(
        ("no.", "period", "place", "zone", "situation", "result"),
        [
            (str(s.number), str(s.period), f"{s.x:.1f}, {s.y:.1f} m", s.zone.value,
             s.situation.value if s.situation else "not said", s.result.value)
            for s in found.shots
        ],
    )  # fmt: skip


@game.command(
    "import", cls=Command,
    examples=(
        "tendline game import games.csv --day 2026-01-10 --level U15",
        "tendline game import --mappings",
    ),
)  # fmt: skip
@click.argument(
    "file", type=click.Path(path_type=Path, exists=True, dir_okay=False), required=False
)
@click.option("--mapping", default="", help="Name of the column mapping; found if not given.")
@click.option("--mappings", is_flag=True, help="List the column mappings there are.")
@click.option("--goaltender", "goaltenders", multiple=True,
              help="Only games with this goaltender, as the file writes her.")  # fmt: skip
@click.option("--as", "person", default="", help="The id she has in your club's file.")
@click.option(
    "--level", type=click.Choice([one.value for one in Level]), default=Level.ADULT.value,
    show_default=True, help="Playing level.",
)  # fmt: skip
@click.option("--day", type=click.DateTime(["%Y-%m-%d"]), default=None,
              help="Day of games whose rows hold none; today if not.")  # fmt: skip
@click.option("--leave-out-bad-rows", is_flag=True, help="Import the good rows all the same.")
@json_option
@click.pass_context
def import_file(
    context: click.Context,
    file: Path | None,
    mapping: str,
    mappings: bool,
    goaltenders: tuple[str, ...],
    person: str,
    level: str,
    day: datetime | None,
    leave_out_bad_rows: bool,
    as_json: bool,
) -> None:
    """Import the games of a table in FILE, all or none; the same file again adds nothing."""
    from tendline.base import InputError
    from tendline.work.imports import import_games, known_mappings

    with session_of(context).store() as store:
        if mappings:
            for one in known_mappings(store):
                click.echo(one.name)
            return
        if file is None:
            raise InputError("which file?", hint="Give a CSV file: tendline game import FILE")
        people = dict.fromkeys(goaltenders, person) if person else {}
        with step(f"Importing {file.name}"):
            outcome = import_games(
                store, file.read_bytes(), day=day.date() if day else date.today(),
                mapping=mapping, level=Level(level), goaltenders=goaltenders, people=people,
                leave_out_bad_rows=leave_out_bad_rows,
            )  # fmt: skip
    if as_json:
        print_json(
            {"games": outcome.games, "new_entries": outcome.new_events, "words": outcome.words}
        )
    else:
        click.echo(outcome.words)


def _newest(store: Store) -> str:
    from tendline.base import NotFoundError

    headers = store.games.headers()
    if not headers:
        raise NotFoundError(
            "there is no game yet", hint="Start one: tendline game new OPPONENT --goaltender ID"
        )
    return headers[0].id


def _tally(found: Game) -> str:
    on_goal = [one for one in found.shots if one.on_goal]
    goals = sum(one.is_goal for one in on_goal)
    return (
        f"Period {found.period}: {len(on_goal)} shots on goal, {goals} "
        f"goal{'' if goals == 1 else 's'}."
    )
