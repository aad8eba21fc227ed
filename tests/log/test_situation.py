"""The scoring situation from the play before: each rule once, and what outranks what."""

import pytest

from tendline.base import ScoringSituation as S
from tendline.base import ShotType
from tendline.ice import rink
from tendline.log import NO_CONTEXT, Context, infer_situation
from tendline.log.constants import SituationParameters

SHEET = rink()
ACROSS = Context(pass_x=6.0, pass_y=-5.0, since_pass=1.0)


@pytest.mark.parametrize(
    ("place", "context", "shot_type", "expected"),
    [
        ((6, 2), NO_CONTEXT, None, None),
        ((6, 2), NO_CONTEXT, ShotType.WRIST, None),
        ((6, 2), Context(penalty_shot=True), None, S.BREAKAWAY),
        ((6, 2), Context(attackers=1, defenders=0), None, S.BREAKAWAY),
        ((3, 1), Context(since_shot=2.0), None, S.REBOUND),
        ((3, 1), Context(since_shot=8.0, screened=False), None, S.CLEAR_SHOT),
        ((3, 1), NO_CONTEXT, ShotType.TIP, S.DEFLECTION),
        ((0.4, 1), NO_CONTEXT, ShotType.WRAP, S.BELOW_GOAL_LINE),
        ((-0.5, 2), NO_CONTEXT, None, S.BELOW_GOAL_LINE),
        ((3, 1), Context(pass_x=-1.5, pass_y=0.5), None, S.BELOW_GOAL_LINE),
        ((6, 4), ACROSS, None, S.EAST_WEST),
        ((6, 4), Context(pass_x=6.0, pass_y=5.0, since_pass=1.0), None, S.CLEAR_SHOT),
        ((6, 4), Context(pass_x=6.0, pass_y=-5.0, since_pass=4.0), None, S.CLEAR_SHOT),
        ((6, 4), Context(pass_x=22.0, pass_y=-5.0, since_pass=1.0), None, S.CLEAR_SHOT),
        ((6, 4), Context(crossed_middle=True), None, S.EAST_WEST),
        ((17, 4), Context(pass_x=2.0, pass_y=9.5, since_pass=1.0), None, S.LOW_HIGH),
        ((17, 4), Context(pass_x=12.0, pass_y=3.0, since_pass=1.0), None, S.CLEAR_SHOT),
        ((13, 3), Context(screened=True), None, S.SCREEN),
        ((9, 5), Context(off_rush=True), None, S.ENTRY),
        ((9, 5), Context(since_entry=4.0), None, S.ENTRY),
        ((9, 5), Context(since_entry=9.0), None, S.CLEAR_SHOT),
        ((2, 1), Context(since_pass=5.0), None, S.NET_DRIVE),
        ((9, 5), Context(screened=False), None, S.CLEAR_SHOT),
        # the last thing before the shot decides
        ((6, 4), Context(pass_x=6.0, pass_y=-5.0, since_pass=1.0, since_shot=1.0), None, S.REBOUND),
        ((6, 4), Context(pass_x=6.0, pass_y=-5.0, off_rush=True), None, S.EAST_WEST),
    ],
)
def test_each_rule(place, context, shot_type, expected):
    found, why = infer_situation(
        SHEET, x=place[0], y=place[1], context=context, shot_type=shot_type
    )
    assert found is expected
    assert bool(why) == (found is not None)


def test_left_and_right_are_alike():
    for context in (ACROSS, Context(pass_x=2.0, pass_y=9.5, since_pass=1.0)):
        flipped = Context(pass_x=context.pass_x, pass_y=-context.pass_y, since_pass=1.0)
        for x, y in ((6.0, 4.0), (17.0, 4.0)):
            assert (
                infer_situation(SHEET, x=x, y=y, context=context)
                == infer_situation(SHEET, x=x, y=-y, context=flipped)
            )  # fmt: skip


def test_the_windows_are_settings():
    context = Context(since_shot=4.0)
    wide = SituationParameters(rebound_within=5.0)
    assert infer_situation(SHEET, x=3, y=1, context=context)[0] is None
    assert infer_situation(SHEET, x=3, y=1, context=context, windows=wide)[0] is S.REBOUND
