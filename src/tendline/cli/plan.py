"""``tendline plan``: tonight's plan again when the ice or the people change."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Any

import click

from tendline.cli.evening import evening_of, evening_options, print_sheet
from tendline.cli.frame import Command, json_option, print_json, session_of, step


@click.command(
    cls=Command,
    examples=(
        "tendline --demo plan --half",
        "tendline --demo plan --without milo --lose-minutes 15",
        "tendline --demo plan --rules",
    ),
)
@evening_options
@click.option("--half", is_flag=True, help="Half the ice is gone.")
@click.option("--lose-minutes", type=click.IntRange(1), default=None, help="Minutes lost.")
@click.option("--without", multiple=True, help="A goaltender who is not there after all, by id.")
@click.option("--rules", is_flag=True, help="List the rules of a plan with their origins.")
@json_option
@click.pass_context
def plan(
    context: click.Context,
    /,
    half: bool,
    lose_minutes: int | None,
    without: tuple[str, ...],
    rules: bool,
    as_json: bool,
    **values: Any,
) -> None:
    """Plan again after a change and list what was dropped.

    Makes tonight's plan as 'tendline tonight' would, then changes it: half the ice, fewer minutes,
    a goaltender fewer. What still fits is kept.
    """
    from tendline.ice import rink
    from tendline.practice import RULES, Change, replan, sheet_to_dict, space
    from tendline.work.tonight import tonight

    if rules:
        if as_json:
            print_json(list(RULES.values()))
            return
        for one in RULES.values():
            limit = f"; limit {one.limit.value:g} {one.limit.unit}" if one.limit else ""
            click.echo(f"{one.id}: {one.name} ({one.level.value}{limit}; {one.origin})")
        return
    with session_of(context).store() as store:
        made = tonight(store, evening_of(values, datetime.now(), store), tell=step)
        settings = store.choices.settings()
        sheet = made.sheet
        if half or lose_minutes or without:
            slot = made.request.slot
            smaller = space("half ice", rink(store.club.get().rule_set))
            change = Change(
                space=replace(smaller, nets=min(smaller.nets, slot.space.nets)) if half else None,
                minutes=max(1, slot.minutes - lose_minutes) if lose_minutes else None,
                without=frozenset(without),
            )
            with step("Planning again"):
                sheet = replan(made.request, sheet, change, made.drills, settings=settings)
    if as_json:
        print_json(sheet_to_dict(sheet))
    else:
        print_sheet(sheet)
