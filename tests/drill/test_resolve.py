"""Lines on the clock: a timing table worked out by hand, triggers, the puck's way."""

import math

import pytest

from tendline.base import InputError, Level
from tendline.drill import parse_drill, simulate
from tendline.drill.branches import paths_of
from tendline.drill.goaltending import HerPlay
from tendline.drill.resolve import Resolver
from tendline.drill.timeline import PuckKind, puck_place
from tendline.drill.world import world_of
from tests.drill.samples import PASS_AND_SHOT, THREE_SHOTS, script

ADULT = world_of(Level.ADULT)


def attack_of(text, world=ADULT):
    drill = parse_drill(text)
    her = HerPlay(drill, world)
    return Resolver(drill, world, her).resolve(paths_of(drill)[0].actions)


def begins(text):
    return [(round(one.begin, 2), round(one.end, 2)) for one in attack_of(text).lines]


def test_a_timing_table_by_hand():
    """Pass from dot to dot, one second's stop, shot; the speeds are given in the script.

    By hand: the pass leaves 0.30 s after the whistle (pass_time). The dots are 2 * 6.7056 =
    13.411 m apart; at 14 m/s that takes 0.958 s: reception at 1.258 s. He stops 1 s: 2.258 s. The
    draw of a wrist shot is 0.25 s: release at 2.508 s. The dot is sqrt(6.096^2 + 6.7056^2) =
    9.063 m from the goal's centre; at 25 m/s that takes 0.363 s: 2.870 s.
    """
    text = PASS_AND_SHOT.replace("passes to F2", "passes to F2 at 14 m/s")
    attack = attack_of(text.replace("F2 shoots", "F2 shoots at 25 m/s"))
    passed = next(one for one in attack.events if one.kind is PuckKind.PASS)
    shot = attack.shots[0]
    table = {
        "pass leaves": (passed.time, 0.30),
        "reception": (passed.arrives, 1.258),
        "draw begins": (attack.lines[2].begin, 2.258),
        "release": (shot.time, 2.508),
        "arrival": (shot.arrives, 2.870),
    }
    for name, (simulated, by_hand) in table.items():
        assert simulated == pytest.approx(by_hand, abs=0.006), name


def test_the_three_shots_come_when_the_stopwatch_says():
    # by hand: releases at 3.2, 4.8, 6.4 s (brief, worked check: 0, 1.6, 3.2 s and 6.4 s)
    assert [round(one.time, 6) for one in attack_of(THREE_SHOTS).shots] == [3.2, 4.8, 6.4]


def test_a_line_without_a_trigger_waits_for_the_line_above():
    text = script("F1 waits 1 s\nF2 waits 2 s\nF1 waits 1 s", "F1 at (9, 2)\nF2 at (8, 2)")
    assert begins(text) == [(0.0, 1.0), (1.0, 3.0), (3.0, 4.0)]


def test_meanwhile_runs_beside_and_only_its_own_person_waits_for_it():
    play = "F1 waits 1 s\nmeanwhile: F2 waits 5 s\nF1 waits 1 s\nF2 waits 1 s"
    text = script(play, "F1 at (9, 2)\nF2 at (8, 2)")
    assert begins(text) == [(0.0, 1.0), (0.0, 5.0), (1.0, 2.0), (5.0, 6.0)]


def test_times_after_events_and_tags():
    play = """\
0.5 s after the whistle: F1 waits 1 s as pause
1 s after pause starts: F2 waits 1 s
when pause ends: D1 waits 1 s
0.25 s later: D1 waits 1 s"""
    text = script(play, "F1 at (9, 2)\nF2 at (8, 2)\nD1 at (6, 1)")
    assert begins(text) == [(0.5, 1.5), (1.5, 2.5), (1.5, 2.5), (2.75, 3.75)]


def test_a_call_starts_what_waits_for_it():
    text = script(
        'F1 waits 1 s\nC calls "go"\non the call: F1 waits 1 s', "F1 at (9, 2)\nC at (12, 5)"
    )
    assert begins(text)[1:] == [(1.0, 1.5), (1.0, 2.0)]


def test_reaching_a_place_is_when_the_path_is_nearest_to_it():
    play = "F1 skates to (4, 0) at 5 m/s\nwhen F1 reaches (10, 1): F2 waits 1 s"
    attack = attack_of(script(play, "F1 at (18, 0)\nF2 at (8, 5)"))
    assert attack.tracks["F1"].at(attack.lines[1].begin)[0] == pytest.approx(10.0, abs=0.15)


def test_a_cleared_rebound_is_a_save_and_the_time_to_play_it():
    play = "F1 shoots\nwhen the rebound is cleared: F2 waits 1 s"
    attack = attack_of(script(play, "F1 at (10, 0), with a puck\nF2 at (8, 5)"))
    # by hand: draw 0.25 s, flight 10 / 25 = 0.4 s, 4 s of rebound
    assert attack.lines[1].begin == pytest.approx(0.25 + 0.4 + 4.0, abs=1e-6)


