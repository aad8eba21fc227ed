"""What the same shot would have cost from the recommended place: the engine asked for real."""

import math

import pytest

from tendline.base import Level, Settings, ShotResult, ShotType
from tendline.body import build_goaltender
from tendline.ice import rink
from tendline.log import (
    Cause,
    Context,
    CostSum,
    Judge,
    Readiness,
    expectation,
    findings,
    replay,
    why_it_cost,
)
from tendline.motion import motion_parameters
from tendline.play import Attacker, Goaltender, OptionKind, Situation, read
from tests.log.samples import set_up, shot

LEVEL = Level.U15
PLAIN = Context(screened=False)
"""Enough said for a clear shot, but neither her place nor her readiness."""
GOAL, SAVE = ShotResult.GOAL, ShotResult.SAVE_HELD


@pytest.fixture(scope="module")
def judge():
    goaltender = Goaltender(
        build=build_goaltender(1.63, level=LEVEL), motion=motion_parameters(LEVEL)
    )
    return Judge(goaltender, level=LEVEL, rink=rink())


def shots(*events):
    return replay([set_up(), *events]).shots


def cost(judge, *events):
    return why_it_cost(shots(*events), judge).by_shot


def on_the_line(x, y, depth, off=0.0):
    """Return a place at a depth on the puck's line, moved ``off`` to her left of it (by hand)."""
    away = math.hypot(x, y)
    return {
        "goaltender_x": (depth * x - off * y) / away,
        "goaltender_y": (depth * y + off * x) / away,
    }


def test_a_set_goaltender_in_the_recommended_place_costs_only_the_chance(judge):
    depth = judge.lone_depth(8.0, 3.0)
    context = Context(readiness=Readiness.SET, **on_the_line(8.0, 3.0, depth))
    found = cost(judge, shot("a", x=8.0, y=3.0, result=GOAL, context=context))["a"]
    assert found.was == pytest.approx(found.best, abs=1e-6)
    assert found.position == pytest.approx(0.0, abs=1e-6)
    assert found.timing == pytest.approx(0.0, abs=1e-6)


def test_standing_off_the_line_costs_and_is_called_position(judge):
    context = Context(readiness=Readiness.SET, **on_the_line(5.0, 2.0, 1.0, off=0.6))
    found = cost(judge, shot("a", x=5.0, y=2.0, result=GOAL, context=context))["a"]
    assert found.position > 0.05
    assert found.main is Cause.POSITION
    assert "of the chance" in found.sure


def test_still_moving_costs_and_is_called_timing(judge):
    late = cost(
        judge, shot("a", x=7.0, y=2.0, result=GOAL, context=Context(readiness=Readiness.MOVING))
    )["a"]
    still = cost(
        judge, shot("a", x=7.0, y=2.0, result=GOAL, context=Context(readiness=Readiness.SET))
    )["a"]
    assert late.timing > 0.0
    assert late.was > still.was
    assert late.best == still.best


def test_being_later_costs_more(judge):
    context = Context(readiness=Readiness.MOVING)
    costs = []
    for delay in (0.05, 0.12, 0.25):
        slow = Judge(
            judge.goaltender,
            level=LEVEL,
            rink=rink(),
            settings=Settings.of({"log.moving_delay": delay}),
        )
        costs.append(cost(slow, shot("a", x=7.0, y=2.0, result=GOAL, context=context))["a"].was)
    assert costs == sorted(costs)
    assert costs[0] < costs[-1]


def test_a_shot_that_should_be_stopped_is_put_down_to_execution_or_luck(judge):
    far = shot("a", x=16.0, y=4.0, result=GOAL, context=Context(readiness=Readiness.SET))
    found = cost(judge, far)["a"]
    assert found.main is Cause.EXECUTION
    assert "or luck: such a shot scores" in found.sure


def test_a_hard_chance_is_called_chance_quality(judge):
    hard = shot(
        "a", x=3.0, y=3.0, result=GOAL,
        context=Context(readiness=Readiness.SET, pass_x=4.0, pass_y=-4.0, since_pass=0.3, one_timer=True),
    )  # fmt: skip
    found = cost(judge, hard)["a"]
    assert found.main is Cause.CHANCE_QUALITY


