"""``tendline drill``: list, show, check, run and format drills."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from tendline.base import Level
from tendline.cli.drill_files import booklet, export
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
    from tendline.drill import Drill, Run
    from tendline.store import Store

_LEVELS = [one.value for one in Level]


@click.group(cls=Group)
def drill() -> None:
    """List drills, look at one, check a script, run it on the clock."""


@drill.command(
    "list", cls=Command,
    examples=(
        "tendline drill list --theme lateral",
        'tendline drill list --goaltenders 2 --skaters 3 --ice "half ice" --minutes 5',
        "tendline drill list --no-net --json",
    ),
)  # fmt: skip
@click.option("--theme", default="", help="Only drills with this theme.")
@click.option("--situation", default="", help="Only drills with this scoring situation.")
@click.option("--family", default="", help="Only drills of this family.")
@click.option("--level", type=click.Choice(_LEVELS), default=None, help="Only drills for this age.")
@click.option("--goaltenders", type=click.IntRange(1), default=None, help="Goaltenders there.")
@click.option("--skaters", type=click.IntRange(0), default=None, help="Skaters there.")
@click.option("--serving", type=click.IntRange(0), default=None, help="People to serve pucks.")
@click.option("--ice", default="", help="Piece of ice there, such as 'half ice' or 'off the ice'.")
@click.option("--minutes", type=click.IntRange(1), default=None, help="Minutes there.")
@click.option("--words", default="", help="Only drills that hold these words.")
@click.option("--no-net", is_flag=True, help="Only drills without a net.")
@json_option
@click.pass_context
def list_drills(
    context: click.Context, theme: str, situation: str, family: str, level: str | None,
    goaltenders: int | None, skaters: int | None, serving: int | None, ice: str,
    minutes: int | None, words: str, no_net: bool, as_json: bool,
) -> None:  # fmt: skip
    """List the drills of the library and your own that fit what you have and want."""
    from tendline.base import ScoringSituation
    from tendline.drill.vocabulary import Family, Theme
    from tendline.work.drill_search import Wish, find_drills, named

    wish = Wish(
        words=words, goaltenders=goaltenders, skaters=skaters, helpers=serving, room=ice,
        nets=0 if no_net else None, minutes=minutes, level=named(Level, "level", level or ""),
        theme=named(Theme, "theme", theme), family=named(Family, "family", family),
        situation=named(ScoringSituation, "situation", situation),
    )  # fmt: skip
    with session_of(context).store() as store:
        answer = find_drills(store, wish)
    found = answer.drills
    if as_json:
        print_json([_line(one) for one in found])
        return
    print_table(
        ("id", "drill", "family", "ages", "minutes", "people", "ice"),
        [
            (one.id, one.title, one.family.value, f"{one.ages.youngest.value} and up",
             str(one.minutes), str(len(one.people)), one.ice.use.value)
            for one in found
        ],
    )  # fmt: skip
    click.echo(f"{len(found)} drills.")
    for one in answer.loosen:
        click.echo(f"Leave out {one.words}: then {one.count} fit.")


@drill.command(
    "show", cls=Command,
    examples=("tendline drill show E08", 'tendline drill show "Branching lane attack" --script'),
)  # fmt: skip
@click.argument("name")
@click.option("--script", is_flag=True, help="Print the drill's script.")
@json_option
@click.pass_context
def show(context: click.Context, name: str, script: bool, as_json: bool) -> None:
    """Show the drill of that NAME (id or title) as a card, or its script."""
    from tendline.drill import drill_to_dict, format_drill

    with session_of(context).store() as store:
        found = _find(store, name)
    if script:
        click.echo(format_drill(found), nl=False)
    elif as_json:
        print_json(drill_to_dict(found))
    else:
        _print_card(found)


@drill.command("format", cls=Command, examples=("tendline drill format my.drill",))
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--write", is_flag=True, help="Write the file instead of printing.")
def format_script(file: Path, write: bool) -> None:
    """Print the script in FILE in its usual form; comments are kept."""
    from tendline.drill import format_drill, parse_drill

    text = format_drill(parse_drill(read_script(file)))
    if write:
        file.write_text(text, "utf-8")
        click.echo(f"Written: {file}")
    else:
        click.echo(text, nl=False)


@drill.command(
    "check", cls=Command,
    examples=("tendline drill check E08", "tendline drill check my.drill --level U13 --json"),
)  # fmt: skip
@click.argument("name")
@click.option("--level", type=click.Choice(_LEVELS), default=None, help="Level; else the drill's.")
@click.option("--repairs", "with_repairs", is_flag=True, help="Compute repairs with their price.")
@json_option
@click.pass_context
def check(
    context: click.Context, name: str, level: str | None, with_repairs: bool, as_json: bool
) -> None:
    """Say what a drill does to the goaltender: each rule, its limit, and the evidence.

    NAME is a drill's id or title, or a script file.
    """
    from tendline.drill import Repair, check_drill, repairs, verdict

    with session_of(context).store() as store:
        settings = store.choices.settings()
        found = _find(store, name)
        run = _run(store, found, level)
        with step("Checking the rules"):
            findings = check_drill(found, run, settings=settings)
        mended: tuple[Repair, ...] = ()
        if with_repairs:
            with step("Computing repairs"):
                mended = repairs(found, settings=settings)
    if as_json:
        print_json(
            {
                "drill": found.id,
                "findings": findings,
                "verdict": verdict(run, findings),
                "repairs": [
                    {
                        "name": one.name,
                        "text": one.text,
                        "price": one.price,
                        "mends": one.mends,
                        "leaves": one.leaves,
                    }
                    for one in mended
                ],
            }
        )
        return
    click.echo(f"{found.title} at {run.level.value}: {_shots(run)}")
    click.echo(verdict(run, findings))
    for one in findings:
        click.echo(f"{one.level.value}: {one.words}")
    for repair in mended:
        click.echo(f"Repair, {repair.name}: {repair.text} Price: {repair.price.words}.")
        if repair.leaves:
            click.echo(f"   still against it: {', '.join(repair.leaves)}")


@drill.command(
    "run", cls=Command,
    examples=("tendline drill run L01 --level U13", "tendline drill run E08 --json"),
)  # fmt: skip
@click.argument("name")
@click.option("--level", type=click.Choice(_LEVELS), default=None, help="Level; else the drill's.")
@json_option
@click.pass_context
def run(context: click.Context, name: str, level: str | None, as_json: bool) -> None:
    """Run a drill on the clock: every release, set or not, and the load.

    NAME is a drill's id or title, or a script file.
    """
    with session_of(context).store() as store:
        found = _find(store, name)
        done = _run(store, found, level)
    rows = [(branch.key or "the drill", one) for branch in done.branches for one in branch.releases]
    if as_json:
        print_json(
            {
                "drill": found.id,
                "level": done.level,
                "minutes": done.minutes,
                "shots_per_minute": done.shots_per_minute,
                "shots": done.shots_total,
                "set_share": done.set_share,
                "work_s": done.work,
                "rest_s": done.rest,
                "load": {
                    name: getattr(done.load, name)
                    for name in ("shots", "drops", "hard_stops", "recoveries", "metres")
                },
                "releases": [
                    {
                        "branch": key, "time_s": one.time, "shooter": one.shooter,
                        "x_m": one.x, "y_m": one.y, "is_set": one.is_set,
                        "state": one.state.value, "depth_m": one.depth, "offset_m": one.offset,
                        "sight_s": one.sight, "goal_chance": one.goal_chance,
                        "gap_s": one.gap if one.gap != float("inf") else None,
                    }
                    for key, one in rows
                ],
            }
        )  # fmt: skip
        return
    click.echo(f"{found.title} at {done.level.value}: {_shots(done)}")
    print_table(
        ("branch", "time", "shooter", "she is", "depth", "off the line", "sight", "to next"),
        [
            (key, f"{one.time:.1f} s", one.shooter, one.state.value, f"{one.depth:.2f} m",
             f"{abs(one.offset):.2f} m", f"{one.sight:.1f} s", f"{one.gap:.1f} s")
            for key, one in rows
        ],
    )  # fmt: skip
    load = done.load
    click.echo(
        f"A repetition: drops {load.drops:.1f}, hard stops {load.hard_stops:.1f}, "
        f"recoveries {load.recoveries:.1f}, pushes {load.pushes_left:.1f} left and "
        f"{load.pushes_right:.1f} right; work {done.work:.0f} s, rest {done.rest:.0f} s."
    )


def read_script(file: Path) -> str:
    """Return the text of a script file; raises ``InputError`` if it is no text."""
    from tendline.base import InputError

    try:
        return file.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise InputError("this script cannot be read", came=str(error), item=str(file)) from error


def _find(store: Store, name: str) -> Drill:
    from tendline.drill import parse_drill
    from tendline.work.drills import all_drills, find_drill

    path = Path(name)
    if path.suffix == ".drill" or path.is_file():
        return parse_drill(read_script(path))
    return find_drill(all_drills(store), name)


def _run(store: Store, found: Drill, level: str | None) -> Run:
    from tendline.drill import simulate
    from tendline.ice import rink

    with step("Running it on the clock"):
        return simulate(
            found, level=Level(level) if level else None, rink=rink(store.club.get().rule_set),
            settings=store.choices.settings(),
        )  # fmt: skip


def _shots(run: Run) -> str:
    if not run.releases:
        return f"no shots; {run.repetitions:.0f} repetitions in {run.minutes:.0f} min."
    return (
        f"{run.shots_per_minute:.1f} shots a minute, {run.shots_total:.0f} in {run.minutes:.0f} "
        f"min at one goaltender; set for {100 * run.set_share:.0f} of 100."
    )


def _line(found: Drill) -> dict[str, object]:
    return {
        "id": found.id,
        "title": found.title,
        "family": found.family,
        "themes": found.themes,
        "situations": found.situations,
        "youngest": found.ages.youngest,
        "minutes": [found.minutes.low, found.minutes.high],
        "nets": found.nets,
        "ice": found.ice.use,
    }


def _print_card(found: Drill) -> None:
    click.echo(f"{found.id} {found.title}")
    click.echo(
        f"{found.family.value}; {found.ages.youngest.value} and up; {found.minutes} min; "
        f"{found.ice.use.value}; nets {found.nets}; goaltenders {found.goaltenders}"
    )
    parts = (
        ("Purpose", (found.purpose,)),
        ("Aim of the goaltender", (found.goaltender_aim,)),
        ("Aim of the shooters", (found.shooters_aim,)),
        ("Set-up", found.set_up),
        ("Steps", found.steps),
        ("Rules", found.rules),
        ("Key points", found.key_points),
        ("Cues", found.cues),
        ("Errors", tuple(f"{one.error} -> {one.correction}" for one in found.errors)),
        ("Easier", tuple(f"{one.drill} {one.words}".strip() for one in found.easier)),
        ("Harder", tuple(f"{one.drill} {one.words}".strip() for one in found.harder)),
    )
    for title, texts in parts:
        kept = [one for one in texts if one]
        if kept:
            click.echo(f"{title}: {' '.join(kept) if len(kept) == 1 else ''}".rstrip())
            for text in kept if len(kept) > 1 else ():
                click.echo(f"- {text}")


drill.add_command(export)
drill.add_command(booklet)
