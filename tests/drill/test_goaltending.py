"""The goaltender on the clock: what moves her, what she sees, how a shot finds her."""

import math

import pytest

from tendline.base import Level, Side
from tendline.body import Stance
from tendline.drill import HerState, Run, drill_by_id, mirror_drill, parse_drill, simulate
from tendline.drill.advice import at_post, on_line
from tendline.drill.her_track import HerTrack
from tendline.drill.world import world_of
from tendline.motion import MoveKind
from tests.drill.samples import ONE_SHOT, PASS_AND_SHOT, script


def run_of(text, **options) -> Run:
    return simulate(parse_drill(text), **options)


def moves(run):
    return dict(run.load.moves)


def test_a_standing_shooter_finds_her_set_square_and_sighted():
    (one,) = run_of(ONE_SHOT).releases
    assert one.is_set
    assert one.state is HerState.SET
    assert abs(one.offset) < 1e-6
    assert one.pose.facing == pytest.approx(math.atan2(2, 9), abs=1e-6)
    assert one.depth == pytest.approx(math.hypot(one.pose.x, one.pose.y))
    assert one.sight > 2.0
    assert one.hidden == 0.0
    assert 0.0 < one.goal_chance < 1.0


def test_on_a_pass_across_she_goes_to_the_new_line_with_the_leg_opposite():
    run = run_of(PASS_AND_SHOT)
    (one,) = run.releases
    assert one.y < 0
    assert one.on_line
    assert run.load.metres > 0.5
    # to her right, driven by the left leg
    steps = [s for t, _, s in run.branches[0].her.track.moves()
             if run.period <= t < run.period + one.time and s.move is MoveKind.T_PUSH]  # fmt: skip
    assert {s.drive_leg for s in steps} <= {Side.LEFT}


def test_a_quicker_shot_finds_her_less_ready():
    slow = run_of(PASS_AND_SHOT).releases[0]
    quick = run_of(
        PASS_AND_SHOT.replace("F2 stops 1 s\n  F2 shoots", "F2 shoots one-timer")
    ).releases[0]
    assert quick.set_since < slow.set_since
    assert quick.sight < slow.sight
    assert quick.depth <= slow.depth  # she gives depth up to be there in time


def test_low_shots_bring_her_down_and_high_ones_do_not():
    low, high = run_of(ONE_SHOT), run_of(ONE_SHOT.replace("low blocker", "high glove"))
    assert (low.load.drops, low.load.recoveries) == (1, 1)
    assert high.load.drops == 0
    toss = ONE_SHOT.replace("F1 shoots low blocker", "C tosses high glove").replace("F1 at", "C at")
    assert run_of(toss).load.drops == 0


def test_a_body_in_the_lane_takes_sight():
    people = "F1 at (12, 0), with a puck\nF2 at (4, 0)"
    text = script("F1 waits 2 s\nmeanwhile: F2 screens at (4, 0.05)\nF1 shoots", people)
    (one,) = run_of(text).releases
    assert one.hidden == 1.0
    assert one.sight < 0.2
    (free,) = run_of(text.replace("(4, 0.05)", "(4, 3)")).releases
    assert free.hidden == 0.0
    assert free.sight > one.sight
    assert free.goal_chance < one.goal_chance


def test_her_own_lines_are_done_as_they_say_with_the_leg_that_drives():
    text = script(
        "G pushes to left post facing high slot\nG sets 1 s\nG slides to right post\nG recovers",
        "G at (0.4, -0.8), facing high slot",
    )
    run = run_of(text)
    count = moves(run)
    assert count["T-push"] >= 1
    assert count["butterfly slide"] == 1
    assert run.load.drops == 1
    legs = {}
    for _, _, step in run.branches[0].her.track.moves():
        legs.setdefault(step.move, step.drive_leg)
    assert legs[MoveKind.T_PUSH] is Side.RIGHT  # to her left: the right leg drives
    assert legs[MoveKind.BUTTERFLY_SLIDE] is Side.LEFT


def test_after_a_repetition_without_a_shot_she_goes_back_to_its_start():
    run = run_of(script("G pushes to left post\nG sets 1 s", "G at right post"))
    track = run.branches[0].her.track
    again = track.state(run.branches[0].first_whistle).pose
    start = at_post(world_of(Level.ADULT), Side.RIGHT)
    assert math.dist((again.x, again.y), (start.x, start.y)) < 0.05


def test_when_she_is_set_waits_for_her():
    text = PASS_AND_SHOT.replace("when F2 has the puck: F2 stops 1 s\n  F2 shoots",
                                 "when she is set: F2 shoots")  # fmt: skip
    (one,) = run_of(text).releases
    assert one.is_set
    assert one.on_line


def test_a_puck_below_the_goal_line_finds_her_on_her_post():
    text = script("F1 waits 2 s\nF1 passes to F2\nwhen F2 has the puck: F2 stops 1 s\nF2 shoots",
                  "F1 at (-1, 5), with a puck\nF2 at (6, 0)")  # fmt: skip
    run = run_of(text)
    first = run.branches[0].her.track.state(run.branches[0].first_whistle + 1.0)
    assert first.pose.stance is Stance.POST_STAND_LEFT
    assert run.releases[0].pose.stance is Stance.READY


def side_of(run):
    """Return the leg of the first T-push before the shot of the second repetition, if any."""
    start = run.branches[0].first_whistle
    end = start + run.releases[0].time
    for time, _, step in run.branches[0].her.track.moves():
        if start <= time < end and step.drive_leg is not None:
            return step.drive_leg
    return None


