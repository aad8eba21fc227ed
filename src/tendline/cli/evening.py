"""The options with which a coach describes tonight's ice, shared by several commands."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, time
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    from tendline.store import Store
    from tendline.work.tonight import Evening, Tonight

_SPECIAL = ("sledge hockey", "outdoor ice", "alone on the ice")
_SHOWN = 8
F = TypeVar("F", bound=Callable[..., Any])


def evening_options(function: F) -> F:
    """Add the options that describe tonight's ice."""
    options = (
        click.option("--team", default="", help="The team; the one with most goaltenders if not."),
        click.option("--day", type=click.DateTime(["%Y-%m-%d"]), default=None, help="The day."),
        click.option(
            "--start", "start", type=click.DateTime(["%H:%M"]), default="18:00",
            show_default="18:00", help="When the ice begins.",
        ),
        click.option("--minutes", type=click.IntRange(1), default=None,
                     help="Minutes of ice; 55 for a practice, 10 for a block."),
        click.option("--block", is_flag=True, help="Only the ten-minute goaltender block."),
        click.option("--place", default="full ice", show_default=True,
                     help="The team's ice: 'full ice', 'half ice', 'one end zone'."),
        click.option("--block-place", default="one end, with a net", show_default=True,
                     help="The block's ice, or 'one corner, no net'."),
        click.option("--nets", type=click.IntRange(0), default=None, help="Nets on that ice."),
        click.option("--with", "present", multiple=True, help="A goaltender who is there, by id."),
        click.option("--focus", default="", help="Whose games decide; else most shots logged."),
        click.option("--skaters", type=click.IntRange(0), default=None, help="Skaters there."),
        click.option("--helpers", type=click.IntRange(0), default=None,
                     help="People free to serve the block."),
        click.option("--run-by", multiple=True,
                     help="Who runs station A, then B, and so on, where several run at once."),
        click.option("--also", type=click.Choice(_SPECIAL), multiple=True,
                     help="Drills for a special evening too."),
        click.option("--last", type=click.IntRange(1), default=6, show_default=True,
                     help="How many of her last games count."),
    )  # fmt: skip
    for one in reversed(options):
        function = one(function)
    return function


def evening_of(values: dict[str, Any], today: datetime, store: Store) -> Evening:
    """Return the evening that the options describe."""
    from tendline.drill.vocabulary import Family
    from tendline.practice import PlanKind
    from tendline.work.demo import TODAY
    from tendline.work.tonight import Evening

    block = values["block"]
    minutes = values["minutes"] or (10 if block else 55)
    start: datetime | None = values["start"]
    default = TODAY if store.club.get().is_demo else today.date()
    return Evening(
        team=values["team"],
        day=values["day"].date() if values["day"] else default,
        start=start.time() if start else time(18, 0),
        minutes=minutes,
        kind=PlanKind.BLOCK if block else PlanKind.PRACTICE,
        place=values["place"],
        block_place=values["block_place"],
        nets=values["nets"],
        present=values["present"],
        focus=values["focus"],
        skaters=values["skaters"],
        helpers=values["helpers"],
        last=values["last"],
        run_by=values["run_by"],
        also=frozenset(Family(one) for one in values["also"]),
    )


def print_tonight(made: Tonight) -> None:
    """Print the answer: what it cost, what to train, the sheet line by line."""
    for sentence in made.answer:
        click.echo(sentence)
    if made.games:
        shown = "; ".join(made.games[-_SHOWN:])
        more = len(made.games) - _SHOWN
        first = f"{more} earlier ones and " if more > 0 else ""
        click.echo(f"Counted in {len(made.games)} games of {made.focus_name}: {first}{shown}.")
    click.echo("")
    print_sheet(made.sheet)


def print_sheet(sheet: Any) -> None:
    """Print a sheet as text: clock times, drills, a line for every goaltender, reasons."""
    parts = (sheet.title, sheet.team, f"{sheet.day:%A %d %B %Y}", sheet.place)
    click.echo(", ".join(part for part in parts if part))
    for one in sheet.segments:
        click.echo(f"{one.begin:%H:%M}-{one.end:%H:%M}  {one.title} ({one.kind.value})")
        if one.kind.value == "pause":
            continue
        for station in one.stations:
            who = f" (run by {station.run_by})" if station.run_by else ""
            click.echo(f"             {station.name}, {station.place}{who}, at the same time:")
            for line in station.lines:
                click.echo(f"               {line.names}: {line.text}")
        for line in one.lines_beside:
            click.echo(f"             {line.names}, {line.station}: {line.text}")
        for reason in one.reasons:
            click.echo(f"             why: {reason}")
    click.echo("")
    for load in sheet.loads:
        click.echo(f"{load.name}: {load.words}.")
    for check in sheet.broken:
        click.echo(f"Note, {check.name} ({check.rule}, {check.level.value}): {check.text}.")
    for text in (*sheet.notes, *(f"Dropped: {one}" for one in sheet.dropped)):
        click.echo(text)
    click.echo("Before the first drill: " + " ".join(sheet.cautions))
