"""``tendline season``: the stages over real dates, planned against done."""

from __future__ import annotations

from datetime import date, datetime

import click

from tendline.cli.frame import Command, json_option, print_json, print_table, session_of

_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@click.command(
    cls=Command,
    examples=(
        "tendline --demo season",
        "tendline season --start 2026-09-07 --on tue --on thu --json",
        "tendline --demo season --at 2026-11-25",
    ),
)
@click.option("--start", type=click.DateTime(["%Y-%m-%d"]), default=None, help="First day.")
@click.option("--on", "days", type=click.Choice(_DAYS), multiple=True, help="A practice day.")
@click.option("--block", type=click.IntRange(1), default=10, show_default=True,
              help="Goaltender minutes in each practice.")  # fmt: skip
@click.option("--break", "breaks", nargs=3, multiple=True, metavar="FIRST LAST WORDS",
              help="Days without practice: 2026-12-22 2027-01-03 holidays.")  # fmt: skip
@click.option("--at", type=click.DateTime(["%Y-%m-%d"]), default=None,
              help="Show planned against done up to this day.")  # fmt: skip
@json_option
@click.pass_context
def season(
    context: click.Context,
    start: datetime | None,
    days: tuple[str, ...],
    block: int,
    breaks: tuple[tuple[str, str, str], ...],
    at: datetime | None,
    as_json: bool,
) -> None:
    """Lay the four stages of the season over real dates.

    Without options: the club's own season, with two practices a week.
    """
    from tendline.base import InputError
    from tendline.work.season import coverage_at, plan_for

    with session_of(context).store() as store:
        first = start.date() if start else store.club.get().season_start
        if first is None:
            raise InputError("when does the season start?", hint="Give --start YYYY-MM-DD.")
        plan = plan_for(
            start=first, weekdays=[_DAYS.index(one) for one in days] or [1, 3], minutes=block,
            breaks=[(_date(a), _date(b), words) for a, b, words in breaks],
        )  # fmt: skip
        rows = coverage_at(store, plan, at.date()) if at else ()
    if as_json:
        print_json({"weeks": plan.weeks, "coverage": rows})
        return
    if rows:
        print_table(
            ("theme", "planned", "done"),
            [(r.theme.value, f"{r.planned:.0f} min", f"{r.done:.0f} min") for r in rows],
        )
        return
    print_table(
        ("week", "from", "stage", "themes", "minutes", ""),
        [
            (str(w.number), str(w.monday), w.stage, " and ".join(t.value for t in w.themes),
             str(w.minutes), w.words)
            for w in plan.weeks
        ],
    )  # fmt: skip


def _date(text: str) -> date:
    from tendline.base import InputError

    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError("this is not a day", came=f"'{text}'", allowed="YYYY-MM-DD") from None