def test_staying_with_the_passer_is_called_read(judge):
    place = on_the_line(7.0, -5.0, 1.1)  # on the passer's line, not the shooter's
    context = Context(readiness=Readiness.SET, pass_x=7.0, pass_y=-5.0, since_pass=1.5, **place)
    found = cost(judge, shot("a", x=6.0, y=4.0, result=GOAL, context=context))["a"]
    assert found.position_is_read
    assert found.main is Cause.READ


def test_a_shot_after_a_pass_is_met_as_the_engine_answers_that_pass(judge):
    (only,) = shots(
        shot("a", x=3.0, y=3.0, result=SAVE,
             context=Context(pass_x=4.0, pass_y=-4.0, since_pass=0.3, one_timer=True))
    )  # fmt: skip
    situation = Situation(
        rink=rink(), carrier=Attacker(name="F1", x=4.0, y=-4.0),
        mates=(Attacker(name="F2", x=3.0, y=3.0),), level=LEVEL,
    )  # fmt: skip
    found = read(situation, judge.goaltender, judge.parameters, detail=False)
    answer = next(one for one in found.options if one.option.kind is OptionKind.ONE_TIMER)
    met = judge.best(only, None)
    assert (met.x, met.y) == (answer.reply.at_release.x, answer.reply.at_release.y)


def test_a_quick_rebound_on_the_other_side_costs_more_than_a_slow_one(judge):
    def rebound(since):
        events = (
            shot("a", x=9.0, y=5.0, result=SAVE, elapsed=100.0, context=PLAIN),
            shot("b", x=2.5, y=-1.5, result=SAVE, elapsed=100.0 + since),
        )
        return cost(judge, *events)["b"].best

    assert rebound(0.5) > rebound(3.0)


def test_a_rebound_at_once_finds_her_where_the_first_shot_left_her(judge):
    first, second = shots(
        shot("a", x=9.0, y=5.0, result=SAVE, context=PLAIN),
        shot("b", x=2.5, y=-1.5, result=SAVE, context=Context(since_shot=0.1)),
    )
    met, depth = judge.best(second, first), judge.lone_depth(9.0, 5.0)
    away = math.hypot(9.0, 5.0)
    assert (met.x, met.y) == pytest.approx((depth * 9.0 / away, depth * 5.0 / away), abs=0.05)
    assert met.held == 1


def test_without_her_place_and_readiness_only_the_chance_is_known(judge):
    found = cost(judge, shot("a", x=7.0, y=2.0, result=GOAL, context=PLAIN))["a"]
    assert found.was is None
    assert found.main is None
    assert found.sure.startswith("not known")
    costs = why_it_cost(shots(shot("a", x=7.0, y=2.0, result=GOAL, context=PLAIN)), judge)
    assert "were not noted for any shot" in costs.total().words


@pytest.mark.parametrize(
    "event",
    [
        shot("a", x=-1.0, y=1.0, result=GOAL, context=PLAIN),
        shot("a", x=3.0, y=1.0, result=GOAL, shot_type=ShotType.TIP, context=PLAIN),
        shot("a", x=3.0, y=1.0, result=ShotResult.WIDE, context=PLAIN),
        shot("a", x=3.0, y=1.0, result=GOAL),
        shot("a", x=3.0, y=1.0, result=GOAL, context=Context(empty_net=True)),
    ],
)
def test_shots_that_the_engine_cannot_answer_are_left_out(judge, event):
    assert cost(judge, event) == {}


def test_the_parts_add_up_to_the_goals(judge):
    events = [
        shot(f"s{i}", x=4.0 + i % 5, y=(i % 7) - 3.0, result=GOAL if i % 4 == 0 else SAVE,
             context=Context(readiness=Readiness.MOVING if i % 3 else Readiness.SET,
                             **(on_the_line(5.0, 2.0, 1.0, 0.4) if i % 2 else {})))
        for i in range(24)
    ]  # fmt: skip
    costs = why_it_cost(shots(*events), judge)
    total = costs.total()
    parts = total.quality + total.position + total.read + total.timing + total.execution
    assert total.shots == 24
    assert parts == pytest.approx(total.goals, abs=1e-9)
    assert total.spread > 0
    assert total.places == 12
    assert total.words.startswith("6 goals on 24 shots")
    some = costs.total([one for one in shots(*events) if one.id in ("s0", "s1")])
    assert some.shots == 2


