"""Which of the ten scoring situations a shot was, when the scorer did not say.

The rules, first that fits wins; each looks at the last thing that happened before the shot:

1. penalty shot, or one attacker and no defender: breakaway
2. within 3 s of another shot at this net that was not blocked on the way: rebound
3. tipped: deflection
4. wraparound, shot from behind the goal line, or last pass (3 s) from there: below the goal line
5. last pass (3 s) crossed the middle, or the scorer said so: east-west
6. last pass (3 s) from the corner, half wall or below the dots out to the point: low-high
7. screened: screen
8. within 6 s of crossing the blue line, or off the rush: entry
9. carried (no pass in 3 s) to within 4 m of the goal: net drive
10. something was said about the play before, and none of the above fits: clear shot

With nothing said about the play before there is no answer (None), never a guess. The windows are
settings (``log.*``), stated as assumed.
"""

from __future__ import annotations

import math

from tendline.base import ScoringSituation, ShotType
from tendline.ice import Rink, Zone, zone_of
from tendline.log.constants import DEFAULT_WINDOWS, SituationParameters
from tendline.log.events import Context

_LOW = (Zone.LEFT_CORNER, Zone.RIGHT_CORNER, Zone.LEFT_HALF_WALL, Zone.RIGHT_HALF_WALL)
_POINT = (Zone.LEFT_POINT, Zone.CENTRE_POINT, Zone.RIGHT_POINT)


def infer_situation(
    rink: Rink,
    *,
    x: float,
    y: float,
    context: Context,
    shot_type: ShotType | None = None,
    windows: SituationParameters = DEFAULT_WINDOWS,
) -> tuple[ScoringSituation | None, str]:
    """Return the situation of a shot from (x, y) [m, net's frame] and why, in words.

    Returns ``(None, "")`` when nothing is known of the play before.
    """
    found = _decisive(rink, x=x, y=y, context=context, shot_type=shot_type, windows=windows)
    if found is not None:
        return found
    if says_nothing(context):
        return None, ""
    return ScoringSituation.CLEAR_SHOT, "nothing special was said of the play before"


def says_nothing(context: Context) -> bool:
    """Return whether the context tells nothing of the play before the shot."""
    return all(
        value is None
        for value in (
            context.screened, context.crossed_middle, context.off_rush, context.one_timer,
            context.since_pass, context.since_entry, context.pass_x, context.attackers,
        )
    )  # fmt: skip


def pass_belongs(context: Context, windows: SituationParameters = DEFAULT_WINDOWS) -> bool:
    """Return whether a pass with a known start led to the shot."""
    return (
        context.pass_x is not None
        and context.pass_y is not None
        and (context.since_pass is None or context.since_pass <= windows.pass_within)
    )


def _decisive(
    rink: Rink,
    *,
    x: float,
    y: float,
    context: Context,
    shot_type: ShotType | None,
    windows: SituationParameters,
) -> tuple[ScoringSituation, str] | None:
    if context.penalty_shot:
        return ScoringSituation.BREAKAWAY, "penalty shot"
    if context.attackers == 1 and context.defenders == 0:
        return ScoringSituation.BREAKAWAY, "one attacker, no defender"
    if context.since_shot is not None and context.since_shot <= windows.rebound_within:
        return ScoringSituation.REBOUND, f"{context.since_shot:.0f} s after the shot before"
    if shot_type is ShotType.TIP:
        return ScoringSituation.DEFLECTION, "tipped"
    if shot_type is ShotType.WRAP or x < 0.0:
        return ScoringSituation.BELOW_GOAL_LINE, "from behind the goal line"
    passed = _by_pass(rink, x=x, y=y, context=context, windows=windows)
    if passed is not None:
        return passed
    if context.screened:
        return ScoringSituation.SCREEN, "screened"
    if context.off_rush or (
        context.since_entry is not None and context.since_entry <= windows.entry_within
    ):
        return ScoringSituation.ENTRY, "off the rush"
    carried = context.since_pass is not None and context.since_pass > windows.pass_within
    if carried and math.hypot(x, y) <= windows.net_drive_within:
        return ScoringSituation.NET_DRIVE, "carried to the net"
    return None


def _by_pass(
    rink: Rink, *, x: float, y: float, context: Context, windows: SituationParameters
) -> tuple[ScoringSituation, str] | None:
    known = pass_belongs(context, windows)
    if known and context.pass_x is not None and context.pass_x < 0.0:
        return ScoringSituation.BELOW_GOAL_LINE, "passed out from behind the goal line"
    if context.crossed_middle:
        return ScoringSituation.EAST_WEST, "pass across the middle"
    if not known or context.pass_x is None or context.pass_y is None:
        return None
    in_zone = context.pass_x <= rink.blue_line_x
    if in_zone and context.crossed_middle is None and context.pass_y * y < 0.0:
        return ScoringSituation.EAST_WEST, "pass across the middle"
    low = zone_of(rink, context.pass_x, context.pass_y) in _LOW or context.pass_x <= rink.spot_x
    if low and zone_of(rink, x, y) in _POINT:
        return ScoringSituation.LOW_HIGH, "passed from low out to the point"
    return None
