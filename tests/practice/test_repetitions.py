"""Counts of repetitions, sides and rest (expected values by hand)."""

from dataclasses import replace

import pytest

from tendline.practice import PracticeRules, Sides
from tendline.practice.repetitions import playing_seconds, stint
from tests.practice.samples import ARC, DROP, GAME, LADDER, LONG

RULES = PracticeRules()


def test_a_segment_pays_its_change_over():
    assert playing_seconds(5, RULES) == 255  # 300 - 45
    assert playing_seconds(0, RULES) == 0


def test_alone_she_rests_twice_her_work():
    done = stint(DROP, minutes=5, sharing=1, with_team=False, rules=RULES)
    # rest 30 s (more than 2 x 6): (255 + 30) / 36 = 7.9 -> 7 -> 6 for equal sides
    assert (done.repetitions, done.left, done.right) == (6, 3, 3)
    assert done.longest_wait == 30
    short_rest = replace(DROP, rest=0.0)
    assert stint(short_rest, minutes=5, sharing=1, with_team=False, rules=RULES).longest_wait == 12


def test_two_who_alternate_rest_while_the_other_works():
    pair = replace(ARC, rest=0.0)
    done = stint(pair, minutes=5, sharing=2, with_team=False, rules=RULES)
    assert done.longest_wait == 5
    assert done.repetitions == 26  # (255 + 5) / 10 = 26


def test_team_drills_run_at_their_own_rhythm_and_are_shared():
    alone = stint(LONG, minutes=5, sharing=1, with_team=True, rules=RULES)
    shared = stint(LONG, minutes=5, sharing=2, with_team=True, rules=RULES)
    assert alone.repetitions == 25  # 255 / 10
    assert shared.repetitions == 12
    assert shared.longest_wait == 90
    assert alone.load.shots == 25


def test_sides_are_counted_as_the_drill_treats_them():
    both = stint(LADDER, minutes=5, sharing=1, with_team=False, rules=RULES)
    assert both.left == both.right == both.repetitions
    none = stint(GAME, minutes=8, sharing=1, with_team=True, rules=RULES)
    assert none.left == none.right == 0


@pytest.mark.parametrize("minutes", range(4, 12))
@pytest.mark.parametrize("sharing", [1, 2, 3])
def test_mirrored_repetitions_are_always_even(minutes, sharing):
    drill = replace(ARC, sides=Sides.MIRRORED)
    done = stint(drill, minutes=minutes, sharing=sharing, with_team=False, rules=RULES)
    assert done.left == done.right
    assert done.left + done.right == done.repetitions
