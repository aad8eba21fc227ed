"""The season from the club's file: planned against done."""

from datetime import date

import pytest

from tendline.drill.vocabulary import Theme
from tendline.store import Practice, open_store
from tendline.work.demo import TODAY, open_demo
from tendline.work.drills import all_drills, find_drill
from tendline.work.season import coverage_at, done_minutes, plan_for


@pytest.fixture
def demo(tmp_path):
    with open_demo(tmp_path / "demo.db") as opened:
        yield opened


def test_the_demo_season_is_laid_over_its_dates(demo):
    plan = plan_for(start=demo.club.get().season_start)
    assert plan.week_of(TODAY).number == 12
    assert plan.week_of(TODAY).stage == "skills"


def test_minutes_done_are_shared_among_a_drills_themes(demo):
    done = done_minutes(demo)
    assert {one.day for one in done} == {
        date(2026, 11, 10), date(2026, 11, 12), date(2026, 11, 17), date(2026, 11, 19),
    }  # fmt: skip
    first = [one for one in done if one.day == date(2026, 11, 10)]
    known = {one.id for one in all_drills(demo)}
    wanted = 5.0 * len({"M05", "M03"} & known)  # by hand: ten minutes, two drills
    assert sum(one.minutes for one in first) == pytest.approx(wanted)


def test_a_saved_sheet_counts_its_own_minutes(tmp_path):
    with open_store(tmp_path / "own.db") as own:
        themes = find_drill(all_drills(own), "M05").themes
        sheet = {"segments": [
            {"drill_id": "M05", "minutes": 6, "kind": "goaltender block"},
            {"drill_id": "G01", "minutes": 8, "kind": "team drill"},
        ]}  # fmt: skip
        own.practices.save(Practice(id="p", day=TODAY, team="", sheet=sheet))
        done = done_minutes(own)
        assert sum(one.minutes for one in done) == pytest.approx(6)
        assert {one.theme for one in done} == set(themes)


def test_planned_against_done_up_to_a_day(demo):
    plan = plan_for(start=demo.club.get().season_start)
    rows = coverage_at(demo, plan, TODAY)
    planned = sum(one.planned for one in rows)
    assert planned == pytest.approx(10 * 23)  # two practices in 11 weeks, one in the twelfth
    assert all(isinstance(one.theme, Theme) for one in rows)
