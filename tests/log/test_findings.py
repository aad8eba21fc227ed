"""What the games say to train: counts, caution, chance, refusals."""

import random

import numpy as np
import pytest

from tendline.base import ScoringSituation, Settings, ShotResult
from tendline.drill import vocabulary
from tendline.log import (
    THEMES,
    Cause,
    Context,
    GoalRating,
    Readiness,
    Weight,
    expectation,
    findings,
    published_chance,
    replay,
)
from tendline.log.baseline import BASELINE_CONSTANTS, chance_by_place
from tests.log.samples import set_up, shot

S = ScoringSituation


def season(*groups, extra=()):
    """Return shots from (situation, shots, goals, readiness) groups, all from the same place."""
    events = [set_up()]
    for situation, shots, goals, readiness in groups:
        for index in range(shots):
            events.append(
                shot(
                    f"e{len(events)}",
                    x=8.0,
                    y=0.0,
                    situation=situation,
                    result=ShotResult.GOAL if index < goals else ShotResult.SAVE_HELD,
                    context=Context(readiness=readiness),
                )
            )
    return replay([*events, *extra]).shots


LATE = season((S.CLEAR_SHOT, 60, 4, Readiness.SET), (S.CLEAR_SHOT, 20, 9, Readiness.MOVING))


def test_what_stands_out_is_found_with_its_counts():
    found = findings(LATE, stage_theme="recoveries")
    (only,) = found.themes
    assert (only.theme, only.count, only.of, only.shots) == ("being set", 9, 13, 20)
    assert only.expected == pytest.approx(13 * 20 / 80)  # by hand: all shots alike
    # by hand: 3.25 goals to expect, (9 + 4) / (3.25 + 4) - 1 = 0.793 of them in excess
    assert only.excess == pytest.approx(2.578, abs=0.001)
    assert only.weight is Weight.ERROR
    assert (only.share.of, only.scored.of) == (13, 20)
    assert only.situations == (S.CLEAR_SHOT,)  # where its goals fell
    assert only.words.startswith("9 of 13 goals came while she was still moving (20 such shots")
    assert found.answer[-1].startswith("Train being set; 50 in 100 of the time stays with the st")


def test_the_stages_theme_keeps_its_share():
    assert findings(LATE).stage_share == 0.5
    kept = Settings.of({"log.corrective_share": 0.2})
    found = findings(LATE, settings=kept)
    assert found.stage_share == pytest.approx(0.8)
    assert sum(one.share_of_time for one in found.themes) == pytest.approx(0.2)


def test_at_most_two_themes():
    shots = season(
        (S.CLEAR_SHOT, 150, 3, Readiness.SET),
        (S.SCREEN, 14, 8, Readiness.SET),
        (S.ENTRY, 14, 8, Readiness.SET),
        (S.LOW_HIGH, 14, 8, Readiness.SET),
    )
    found = findings(shots)
    assert len(found.themes) == 2
    assert len([one for one in found.others if one.weight is Weight.ERROR]) >= 1


def test_a_refused_theme_stays_out_and_is_named():
    found = findings(LATE, refused={"being set"})
    assert found.themes == ()
    assert found.refused == ("being set",)
    assert found.stage_share == 1.0


def test_a_second_theme_with_the_same_goals_is_not_said_twice():
    shots = season(
        (S.CLEAR_SHOT, 100, 4, Readiness.SET),
        (S.SCREEN, 16, 9, Readiness.MOVING),
    )
    assert len(findings(shots).themes) == 1


def test_with_few_goals_nothing_is_claimed():
    found = findings(season((S.CLEAR_SHOT, 20, 1, Readiness.SET), (S.SCREEN, 3, 3, Readiness.SET)))
    assert found.themes == ()
    assert "too few to say" in found.answer[0]


def test_no_shots_at_all_is_no_error():
    found = findings(())
    assert (found.shots, found.goals, found.themes) == (0, 0, ())
    assert "too few to say" in found.answer[0]


def test_hard_chances_are_the_teams_matter_not_hers():
    # rebounds score as often as rebounds do: published rate, so no error of hers
    shots = season((S.CLEAR_SHOT, 100, 11, Readiness.SET), (S.REBOUND, 30, 9, Readiness.SET))
    found = findings(shots)
    assert "rebound" not in [one.theme for one in found.themes]
    assert any("on rebounds" in one and "team's defending" in one for one in found.chances)


