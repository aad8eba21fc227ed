"""The season on one page: four eight-week stages over real dates, planned against done.

Stages and their themes after the USA Hockey goaltending season plan (four stages of eight weeks:
foundation, skills, game recognition, performance), in our own words. A week trains two themes;
which two is decided by what the stage still owes each theme, so that a lost practice is made up
by the weeks that are left. Weeks that lie before a change are never touched by it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from tendline.base import InputError, ScoringSituation, require_number
from tendline.drill.vocabulary import Theme
from tendline.practice.types import Need

THEMES_A_WEEK = 2
_LONGEST = 60
_DAYS = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One stage of the season: its name, its length, and what it trains."""

    name: str
    weeks: int
    themes: tuple[Theme, ...]
    words: str


STAGES: tuple[Stage, ...] = (
    Stage(
        name="foundation", weeks=8,
        themes=(Theme.STANCE, Theme.MOVEMENT, Theme.SAVE_TECHNIQUE, Theme.ANGLE),
        words="stance and habits, skating sideways, the basic saves, where to stand",
    ),
    Stage(
        name="skills", weeks=8,
        themes=(
            Theme.RECOVERY, Theme.PUCK_HANDLING, Theme.TRACKING, Theme.DEPTH,
            Theme.REBOUND_CONTROL,
        ),
        words="getting up, the puck on her stick, tracking, depth and rebounds",
    ),
    Stage(
        name="game recognition", weeks=8,
        themes=(Theme.LATERAL, Theme.SCREENS, Theme.POST_PLAY, Theme.BREAKAWAY),
        words="plays across, traffic, play at the posts, alone against one",
    ),
    Stage(
        name="performance", weeks=8,
        themes=(Theme.READING, Theme.RUSH, Theme.REBOUND_CONTROL),
        words="what the goaltender herself needs most",
    ),
)  # fmt: skip


SITUATIONS_OF_THEME: dict[Theme, tuple[ScoringSituation, ...]] = {
    Theme.TRACKING: (ScoringSituation.CLEAR_SHOT,),
    Theme.REBOUND_CONTROL: (ScoringSituation.REBOUND,),
    Theme.LATERAL: (ScoringSituation.EAST_WEST,),
    Theme.SCREENS: (ScoringSituation.SCREEN, ScoringSituation.DEFLECTION),
    Theme.POST_PLAY: (ScoringSituation.BELOW_GOAL_LINE,),
    Theme.BREAKAWAY: (ScoringSituation.BREAKAWAY,),
    Theme.RUSH: (ScoringSituation.ENTRY, ScoringSituation.NET_DRIVE),
    Theme.READING: (ScoringSituation.LOW_HIGH,),
}
"""The scoring situations that a theme prepares for; the others prepare for all of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeDay:
    """One practice of the season: how many minutes the goaltenders have for themselves."""

    day: date
    minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """Days without practice: a school holiday, a tournament."""

    first: date
    last: date
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """One week of the plan; ``number`` counts from 1."""

    number: int
    monday: date
    stage: str
    themes: tuple[Theme, ...]
    days: tuple[PracticeDay, ...]
    words: str = ""

    @property
    def minutes(self) -> int:
        """Return the goaltender minutes of the week."""
        return sum(one.minutes for one in self.days)

    def minutes_for(self, theme: Theme) -> float:
        """Return the minutes of the week for one theme: shared equally between its themes."""
        return self.minutes / len(self.themes) if theme in self.themes else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonPlan:
    """A season laid over dates."""

    weeks: tuple[Week, ...]
    stages: tuple[Stage, ...] = STAGES

    def week_of(self, day: date) -> Week | None:
        """Return the week that holds a day, or None outside the season."""
        monday = monday_of(day)
        return next((one for one in self.weeks if one.monday == monday), None)

    def minutes_for(self, theme: Theme, *, until: date | None = None) -> float:
        """Return the planned minutes for a theme, up to and including a day if one is given."""
        return sum(
            _until(week, until).minutes_for(theme) for week in self.weeks if theme in week.themes
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """Minutes really spent on a theme on a day."""

    day: date
    theme: Theme
    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverage:
    """Planned against done, in minutes, for one theme up to a day."""

    theme: Theme
    situations: tuple[ScoringSituation, ...]
    planned: float
    done: float

    @property
    def words(self) -> str:
        """Return the line as text, for example ``'rebounds: 25 of 40 min'``."""
        return f"{self.theme.value}: {self.done:.0f} of {self.planned:.0f} min"


def monday_of(day: date) -> date:
    """Return the Monday of a day's week."""
    return day - timedelta(days=day.weekday())


def practice_days(
    *,
    start: date,
    weekdays: Iterable[int],
    weeks: int,
    minutes: int,
    breaks: Sequence[Break] = (),
) -> tuple[PracticeDay, ...]:
    """Return every practice of a season from its weekdays (0 = Monday), less the breaks."""
    require_number("weeks of the season", weeks, low=1, high=_LONGEST, unit="weeks")
    wanted = sorted(set(weekdays))
    for one in wanted:
        require_number("weekday", one, low=0, high=_DAYS - 1, unit="")
    monday = monday_of(start)
    days = [
        monday + timedelta(days=_DAYS * week + weekday)
        for week in range(weeks)
        for weekday in wanted
    ]
    return tuple(
        PracticeDay(day=day, minutes=minutes)
        for day in days
        if day >= start and not any(one.first <= day <= one.last for one in breaks)
    )