def test_the_mirror_image_runs_the_same_with_the_other_leg():
    for text in (ONE_SHOT, PASS_AND_SHOT):
        drill = parse_drill(text)
        run, seen = simulate(drill), simulate(mirror_drill(drill))
        for a, b in zip(run.releases, seen.releases, strict=True):
            assert (b.x, b.y) == pytest.approx((a.x, -a.y))
            assert b.time == pytest.approx(a.time)
            assert b.is_set == a.is_set
            # hands do not mirror, so the engine may differ by a step of its coarse depths
            assert b.depth == pytest.approx(a.depth, abs=0.45)
        assert seen.load.drops == run.load.drops
        lead = [side_of(one) for one in (run, seen)]
        assert lead[0] is None or lead[1] is lead[0].other


def test_the_same_seed_gives_the_same_spread_and_another_does_not():
    drill = parse_drill(PASS_AND_SHOT.replace("F2 stops 1 s", "F2 stops 0.3 s"))
    one, two = simulate(drill, spread=12, seed=4), simulate(drill, spread=12, seed=4)
    assert one.releases == two.releases
    assert 0.0 <= one.releases[0].set_share <= 1.0
    low, high = one.releases[0].goal_spread
    assert low <= high
    assert simulate(drill).releases[0].set_share is None


def test_branches_are_weighted():
    play = """\
choice by F1
  branch often, weight 3
    F1 shoots low glove
  branch seldom
    F1 shoots high glove"""
    run = run_of(script(play, "F1 at (9, 2), with a puck"))
    assert [round(one.share, 2) for one in run.branches] == [0.75, 0.25]
    assert run.load.drops == pytest.approx(0.75)


def test_all_branches_of_the_lane_attack_are_run_and_read_differently():
    run = simulate(drill_by_id("E08"))
    assert [one.key for one in run.branches] == ["drive", "across", "delay"]
    depths = {one.key: one.releases[0].wanted_depth for one in run.branches}
    assert len({round(depth, 1) for depth in depths.values()}) >= 2
    assert all(one.decided[0][1] > 1.0 for one in run.branches)


def test_moves_are_counted_by_kind_and_leg_and_swap_in_the_mirror():
    run = run_of(PASS_AND_SHOT.replace("straight in front", "one side only"))
    by_leg = run.load.by_leg
    assert sum(n for _, leg, n in by_leg if leg == "left") >= 1
    left = sum(count for _, leg, count in run.total.by_leg if leg == "left")
    turned = run.total.mirrored()
    assert sum(count for _, leg, count in turned.by_leg if leg == "right") == left
    both = run_of(PASS_AND_SHOT.replace("straight in front", "change every set")).total
    assert both.pushes_left == pytest.approx(both.pushes_right)


def test_at_the_draw_she_stops_if_she_is_on_the_line():
    play = """\
at the whistle: F1 carries to (9, -3) at half speed
choice by F1, reads "her feet"
  branch now
    F1 shoots
  branch on
    F1 carries to (9, -6) at half speed
    F1 shoots"""
    run = run_of(script(play, "F1 at (9, 4), with a puck", kind="read"))
    branch = run.branches[0]
    release = branch.releases[0]
    at = branch.first_whistle + release.time
    assert release.on_line
    speeds = [branch.her.track.state(at - back).speed for back in (0.5, 0.4, 0.3, 0.0)]
    assert speeds[-1] <= min(0.1, max(speeds))


def test_a_move_not_begun_yet_gives_way_to_the_next():
    motion = world_of(Level.ADULT).goaltender.motion
    track = HerTrack(on_line((9.0, 0.0), 1.0), motion)
    track.go(on_line((9.0, 3.0), 1.0), time=0.0, wait=0.0)
    end = track.end
    track.go(on_line((9.0, 0.0), 1.0), time=end - 0.02, wait=0.1)  # begins when she is there
    track.go(on_line((9.0, 3.0), 1.5), time=end - 0.01, wait=0.1)
    assert len(track.stretches) == 2
    assert track.stretches[1].begin == pytest.approx(end)
    assert track.goal == on_line((9.0, 3.0), 1.5)


def test_since_when_she_is_set_is_the_time_since_her_last_move_has_settled():
    run = run_of(PASS_AND_SHOT)
    branch = run.branches[0]
    release = branch.releases[0]
    at = branch.first_whistle + release.time
    settled = max(
        finish + step.settle for _, finish, step in branch.her.track.moves() if finish < at
    )
    assert release.set_since == pytest.approx(min(at - settled, 2.5), abs=0.06)


def test_a_feed_that_is_too_quick_for_her_feet_brings_a_slide():
    run = simulate(drill_by_id("L03"))
    feed = run.branch("feed")
    kinds = [step.move for _, _, step in feed.her.track.moves()]
    assert MoveKind.BUTTERFLY_SLIDE in kinds
    assert feed.releases[0].state in (HerState.SLIDING, HerState.DOWN)


def test_seconds_after_she_is_set_are_seconds_of_standing_set():
    text = PASS_AND_SHOT.replace(
        "when F2 has the puck: F2 stops 1 s\n  F2 shoots", "0.6 s after she is set: F2 shoots"
    )
    (one,) = run_of(text).releases
    assert one.set_since >= 0.6 - 0.06