def test_goals_rated_as_no_chance_do_not_make_a_theme():
    goals = [one.id for one in LATE if one.is_goal and one.context.readiness is Readiness.MOVING]
    ratings = [GoalRating(id=f"r{name}", shot=name, rating=0) for name in goals]
    rated = season(
        (S.CLEAR_SHOT, 60, 4, Readiness.SET), (S.CLEAR_SHOT, 20, 9, Readiness.MOVING), extra=ratings
    )
    found = findings(rated)
    assert "being set" not in [one.theme for one in found.themes]


def test_causes_are_counted_and_a_rating_wins_over_the_engine():
    goals = [one.id for one in LATE if one.is_goal and one.context.readiness is Readiness.MOVING]
    shots = season(
        (S.CLEAR_SHOT, 60, 4, Readiness.SET),
        (S.CLEAR_SHOT, 20, 9, Readiness.MOVING),
        extra=[GoalRating(id="r", shot=goals[0], rating=1, cause=Cause.READ)],
    )
    causes = dict.fromkeys(goals, Cause.TIMING)
    (only,) = findings(shots, causes=causes).themes
    assert dict(only.causes) == {Cause.TIMING: 8, Cause.READ: 1}


def test_the_engines_costs_replace_the_published_ones():
    costs = {one.id: 0.5 if one.context.readiness is Readiness.MOVING else 0.05 for one in LATE}
    found = findings(LATE, costs=costs)
    assert found.themes == ()  # the shots were as hard as that
    assert "engine" in found.source


def test_the_same_games_give_the_same_answer():
    assert findings(LATE) == findings(LATE)


def test_expected_goals_add_up_to_the_goals():
    found = expectation(LATE)
    assert sum(found.chances.values()) == pytest.approx(13, abs=1e-6)
    assert all(0 < one < 1 for one in found.chances.values())


@pytest.mark.parametrize("goals", [0, 5])
def test_expectation_stays_inside_its_bounds_with_no_goal_and_with_nothing_else(goals):
    shots = season((S.CLEAR_SHOT, 5, goals, Readiness.SET))
    wanted = 0.5 if goals == 0 else 4.5
    assert sum(expectation(shots).chances.values()) == pytest.approx(wanted, abs=1e-6)


@pytest.mark.parametrize(
    ("feet", "degrees", "chance"),
    [(20, 0, 0.145), (40, 45, 0.033)],  # published beside the fit: worked examples of facts.md
)
def test_the_chance_by_place_is_the_published_one(feet, degrees, chance):
    found = chance_by_place(feet * 0.3048, np.radians(degrees))
    assert found == pytest.approx(chance, abs=0.0006)


def test_situations_with_a_published_rate_take_the_higher():
    (rebound,) = season((S.REBOUND, 1, 0, Readiness.SET))
    (clear,) = season((S.CLEAR_SHOT, 1, 0, Readiness.SET))
    assert published_chance(rebound) == pytest.approx(0.328)  # published: NHL 2009-10
    assert published_chance(clear) < 0.2


def test_every_baseline_figure_names_its_source():
    assert all(one.source for one in BASELINE_CONSTANTS)


def test_theme_words_are_words_of_the_drill_script():
    known = {one.value for one in vocabulary.Theme}
    for one in THEMES:
        assert set(one.drills) <= known, one.name


def plain_shot(index, draw):
    return shot(
        f"e{index}",
        x=draw.uniform(3, 14),
        y=draw.uniform(-6, 6),
        situation=draw.choice(tuple(S)),
        result=ShotResult.GOAL if draw.random() < 0.13 else ShotResult.SAVE,
        context=Context(readiness=draw.choice(tuple(Readiness))),
    )


def test_chance_alone_rarely_finds_something_hard_to_explain():
    """With nothing to find, 'hard to explain by chance' is said about as rarely as it claims."""
    said = 0
    for seed in range(40):
        draw = random.Random(seed)
        shots = replay([set_up(), *(plain_shot(index, draw) for index in range(110))]).shots
        found = findings(shots, costs={one.id: 0.13 for one in shots})
        said += any(one.chance_alone < 0.05 for one in (*found.themes, *found.others))
    assert said <= 7  # by hand: a binomial of 40 at 0.05 exceeds 7 once in 1,400