def season_plan(
    *,
    start: date,
    days: Sequence[PracticeDay],
    breaks: Sequence[Break] = (),
    stages: tuple[Stage, ...] = STAGES,
) -> SeasonPlan:
    """Return the stages laid over real dates from the week of ``start``.

    Every stage shares its minutes equally among its themes as nearly as whole weeks allow. Raises
    ``InputError`` for a practice outside the season.
    """
    first = monday_of(start)
    length = sum(one.weeks for one in stages)
    last = first + timedelta(days=_DAYS * length - 1)
    for one in days:
        if not first <= one.day <= last:
            raise InputError(
                "a practice must lie in the season", came=one.day.isoformat(),
                allowed=f"{first.isoformat()} to {last.isoformat()}",
            )  # fmt: skip
    weeks = []
    number = 0
    for stage in stages:
        for _ in range(stage.weeks):
            monday = first + timedelta(days=_DAYS * number)
            number += 1
            weeks.append(
                Week(
                    number=number, monday=monday, stage=stage.name, themes=(),
                    days=tuple(d for d in days if monday_of(d.day) == monday),
                    words=_break_words(monday, breaks),
                )
            )  # fmt: skip
    return _with_themes(SeasonPlan(weeks=tuple(weeks), stages=stages), first)


def change_plan(
    plan: SeasonPlan,
    *,
    today: date,
    lost: Iterable[date] = (),
    added: Iterable[PracticeDay] = (),
) -> SeasonPlan:
    """Return the plan with practices lost or added; weeks before ``today`` stay as they were.

    The weeks from today's on are dealt out afresh, so that what a stage still owes a theme comes
    back. Raises ``InputError`` for a change before today's week.
    """
    gone, new = frozenset(lost), tuple(added)
    now = monday_of(today)
    for day in (*gone, *(one.day for one in new)):
        if day < now:
            raise InputError(
                "a change must not reach into past weeks", came=day.isoformat(),
                allowed=f"{now.isoformat()} or later",
                hint="Past weeks keep what was planned; write what was done instead.",
            )  # fmt: skip
    weeks = tuple(
        one
        if one.monday < now
        else replace(
            one,
            days=tuple(
                sorted(
                    [d for d in one.days if d.day not in gone]
                    + [d for d in new if monday_of(d.day) == one.monday],
                    key=lambda d: d.day,
                )
            ),
        )
        for one in plan.weeks
    )
    return _with_themes(replace(plan, weeks=weeks), now)


def coverage(plan: SeasonPlan, done: Sequence[Done], *, at: date) -> tuple[Coverage, ...]:
    """Return planned against done minutes by theme, up to and including a day."""
    spent: dict[Theme, float] = defaultdict(float)
    for one in done:
        if one.day <= at:
            spent[one.theme] += one.minutes
    planned = {theme: plan.minutes_for(theme, until=at) for theme in Theme}
    return tuple(
        Coverage(
            theme=theme,
            situations=SITUATIONS_OF_THEME.get(theme, ()),
            planned=planned[theme],
            done=spent[theme],
        )
        for theme in Theme
        if planned[theme] or spent[theme]
    )


def by_situation(rows: Sequence[Coverage]) -> tuple[tuple[ScoringSituation, float, float], ...]:
    """Return (situation, planned, done) minutes: a theme's minutes shared among its situations."""
    planned: dict[ScoringSituation, float] = defaultdict(float)
    done: dict[ScoringSituation, float] = defaultdict(float)
    for row in rows:
        for situation in row.situations:
            planned[situation] += row.planned / len(row.situations)
            done[situation] += row.done / len(row.situations)
    return tuple((one, planned[one], done[one]) for one in ScoringSituation)


def stage_need(plan: SeasonPlan, day: date) -> tuple[str, tuple[Need, ...]]:
    """Return the stage on a day and its themes of the week as a need; empty outside the season."""
    week = plan.week_of(day)
    if week is None:
        return "", ()
    themes = week.themes or next(one.themes for one in plan.stages if one.name == week.stage)
    names = tuple(one.value for one in themes)
    return week.stage, (Need(name=" and ".join(names), themes=names, is_stage=True),)


def _with_themes(plan: SeasonPlan, since: date) -> SeasonPlan:
    """Deal the themes of each stage to its weeks from ``since`` on, by what is still owed."""
    weeks = list(plan.weeks)
    for stage in plan.stages:
        own = [at for at, one in enumerate(weeks) if one.stage == stage.name]
        total = sum(weeks[at].minutes for at in own)
        owed = {theme: total / len(stage.themes) for theme in stage.themes}
        for at in own:
            week = weeks[at]
            if week.monday >= since:
                order = sorted(stage.themes, key=lambda t: (-owed[t], stage.themes.index(t)))
                week = replace(week, themes=tuple(order[:THEMES_A_WEEK]))
                weeks[at] = week
            for theme in week.themes:
                owed[theme] = owed.get(theme, 0.0) - week.minutes_for(theme)
    return replace(plan, weeks=tuple(weeks))


def _until(week: Week, day: date | None) -> Week:
    if day is None:
        return week
    return replace(week, days=tuple(one for one in week.days if one.day <= day))


def _break_words(monday: date, breaks: Sequence[Break]) -> str:
    sunday = monday + timedelta(days=_DAYS - 1)
    return "; ".join(one.words for one in breaks if one.first <= sunday and one.last >= monday)
