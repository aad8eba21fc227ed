"""The figures that the drill package uses, each with its origin.

Speeds of passes and shots, top skating speeds and the goaltender's own times live in ``play``,
``shot`` and ``motion``; here stand how skaters gather speed, brake and turn on the clock of a
drill, and what happens to the puck after a save.
"""

from __future__ import annotations

from tendline.base import Level, OriginKind, assumed, fact, fact_table

_CP = OriginKind.PRACTICE


def _of(path: str) -> float:
    return float(fact_table(path)["v"])


BACK_DOOR_X = assumed(
    "drill.back_door_x", "Back door, out from the goal line", 1.5, "m", low=1.5, high=1.5, kind=_CP
)
BACK_DOOR_Y = assumed(
    "drill.back_door_y", "Back door, off the middle", 1.8, "m", low=1.8, high=1.8, kind=_CP
)

# Skating --------------------------------------------------------------------------------------

FIRST_ACCELERATION = fact(
    "skating.accel_peak", "How hard the fastest skaters start", key="drill.first_acceleration",
    low=3.0, high=7.0,
    note="Falls off as speed grows: a = a0 (1 - v / top). Slower levels start in proportion.",
)  # fmt: skip
FIRST_ACCELERATION_TOP = fact(
    "skating.top_forward_nhl", "Top speed that goes with that start",
    key="drill.first_acceleration_top",
)  # fmt: skip
BACKWARD_SHARE = assumed(
    "drill.backward_share", "Backward speed as a share of forward speed",
    round(_of("skating.t100ft_forward_best") / _of("skating.t100ft_backward_best"), 2), "share",
    low=0.6, high=1.0, kind=OriginKind.COMPUTED,
    source="Best 100-ft times forward and backward of a skating school, 3.91 s and 4.65 s",
)  # fmt: skip
CARRY_SHARE = assumed(
    "drill.carry_share", "Speed with the puck as a share of speed without", 0.85, "share",
    low=0.6, high=1.0,
    note="Up to 3 mph slower than 19.4 mph in measurements of 1966-67 (weak source).",
)  # fmt: skip
WALK_SHARE = assumed(
    "drill.walk_share", "'At a walk', share of top speed", 0.25, "share", low=0.1, high=0.4
)
HALF_SHARE = assumed(
    "drill.half_share", "'At half speed', share of top speed", 0.5, "share", low=0.4, high=0.7
)
FULL_SHARE = assumed(
    "drill.full_share", "'At full speed', share of top speed", 1.0, "share", low=0.8, high=1.0
)
BRAKING = assumed(
    "drill.braking", "How hard a skater stops", 5.0, "m/s2", low=2.0, high=9.0,
    note="A hockey stop from 7 m/s in about 5 m.",
)  # fmt: skip
TURNING = assumed(
    "drill.turning", "Sideways grip in a turn", 6.0, "m/s2", low=3.0, high=9.0,
    note="Bounds speed in a curve: v^2 / r.",
)  # fmt: skip
CORNER_CUT = assumed(
    "drill.corner_cut", "How far before a cone he starts to turn, at most", 2.5, "m",
    low=0.5, high=5.0,
)  # fmt: skip

# The puck -------------------------------------------------------------------------------------

SOFT_SHARE = assumed(
    "drill.soft_share", "'Softly', share of the usual pass", 0.6, "share", low=0.3, high=0.9
)
HARD_SHARE = assumed(
    "drill.hard_share", "'Hard', share of the usual pass", 1.2, "share", low=1.0, high=1.6
)
TOSS_SPEED = assumed("drill.toss_speed", "A ball tossed by hand", 6.0, "m/s", low=2.0, high=12.0)
COLLECT_TIME = assumed(
    "drill.collect_time", "Bringing a waiting puck under control", 0.4, "s", low=0.1, high=1.5
)
PASS_TIME = assumed(
    "drill.pass_time", "From the decision to pass to the pass leaving", 0.3, "s", low=0.1, high=0.8
)
REBOUND_CLEARED = assumed(
    "drill.rebound_cleared", "From save to rebound played out and cleared", 4.0, "s",
    low=1.5, high=10.0, kind=_CP,
    note="With the next shooter's way makes the 6 to 8 s between shots that coaches ask for.",
)  # fmt: skip
TRACK_REBOUND = assumed(
    "drill.track_rebound", "She follows the rebound before she rises", 0.5, "s",
    low=0.0, high=1.5, kind=_CP,
)  # fmt: skip
CALL_TIME = assumed(
    "drill.call_time", "A call or sign", 0.5, "s", low=0.2, high=2.0
)  # fmt: skip
POKE_TIME = assumed("drill.poke_time", "Poke and return", 0.8, "s", low=0.4, high=2.0)
COVER_TIME = assumed("drill.cover_time", "Covering a loose puck", 1.0, "s", low=0.5, high=3.0)
LOOK_TIME = assumed("drill.look_time", "A look over to another place", 0.3, "s", low=0.15, high=0.8)

# What counts ----------------------------------------------------------------------------------

ON_LINE = assumed(
    "drill.on_line", "She counts as on the puck's line within", 0.25, "m", low=0.1, high=0.5
)
DECISION_STEP = assumed(
    "drill.decision_step", "While the puck is carried she decides again every", 0.4, "s",
    low=0.2, high=1.0,
)  # fmt: skip
FOLLOW_STEP = assumed(
    "drill.follow_step", "She follows a moving carrier once the spot has moved", 0.25, "m",
    low=0.05, high=0.5, note="As much as still counts as on the line.",
)  # fmt: skip
FOLLOW_TIME = assumed(
    "drill.follow_time", "Time a following step takes, by which she leads him", 0.3, "s",
    low=0.0, high=0.8,
)  # fmt: skip
GAIN_STEP = assumed(
    "drill.gain_step", "She changes depth only for more than", 0.25, "m", low=0.0, high=0.6
)
HARD_STOP_LEAST = assumed(
    "drill.hard_stop_least", "A push of at least this length ends in a hard stop", 0.6, "m",
    low=0.2, high=1.5, note="Shuffles do not count.",
)  # fmt: skip
STAY_DOWN = assumed(
    "drill.stay_down", "From nearer than this she may be down, sealed and still, for a shot", 4.6,
    "m", low=0.0, high=8.0, kind=OriginKind.PUBLISHED_WEAK,
    source="Coaching column on rebounds, 2012-14: within about 15 ft stay down and push",
)  # fmt: skip
TIMING_SPREAD = assumed(
    "drill.timing_spread", "Spread of skaters' times from repetition to repetition", 0.12, "share",
    low=0.0, high=0.4, note="Of each wait and each path's time.",
)  # fmt: skip

SIGHT_TIME = {
    level: assumed(
        f"drill.sight_time.{level.value}", f"Set and sighted before release, {level.value}", value,
        "s", low=0.2, high=1.5, kind=_CP,
        source=(
            "0.5 s of clear sight makes a shot clean: adult professionals, MSG Networks 2015; "
            "0.7 to 1.0 s for youth is common practice"
        ),
    )
    for level, value in {
        Level.U9: 1.0, Level.U11: 0.9, Level.U13: 0.8, Level.U15: 0.7, Level.U18: 0.7,
        Level.ADULT: 0.5, Level.WOMEN_ELITE: 0.5, Level.MEN_ELITE: 0.5,
    }.items()
}  # fmt: skip
