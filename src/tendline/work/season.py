"""The season plan from the club's file: stages over dates, planned minutes against done."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from tendline.drill.vocabulary import Theme
from tendline.practice import (
    STAGES,
    Break,
    Coverage,
    Done,
    SeasonPlan,
    coverage,
    practice_days,
    season_plan,
)
from tendline.practice.constants import BLOCK_MINUTES
from tendline.store import Store
from tendline.work.drills import all_drills

USUAL_WEEKDAYS = (1, 3)
"""Tuesday and Thursday, until the coach says otherwise."""


def plan_for(
    *,
    start: date,
    weekdays: Iterable[int] = USUAL_WEEKDAYS,
    minutes: int = round(BLOCK_MINUTES.value),
    breaks: Sequence[tuple[date, date, str]] = (),
) -> SeasonPlan:
    """Return the four stages from ``start``; practices on ``weekdays`` (0 = Monday)."""
    pauses = [Break(first=first, last=last, words=words) for first, last, words in breaks]
    weeks = sum(one.weeks for one in STAGES)
    days = practice_days(
        start=start, weekdays=weekdays, weeks=weeks, minutes=minutes, breaks=pauses
    )
    return season_plan(start=start, days=days, breaks=pauses)


def coverage_at(store: Store, plan: SeasonPlan, day: date) -> tuple[Coverage, ...]:
    """Return planned against done minutes by theme up to a day."""
    return coverage(plan, done_minutes(store), at=day)


def done_minutes(store: Store) -> tuple[Done, ...]:
    """Return the goaltender minutes of saved practices by theme.

    A drill's minutes are shared equally among its themes; a practice without a saved sheet counts
    ``practice.block_minutes`` shared among its drills.
    """
    themes = {one.id: one.themes for one in all_drills(store)}
    found = []
    for practice in store.practices.list():
        segments = practice.sheet.get("segments", ())
        spent = {
            str(one["drill_id"]): float(one["minutes"])
            for one in segments
            if one["kind"] == "goaltender block"
        }
        if not spent:
            named = [str(one) for one in practice.done.get("drills", ())]
            spent = dict.fromkeys(named, BLOCK_MINUTES.value / max(1, len(named)))
        for drill, minutes in spent.items():
            own: tuple[Theme, ...] = themes.get(drill, ())
            found += [Done(day=practice.day, theme=t, minutes=minutes / len(own)) for t in own]
    return tuple(found)
