"""Even numbers against odd ones, by the computation alone: nothing about numbers is written in."""

from __future__ import annotations

import numpy as np
import pytest

from tendline.base import Level, Side
from tendline.play import PASSES, Attacker, Defender, OptionKind, play_parameters, read
from tendline.work.reading import Question, ask, with_even_numbers

STATURE = {
    Level.U9: 1.30, Level.U11: 1.42, Level.U13: 1.55, Level.U15: 1.66, Level.U18: 1.70,
    Level.ADULT: 1.75, Level.WOMEN_ELITE: 1.70, Level.MEN_ELITE: 1.84,
}  # fmt: skip
PLACES = (
    ((8.5, -5.0), (7.0, 4.5), (5.5, 1.0)),
    ((6.0, -3.5), (6.0, 3.5), (4.5, 0.0)),
    ((10.0, -4.0), (9.0, 4.0), (7.0, -1.0)),
    ((9.0, -6.0), (6.0, 3.0), (6.0, -0.5)),
    ((7.0, 4.0), (5.0, -3.0), (4.8, 0.3)),
    ((7.2, -5.0), (6.2, 4.6), (6.4, 0.6)),
    ((11.0, -5.0), (8.0, 4.0), (6.5, -0.5)),
)
FLAT = 0.2
"""Where the loss hardly changes with depth, the ends of the band move about by this much [m]."""
BINDING = (PLACES[1], PLACES[4], PLACES[5])
"""Places from which the pass is what holds an elite goaltender in."""


def _asked(level, places, speed, side, **more):
    (cx, cy), (mx, my), (dx, dy) = places
    return Question(
        attackers=(
            Attacker(name="F1", x=cx, y=side * cy, vx=-speed,
                     hand=Side.LEFT if side > 0 else Side.RIGHT),
            Attacker(name="F2", x=mx, y=side * my, vx=-speed,
                     hand=Side.RIGHT if side > 0 else Side.LEFT),
        ),
        defenders=(Defender(name="D1", x=dx, y=side * dy, vx=-speed),),
        level=level,
        stature=STATURE[level],
        catching_hand=Side.LEFT if side > 0 else Side.RIGHT,
        **more,
    )  # fmt: skip


@pytest.mark.parametrize("speed", [0.0, 6.0])
@pytest.mark.parametrize("places", PLACES)
@pytest.mark.parametrize("level", STATURE)
def test_even_numbers_never_hold_her_in_and_always_cost_less(level, places, speed):
    question = _asked(level, places, speed, 1.0)
    odd, even = ask(question, detail=False), ask(with_even_numbers(question), detail=False)
    assert even.loss < odd.loss
    assert even.band.high >= odd.band.high - FLAT
    assert even.depth >= odd.depth - FLAT


def test_over_all_places_and_levels_even_numbers_send_her_out():
    gains = []
    for level in STATURE:
        for places in PLACES:
            question = _asked(level, places, 0.0, 1.0)
            odd, even = ask(question, detail=False), ask(with_even_numbers(question), detail=False)
            gains.append(even.band.high - odd.band.high)
    assert np.median(gains) > 0.05
    assert np.mean(np.array(gains) > 0.0) > 0.8


@pytest.mark.parametrize("places", BINDING)
def test_where_the_pass_holds_her_in_even_numbers_let_her_out(places):
    question = _asked(Level.MEN_ELITE, places, 0.0, 1.0)
    odd, even = ask(question, detail=False), ask(with_even_numbers(question), detail=False)
    assert even.depth > odd.depth + 0.3
    assert even.band.high > odd.band.high + 0.5


def test_from_the_other_side_it_is_the_same():
    depths = [
        tuple(ask(one, detail=False).depth for one in (question, with_even_numbers(question)))
        for question in (_asked(Level.U18, PLACES[0], 6.0, side) for side in (1.0, -1.0))
    ]
    assert depths[0] == pytest.approx(depths[1], abs=1e-3)


@pytest.mark.parametrize("places", BINDING)
def test_it_is_the_pass_that_numbers_change(places):
    """With shots and passes even numbers send her out much further than with shots alone."""
    question = _asked(Level.MEN_ELITE, places, 0.0, 1.0)
    shots = frozenset({OptionKind.SHOOT, OptionKind.CARRY})
    gains = {}
    for options in (shots, shots | PASSES):
        odd, even = (
            read(one.situation, one.goaltender, play_parameters(Level.MEN_ELITE), options=options,
                 detail=False)
            for one in (question, with_even_numbers(question))
        )  # fmt: skip
        gains[options] = even.depth - odd.depth
    assert gains[shots | PASSES] > gains[shots] + 0.3
