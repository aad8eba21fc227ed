"""Who is where: what is refused, and by which words; the mirror of a situation."""

from __future__ import annotations

import math

import pytest

from tendline.base import InputError, Side
from tendline.play import Attacker, Defender, Situation, mirrored
from tests.play.cases import RINK, attacker, defender, situation


def _refused(*people, puck=None, **more):
    return lambda: Situation(
        rink=RINK,
        carrier=people[0],
        mates=tuple(one for one in people[1:] if isinstance(one, Attacker)),
        defenders=tuple(one for one in people[1:] if isinstance(one, Defender)),
        puck=puck,
        **more,
    )


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (_refused(attacker("F1", -0.3, 0.2)), "F1: the place is inside the net"),
        (_refused(attacker("F1", 6, 0), puck=(-0.3, 0.2)), "puck: the place is inside the net"),
        (_refused(attacker("F1", -5.0, 0)), "F1: distance out is out of range"),
        (_refused(attacker("F1", 6, 14)), "F1: distance to the side is out of range"),
        (_refused(attacker("F1", -3.2, 12.5)), "F1: the place must be on the ice"),
        (_refused(attacker("F1", math.nan, 0)), "F1: distance out is out of range"),
        (_refused(attacker("F1", 6, 0, vx=-30)), "F1: speed out is out of range"),
        (_refused(attacker("F1", 6, 0, vx=-9, vy=9)), "F1: speed is out of range"),
        (_refused(attacker("F1", 6, 0, vy=math.inf)), "F1: speed to her left is out of range"),
        (_refused(attacker("F1", 6, 0), defender("D1", 6, 0.01)), "D1: stands on the same spot"),
        (
            _refused(attacker("F1", 6, 0), attacker("F1", 7, 0)),
            "F1: two players have the same name",
        ),
        (_refused(attacker(" ", 6, 0)), "every player needs a name"),
        (_refused(attacker("F1", 6, 0), pace=-1.0), "pace is out of range"),
    ],
)
def test_what_cannot_be_is_refused_naming_the_player(make, words):
    with pytest.raises(InputError) as caught:
        make()
    assert words in str(caught.value)


def test_the_puck_lies_on_the_carriers_blade_unless_said():
    assert situation(attacker("F1", 6, 1)).puck_place == (6, 1)
    moved = Situation(rink=RINK, carrier=attacker("F1", 6, 1), puck=(5.5, 1.5))
    assert moved.puck_place == (5.5, 1.5)


def test_a_mirror_twice_changes_nothing_and_once_changes_sides_and_hands():
    one = situation(attacker("F1", 6, 2, vx=-3, vy=1, hand=Side.RIGHT), defender("D1", 4, -1, vy=2))
    other = mirrored(one)
    assert (other.carrier.x, other.carrier.y, other.carrier.vy) == (6, -2, -1)
    assert other.carrier.hand is Side.LEFT
    assert (other.defenders[0].y, other.defenders[0].vy) == (1, -2)
    assert mirrored(other) == one


def test_mates_are_found_by_name():
    one = situation(attacker("F1", 6, 2), attacker("F2", 6, -2))
    assert one.mate("F2").y == -2
    with pytest.raises(InputError, match="no mate of that name"):
        one.mate("F3")
