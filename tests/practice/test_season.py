"""The season over real dates (expected values by hand)."""

from datetime import date, timedelta

import pytest

from tendline.base import InputError, ScoringSituation
from tendline.drill.vocabulary import Theme
from tendline.practice import (
    STAGES,
    Break,
    Done,
    PracticeDay,
    by_situation,
    change_plan,
    coverage,
    practice_days,
    season_plan,
    stage_need,
)

START = date(2025, 9, 1)  # a Monday
HOLIDAY = Break(first=date(2025, 12, 22), last=date(2026, 1, 4), words="school holidays")
DAYS = practice_days(start=START, weekdays=(1, 3), weeks=32, minutes=10, breaks=(HOLIDAY,))
PLAN = season_plan(start=START, days=DAYS, breaks=(HOLIDAY,))


def test_thirty_two_weeks_in_four_stages_of_eight():
    assert len(PLAN.weeks) == 32
    assert [one.name for one in STAGES] == [
        "foundation", "skills", "game recognition", "performance",
    ]  # fmt: skip
    assert PLAN.weeks[0].monday == START
    assert PLAN.weeks[8].stage == "skills"
    assert PLAN.week_of(date(2026, 1, 13)).stage == "game recognition"


def test_week_eleven_is_in_the_skills_stage():
    assert PLAN.weeks[10].number == 11
    assert PLAN.weeks[10].stage == "skills"


def test_holidays_hold_no_practice_and_are_named():
    week = PLAN.week_of(date(2025, 12, 23))
    assert week.days == ()
    assert week.words == "school holidays"
    assert len(DAYS) == 2 * 30


def test_each_theme_of_a_stage_gets_nearly_equal_minutes():
    first = STAGES[0]
    minutes = [PLAN.minutes_for(theme) for theme in first.themes]
    assert sum(minutes) == 8 * 20
    assert max(minutes) - min(minutes) <= 10  # half a week's minutes


def test_a_change_never_touches_past_weeks():
    today = date(2025, 10, 15)
    lost = [date(2025, 10, 16), date(2025, 10, 21)]
    after = change_plan(PLAN, today=today, lost=lost)
    for before, now in zip(PLAN.weeks, after.weeks, strict=True):
        if before.monday < date(2025, 10, 13):
            assert before == now
    assert after.week_of(today).minutes == 10
    assert PLAN.week_of(today).minutes == 20


def test_what_a_lost_practice_owed_comes_back_in_the_stage():
    today = date(2025, 9, 15)
    lost = [date(2025, 9, 16), date(2025, 9, 18)]
    after = change_plan(PLAN, today=today, lost=lost)
    minutes = [after.minutes_for(theme) for theme in STAGES[0].themes]
    assert sum(minutes) == 7 * 20
    assert max(minutes) - min(minutes) <= 10


def test_the_past_cannot_be_changed():
    with pytest.raises(InputError, match="past weeks"):
        change_plan(PLAN, today=date(2025, 10, 15), lost=[date(2025, 9, 2)])


def test_an_added_practice_lands_in_its_week():
    extra = PracticeDay(day=date(2025, 10, 18), minutes=15)
    after = change_plan(PLAN, today=date(2025, 10, 15), added=[extra])
    assert after.week_of(extra.day).minutes == 35


def test_planned_against_done_at_a_date():
    at = date(2025, 9, 7)
    week = PLAN.weeks[0]
    theme = week.themes[0]
    done = [
        Done(day=date(2025, 9, 2), theme=theme, minutes=4),
        Done(day=at + timedelta(days=1), theme=theme, minutes=30),
    ]
    rows = {one.theme: one for one in coverage(PLAN, done, at=at)}
    assert rows[theme].planned == 10  # 20 minutes, two themes
    assert rows[theme].done == 4
    assert rows[theme].words == f"{theme.value}: 4 of 10 min"


def test_half_a_week_counts_only_what_has_been():
    rows = coverage(PLAN, (), at=date(2025, 9, 2))
    assert sum(one.planned for one in rows) == 10


def test_minutes_by_situation_cover_all_ten():
    rows = by_situation(coverage(PLAN, (), at=date(2026, 4, 30)))
    assert [one for one, _, _ in rows] == list(ScoringSituation)
    planned = {one: minutes for one, minutes, _ in rows}
    assert planned[ScoringSituation.EAST_WEST] == PLAN.minutes_for(Theme.LATERAL)


def test_the_week_gives_the_stage_need():
    stage, needs = stage_need(PLAN, date(2025, 9, 3))
    assert stage == "foundation"
    assert needs[0].is_stage
    assert set(needs[0].themes) == {one.value for one in PLAN.weeks[0].themes}
    assert stage_need(PLAN, date(2027, 1, 1)) == ("", ())


def test_a_practice_outside_the_season_is_refused():
    with pytest.raises(InputError, match="must lie in the season"):
        season_plan(start=START, days=[PracticeDay(day=date(2027, 1, 1), minutes=10)])


def test_a_wrong_weekday_is_refused():
    with pytest.raises(InputError, match="weekday"):
        practice_days(start=START, weekdays=(7,), weeks=4, minutes=10)
