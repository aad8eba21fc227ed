"""Even numbers against odd ones, by the computation alone: nothing about numbers is written in."""

from __future__ import annotations

import pytest

from tendline.base import Level, Side
from tendline.play import PASSES, Attacker, Defender, OptionKind, play_parameters, read
from tendline.work.reading import Question, ask, with_even_numbers

STATURE = {Level.U15: 1.66, Level.U18: 1.70, Level.ADULT: 1.75, Level.MEN_ELITE: 1.84}
PLACES = (
    ((8.5, -5.0), (7.0, 4.5), (5.5, 1.0)),
    ((6.0, -3.5), (6.0, 3.5), (4.5, 0.0)),
    ((10.0, -4.0), (9.0, 4.0), (7.0, -1.0)),
    ((9.0, -6.0), (6.0, 3.0), (6.0, -0.5)),
    ((7.0, 4.0), (5.0, -3.0), (4.8, 0.3)),
    ((7.2, -5.0), (6.2, 4.6), (6.4, 0.6)),
)


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
def test_even_numbers_send_her_further_out_than_a_two_on_one(level, places, speed):
    question = _asked(level, places, speed, 1.0)
    odd, even = ask(question, detail=False), ask(with_even_numbers(question), detail=False)
    assert even.depth >= odd.depth
    assert even.band.high > odd.band.high
    assert even.loss < odd.loss


def test_from_the_other_side_it_is_the_same():
    depths = [
        tuple(ask(one, detail=False).depth for one in (question, with_even_numbers(question)))
        for question in (_asked(Level.U18, PLACES[0], 6.0, side) for side in (1.0, -1.0))
    ]
    assert depths[0] == depths[1]


@pytest.mark.parametrize("places", PLACES)
def test_it_is_the_pass_that_numbers_change(places):
    """With shots and passes even numbers send her out; with the passes switched off they do not."""
    question = _asked(Level.U18, places, 0.0, 1.0)
    shots = frozenset({OptionKind.SHOOT, OptionKind.CARRY})
    depths = {
        options: [
            read(one.situation, one.goaltender, play_parameters(Level.U18), options=options,
                 detail=False).depth
            for one in (question, with_even_numbers(question))
        ]
        for options in (shots, shots | PASSES)
    }  # fmt: skip
    odd, even = depths[shots | PASSES]
    assert even > odd + 0.1
    odd, even = depths[shots]
    assert even == pytest.approx(odd, abs=0.05)
