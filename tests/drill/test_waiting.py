"""Lines that wait until she is set: the moment found is the one that the run shows.

The numbers of the engine may change; what is asked here holds for any engine.
"""

import math
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tendline.drill import (
    actions_of,
    check_drill,
    drill_by_id,
    library,
    mirror_drill,
    parse_drill,
    simulate,
)
from tendline.drill.goaltending import HerPlay
from tendline.drill.measuring import STEP
from tendline.drill.vocabulary import TriggerKind
from tendline.drill.waiting import waits_for_her
from tendline.drill.world import world_of
from tests.drill.samples import PASS_AND_SHOT, script

NEAR = 0.05 + 1e-6
"""Moments are looked for in steps of this [s]; numerical."""


def with_wait(trigger, **options):
    """Return the pass and shot whose shot has another trigger."""
    text = PASS_AND_SHOT.replace("when F2 has the puck: F2 stops 1 s\n  F2 shoots",
                                 f"{trigger}: F2 shoots")  # fmt: skip
    for old, new in options.items():
        text = text.replace(old, new)
    return parse_drill(text)


def waits_of(branch):
    """Return the lines of the second repetition that wait for her."""
    lines = branch.attack.lines
    return [one for one in lines[len(lines) // 2 :]
            if one.action.trigger.kind is TriggerKind.SET]  # fmt: skip


def assert_met(drill, run):
    """Every line that waits finds her set on the line, for as long as it says."""
    her = HerPlay(drill, world_of(run.level))
    for branch in run.branches:
        assert branch.in_vain == ()
        for line in waits_of(branch):
            moments = [line.begin - line.action.trigger.delay]
            while moments[-1] + STEP < line.begin:
                moments.append(moments[-1] + STEP)
            assert all(her.stands_set(branch.her, branch.attack, one) for one in moments), line


DELAYS = (0.3, 0.6, 1.0, 1.6)


@pytest.mark.parametrize("kind", ["technique", "read"])
def test_a_shot_that_waits_longer_finds_her_in_the_same_place_set_for_longer(kind):
    drills = [
        with_wait(f"{delay:g} s after she is set", **{"kind: technique": f"kind: {kind}"})
        for delay in DELAYS
    ]
    found = [simulate(one).releases[0] for one in drills]
    first = found[0]
    for delay, one in zip(DELAYS, found, strict=True):
        assert one.is_set
        assert one.on_line
        assert one.set_since >= delay - NEAR
        assert one.time - delay == pytest.approx(first.time - DELAYS[0], abs=1e-6)
        assert (one.pose.x, one.pose.y) == pytest.approx((first.pose.x, first.pose.y), abs=1e-6)


def test_a_shot_whose_time_she_knows_takes_depth_from_her_and_one_that_waits_does_not():
    told = simulate(with_wait("0.3 s after F2 has the puck")).releases[0]
    waits = simulate(with_wait("when she is set")).releases[0]
    assert waits.time > told.time
    assert not told.is_set or told.depth < waits.depth
    assert abs(waits.depth - waits.wanted_depth) <= abs(told.depth - told.wanted_depth)


def test_he_draws_once_she_is_set():
    draw = simulate(with_wait("when she is set")).releases[0]
    soon = simulate(with_wait("0.1 s after she is set")).releases[0]
    windup = world_of(simulate(with_wait("when she is set")).level).play.release_time(draw.shot)
    assert soon.time == pytest.approx(draw.time)
    assert soon.set_since >= windup - NEAR


def test_in_two_branches_each_waits_for_its_own_moment():
    play = """\
at the whistle: F1 waits 0.5 s
choice by F1, reads "her feet"
  branch shoot
    0.5 s after she is set: F1 shoots
  branch across
    F1 passes to F2
    0.5 s after she is set: F2 shoots"""
    people = "F1 at left dot, with a puck\nF2 at right dot"
    drill = parse_drill(script(play, people, kind="read"))
    run = simulate(drill)
    assert_met(drill, run)
    shoot, across = run.branches
    assert (shoot.releases[0].shooter, across.releases[0].shooter) == ("F1", "F2")
    assert across.releases[0].time > shoot.releases[0].time
    assert all(one.set_since >= 0.5 - NEAR for one in run.releases)


def test_the_mirror_image_waits_as_long():
    drill = with_wait("0.6 s after she is set")
    run, seen = simulate(drill), simulate(mirror_drill(drill))
    assert_met(mirror_drill(drill), seen)
    a, b = run.releases[0], seen.releases[0]
    assert b.time == pytest.approx(a.time, abs=0.2)  # hands do not mirror: depths may differ
    assert (b.is_set, b.on_line) == (a.is_set, a.on_line)
    assert b.set_since >= 0.6 - NEAR


NEXT = ("when the rebound is cleared", "on the shot", "1.5 s after the shot", "2 s after the pass",
        "when she is set")  # fmt: skip


@pytest.mark.parametrize("following", NEXT)
def test_in_the_second_repetition_too_it_is_she_who_says_when(following):
    drill = with_wait("0.6 s after she is set",
                      **{"next: when the rebound is cleared": f"next: {following}"})  # fmt: skip
    run = simulate(drill)
    assert_met(drill, run)
    assert run.releases[0].set_since >= 0.6 - NEAR


def test_a_repetition_that_starts_before_she_is_back_takes_longer():
    play = "at the whistle: F1 waits 0.2 s\nwhen she is set: F1 shoots low glove"
    calm = simulate(parse_drill(script(play, "F1 at (8, 3), with a puck")))
    text = script(play, "F1 at (8, 3), with a puck", next="0.5 s after the shot")
    quick = simulate(parse_drill(text))
    branch = quick.branches[0]
    assert quick.releases[0].is_set
    assert branch.in_vain == ()
    assert quick.releases[0].time > calm.releases[0].time  # she gets up first
    assert quick.releases[0].gap == pytest.approx(branch.period)
    assert quick.period < calm.period


def test_the_next_repetition_starts_when_she_is_back_and_set():
    drill = with_wait("when she is set",
                      **{"next: when the rebound is cleared": "next: when she is set"})  # fmt: skip
    branch = simulate(drill).branches[0]
    here = branch.her.track.state(branch.first_whistle)
    start = branch.her.track.start
    assert here.is_set
    assert math.dist((here.pose.x, here.pose.y), (start.x, start.y)) < 0.05
    before = branch.her.track.state(branch.first_whistle - 0.3)
    assert not before.is_set  # and no later


def test_along_a_chain_of_passes_she_moves_and_is_set_each_time():
    play = """\
at the whistle: F1 passes to F2
0.4 s after she is set: F2 passes to F3
0.4 s after she is set: F3 shoots"""
    people = "F1 at left half wall, with a puck\nF2 at right dot\nF3 at left dot"
    drill = parse_drill(script(play, people))
    run = simulate(drill)
    assert_met(drill, run)
    (branch,) = run.branches
    first, second = (branch.her.track.state(one.begin - 0.2).pose for one in waits_of(branch))
    assert first.y < 0.0 < second.y
    assert run.releases[0].set_since >= 0.4 - NEAR


def test_somebody_with_a_puck_of_his_own_waits_for_her_to_turn_to_him():
    play = "at the whistle: F1 shoots high glove\n0.5 s after she is set: F2 shoots high glove"
    drill = parse_drill(script(play, "F1 at left dot, with a puck\nF2 at right dot, with a puck"))
    run = simulate(drill)
    assert_met(drill, run)
    first, second = run.releases
    assert (first.y > 0.0, second.y < 0.0) == (True, True)
    assert second.on_line
    assert second.set_since >= 0.5 - NEAR
    assert second.time - first.time < 5.0


def test_what_is_shot_after_a_line_that_waited_is_not_known_before():
    play = "at the whistle: F1 passes to F2\nwhen she is set: F2 waits {} s\nF2 shoots"
    people = "F1 at left dot, with a puck\nF2 at right dot"
    soon, late = (
        simulate(parse_drill(script(play.format(wait), people))).releases[0] for wait in (0.1, 1.5)
    )
    assert (soon.pose.x, soon.pose.y) == pytest.approx((late.pose.x, late.pose.y), abs=1e-6)
    assert late.time - soon.time == pytest.approx(1.4, abs=1e-6)


def test_who_waits_in_vain_is_named_by_the_check():
    play = "G pushes to left post facing left dot\nwhen she is set: F1 shoots"
    drill = parse_drill(script(play, "F1 at right dot, with a puck\nG at mid-crease"))
    run = simulate(drill)
    (line,) = run.branches[0].in_vain
    assert line.action.who == "F1"
    texts = [one.text for one in check_drill(drill, run) if one.rule == "V1"]
    assert any(one.startswith("F1 waits for her, and she is not set") for one in texts)
    met = with_wait("1 s after she is set")
    assert not [one for one in check_drill(met) if "waits for her" in one.text]


PLACES = st.tuples(
    st.floats(2.5, 14.0).map(lambda x: round(x, 1)), st.floats(-8.0, 8.0).map(lambda y: round(y, 1))
)
WAITS = st.sampled_from(["when she is set", "0.1 s after she is set", "0.7 s after she is set"])


@given(
    places=st.tuples(PLACES, PLACES, PLACES, PLACES), waits=st.tuples(WAITS, WAITS),
    kind=st.sampled_from(["technique", "read"]), following=st.sampled_from(NEXT),
    carries=st.booleans(),
)  # fmt: skip
@example(
    places=((3.0, 0.0), (3.0, 0.0), (3.0, -4.0), (3.0, -3.0)),
    waits=("when she is set", "when she is set"), kind="technique",
    following="when the rebound is cleared", carries=True,
)  # fmt: skip
@settings(deadline=None, max_examples=12)
def test_when_she_is_set_never_finds_her_moving(places, waits, kind, following, carries):
    one, two, three, to = places
    carry = f"F3 carries to {to}\n" if carries else ""
    play = f"""\
at the whistle: F1 passes to F2
{waits[0]}: F2 passes to F3
{carry}{waits[1]}: F3 shoots
F3 skates to high slot"""
    people = f"F1 at {one}, with a puck\nF2 at {two}\nF3 at {three}\nD1 at (3, 6)"
    drill = parse_drill(script(play, people, kind=kind, next=following))
    run = simulate(drill)
    assert_met(drill, run)
    assert run.releases[0].is_set


WAITING = [one.id for one in library() if waits_for_her(list(actions_of(one.play)))]


@pytest.mark.parametrize("name", WAITING)
def test_the_library_waits_for_her_and_never_in_vain(name):
    drill = drill_by_id(name)
    run = simulate(drill)
    assert_met(drill, run)
    assert all(one.is_set for branch in run.branches for one in branch.releases
               if one.shooter in {w.action.who for w in waits_of(branch)}
               and any(abs(branch.first_whistle + one.time - w.end) < 1e-6
                       for w in waits_of(branch)))  # fmt: skip
    for branch in run.branches:
        lines = branch.attack.lines[len(branch.attack.lines) // 2 :]
        for before, line in pairwise(lines):
            if line in waits_of(branch):
                assert line.begin - before.end < 6.0  # nobody stands about with his puck
