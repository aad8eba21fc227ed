"""``tendline backup``, ``restore`` and ``demo``: looking after the club's file."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click

from tendline.cli.frame import Command, session_of, step


@click.command(cls=Command, examples=("tendline backup", "tendline backup club-copy.db"))
@click.argument("to", type=click.Path(path_type=Path), required=False)
@click.pass_context
def backup(context: click.Context, to: Path | None) -> None:
    """Copy the club's file while it may be in use; TO is a file, or the backups folder if none."""
    from tendline.store import back_up

    with session_of(context).store() as store, step("Copying the club's file"):
        made = back_up(store, moment=datetime.now().astimezone(), target=to)
    click.echo(f"Backup: {made}")


@click.command(cls=Command, examples=("tendline restore club-copy.db --yes",))
@click.argument("backup_file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--yes", is_flag=True, help="Do not ask.")
@click.pass_context
def restore(context: click.Context, backup_file: Path, yes: bool) -> None:
    """Put the backup in BACKUP_FILE in the place of the club's file.

    The file that is there now is copied to the backups folder first.
    """
    from tendline.store import club_path
    from tendline.store import restore as put_back

    path = session_of(context).path() or club_path()
    if not yes:
        click.confirm(f"Replace {path} by {backup_file}?", abort=True)
    with step("Restoring"):
        done = put_back(backup_file, path, moment=datetime.now().astimezone())
    click.echo(f"Restored: {done.path}." + (f" What was there: {done.kept}" if done.kept else ""))


@click.command(cls=Command, examples=("tendline demo",))
@click.option("--fresh", is_flag=True, help="Make it anew; changes to the demo club are lost.")
def demo(fresh: bool) -> None:
    """Make the invented demo club and say where it is and what to try."""
    from tendline.store import demo_path
    from tendline.work.demo import open_demo

    path = demo_path()
    if fresh:
        for one in (path, path.with_name(f"{path.name}-wal"), path.with_name(f"{path.name}-shm")):
            one.unlink(missing_ok=True)
    with step("Making the demo club"), open_demo() as store:
        club = store.club.get()
        games = len(store.games.headers())
        people = len(store.people.ids())
    click.echo(f"{club.name}: {people} goaltenders, {games} games, all invented. File: {path}")
    click.echo("Try: tendline --demo tonight; tendline --demo records ronja; tendline serve --demo")