def test_a_moving_receiver_is_led_so_that_puck_and_man_meet():
    play = "F2 skates to (4, -6) at 6 m/s\n0.8 s after the whistle: F1 passes to F2"
    attack = attack_of(script(play, "F1 at left dot, with a puck\nF2 at (18, -6)"))
    passed = next(one for one in attack.events if one.kind is PuckKind.PASS)
    assert passed.to == pytest.approx(attack.tracks["F2"].at(passed.arrives), abs=0.02)
    assert passed.to[0] < attack.tracks["F2"].at(passed.time)[0] - 1.0


def test_softly_and_hard_change_the_pass():
    def speed(word):
        text = PASS_AND_SHOT.replace("F1 passes to", f"F1 passes {word} to")
        return next(one for one in attack_of(text).events if one.kind is PuckKind.PASS).speed

    assert speed("softly") == pytest.approx(0.6 * speed(""))
    assert speed("hard") == pytest.approx(1.2 * speed(""))


def test_a_shot_after_a_carry_leaves_as_he_arrives_with_speed():
    play = "F1 carries to (9, 0) at full speed\nF1 shoots"
    attack = attack_of(script(play, "F1 at (18, 0), with a puck"))
    assert attack.shots[0].place == pytest.approx((9.0, 0.0), abs=0.01)
    assert attack.shots[0].time == pytest.approx(attack.lines[0].end)
    assert math.hypot(*attack.tracks["F1"].velocity_at(attack.shots[0].time - 0.01)) > 5.0


def test_a_one_timer_leaves_at_once_and_another_shot_is_settled_first():
    def gap(shot):
        text = PASS_AND_SHOT.replace("when F2 has the puck: F2 stops 1 s\n  F2 shoots",
                                     f"when F2 has the puck: F2 shoots {shot}")  # fmt: skip
        attack = attack_of(text)
        passed = next(one for one in attack.events if one.kind is PuckKind.PASS)
        return attack.shots[0].time - passed.arrives

    assert gap("one-timer") == pytest.approx(0.08)  # facts: puck.onetimer_delay
    assert gap("") == pytest.approx(0.35 + 0.25)  # settle time and draw


def test_a_tip_takes_the_place_of_the_shot():
    play = "F1 shoots\nF2 tips"
    attack = attack_of(script(play, "F1 at (18, 0), with a puck\nF2 at (3, 0.5)"))
    (tip,) = attack.shots
    assert tip.who == "F2"
    assert tip.place == (3.0, 0.5)
    assert tip.time == pytest.approx(0.25 + math.hypot(15, 0.5) / 25, abs=0.01)


def test_a_passed_puck_waits_until_somebody_collects_it():
    play = "F1 passes to left corner\nF2 collects a puck\nF2 shoots"
    attack = attack_of(script(play, "F1 at (12, 6), with a puck\nF2 at (3, 6)"))
    held = [one for one in attack.events if one.kind is PuckKind.HELD and one.who == "F2"]
    assert len(held) == 1
    assert held[0].puck == 1  # the same puck
    assert attack.shots[0].puck == 1


def test_a_second_puck_has_another_number():
    assert [one.puck for one in attack_of(THREE_SHOTS).shots] == [1, 2, 3]


def test_the_puck_is_where_the_play_has_it():
    attack = attack_of(PASS_AND_SHOT)
    assert puck_place(attack, 0.1)[1] == "F1"
    place, holder, event = puck_place(attack, 0.8)
    assert holder == ""
    assert event.kind is PuckKind.PASS
    assert place[0] == pytest.approx(6.096, abs=0.01)
    assert -6.7 < place[1] < 6.7
    assert puck_place(attack, 2.0)[1] == "F2"


def test_a_defender_who_follows_ends_between_man_and_goal():
    play = "F1 carries to (8, 6) at half speed\nmeanwhile: D1 follows F1 at full speed"
    attack = attack_of(script(play, "F1 at (18, 6), with a puck\nD1 at (12, 0)"))
    end = attack.ends
    man, defender = attack.tracks["F1"].at(end), attack.tracks["D1"].at(end)
    assert math.hypot(*defender) < math.hypot(*man)
    assert math.dist(man, defender) < 2.0


@pytest.mark.parametrize(
    "play", ["on the pass: F1 waits 1 s", "when F2 has the puck: F1 waits 1 s",
             "on the shot: F1 waits 1 s", "on the call: F1 waits 1 s", "F1 tips"],
)  # fmt: skip
def test_waiting_for_what_never_happens_is_an_error_with_the_drill_in_it(play):
    with pytest.raises(InputError, match="never happens") as caught:
        simulate(parse_drill(script(play, "F1 at (9, 2)\nF2 at (6, 2)")))
    assert caught.value.item == "T01"