def test_left_and_right_cost_the_same_for_a_mirrored_goaltender(judge):
    """The hand makes a small difference; place and timing must not depend on the side."""
    for context in (Context(readiness=Readiness.SET), Context(readiness=Readiness.MOVING)):
        left = cost(judge, shot("a", x=7.0, y=3.0, result=SAVE, context=context))["a"]
        right = cost(judge, shot("a", x=7.0, y=-3.0, result=SAVE, context=context))["a"]
        assert left.best == pytest.approx(right.best, abs=0.03)


def test_the_engines_chances_reach_the_findings(judge):
    events = [
        shot(f"s{i}", x=7.0, y=2.0, result=GOAL if i < 3 else SAVE,
             context=Context(readiness=Readiness.SET, screened=False))
        for i in range(40)
    ] + [
        shot(f"m{i}", x=7.0, y=2.0, result=GOAL if i < 8 else SAVE,
             context=Context(readiness=Readiness.MOVING, screened=False))
        for i in range(14)
    ]  # fmt: skip
    played = shots(*events)
    costs = why_it_cost(played, judge)
    found = findings(played, costs=costs.chances, causes=costs.causes)
    assert found.themes[0].theme == "being set"
    assert "engine" in found.source
    assert sum(expectation(played, costs.chances).chances.values()) == pytest.approx(11, abs=1e-6)


def test_published_rates_are_brought_to_the_engines_scale():
    played = shots(
        *(shot(f"s{i}", x=8.0, y=0.0, result=SAVE) for i in range(10)),
        shot("t", x=8.0, y=0.0, result=GOAL, shot_type=ShotType.WRIST),
    )
    costs = {f"s{i}": 0.02 for i in range(10)}
    found = expectation(played, costs).chances
    # the eleventh shot is like the others, so it must get the same chance as they
    assert found["t"] == pytest.approx(found["s0"], rel=1e-6)


def split(**changes):
    given = {
        "shots": 50, "goals": 12, "quality": 4.0, "position": 1.0, "read": 0.0, "timing": 1.0,
        "execution": 6.0, "spread": 2.0, "places": 50,
    }  # fmt: skip
    return CostSum(**{**given, **changes}).words


def test_the_split_says_only_what_matters_and_how_far_chance_goes():
    words = split()
    assert "expects 6.0: 4.0 by the chances themselves, 1.0 by her place, 1.0 by not" in words
    assert "reading another play" not in words
    assert "6.0 more than that: the save itself, or numbers of her level" in words
    assert "noted for" not in words
    assert "The difference of 3.0 is no more than chance gives" in split(goals=9, execution=3.0)
    assert "5.0 fewer than that" in split(goals=1, execution=-5.0)
    assert "Her place was noted for 9 of these shots." in split(places=9)


def test_a_pass_that_the_engine_cannot_read_falls_back_to_the_line(judge):
    at_the_post = Context(readiness=Readiness.SET, pass_x=0.5, pass_y=1.0, since_pass=0.5)
    off_the_ice = Context(readiness=Readiness.SET, pass_x=9.0, pass_y=40.0, since_pass=0.5)
    for context in (at_the_post, off_the_ice):
        (only,) = shots(shot("a", x=7.0, y=3.0, result=SAVE, context=context))
        met, depth = judge.best(only, None), judge.lone_depth(7.0, 3.0)
        assert math.hypot(met.x, met.y) == pytest.approx(depth, abs=1e-6)


def test_a_shot_from_inside_her_has_no_answer(judge):
    inside = Context(readiness=Readiness.SET, goaltender_x=1.0, goaltender_y=0.0)
    found = cost(judge, shot("a", x=1.05, y=0.0, result=GOAL, context=inside))
    assert set(found) <= {"a"}  # left out, or answered from the recommended place only
