"""The numbers of the attack, each with its origin.

Speeds by level are for the attackers; the goaltender's own numbers live in ``body``, ``motion``
and ``shot``. Figures called *measured by us* come from the open tracking set ``st23`` (men's
tournament, attacking zone; see docs/understand/play.md), counted by hand from its rows.
"""

from __future__ import annotations

from tendline.base import Constant, Level, OriginKind, assumed, fact
from tendline.shot import constants as shots

_TRACKED = (
    "Open tracking data set st23 (Sports Hackdays 2024, MIT licence): passes that start and end in "
    "the attacking zone"
)

# Skating -------------------------------------------------------------------------------------

TOP_SPEED: dict[Level, Constant] = {
    Level.U9: fact(
        "skating.u9_top", "Top skating speed, U9", key="play.top_speed.U9", low=3, high=7
    ),
    Level.U11: assumed(
        "play.top_speed.U11", "Top skating speed, U11", 5.5, "m/s", low=3.5, high=8.0,
        note="Between the U9 and U13 figures of common practice.",
    ),
    Level.U13: fact(
        "skating.u13_top", "Top skating speed, U13", key="play.top_speed.U13", low=4, high=9
    ),
    Level.U15: fact(
        "skating.u15_top", "Top skating speed, U15", key="play.top_speed.U15", low=5, high=10
    ),
    Level.U18: assumed(
        "play.top_speed.U18", "Top skating speed, U18", 8.3, "m/s", low=6.0, high=10.5,
        note="Between the U15 figure of common practice and the tracked professional one.",
    ),
    Level.ADULT: assumed(
        "play.top_speed.adult", "Top skating speed, adult", 8.0, "m/s", low=5.0, high=10.5,
        note="Club adults: below the tracked professional figure of 9.85 m/s.",
    ),
    Level.WOMEN_ELITE: assumed(
        "play.top_speed.women elite", "Top skating speed, women elite", 8.5, "m/s",
        low=6.5, high=10.5,
        note="No tracked figure found; below the men's.",
    ),
    Level.MEN_ELITE: fact(
        "skating.top_forward_nhl", "Top skating speed, men elite",
        key="play.top_speed.men elite", low=7.5, high=11.0,
    ),
}  # fmt: skip

SKATING_ACCELERATION = fact(
    "skating.accel_avg", "How fast a skater gathers speed", key="play.skating_acceleration",
    low=2.0, high=6.0, note="Mean over a sprint start, adults.",
)  # fmt: skip

CARRY_SHARE = assumed(
    "play.carry_share", "Speed with the puck under control, as a share of top speed", 0.7, "share",
    low=0.4, high=1.0, note="Near the net, with a choice still open.",
)  # fmt: skip

# Passing -------------------------------------------------------------------------------------

_PASS_NOTE = (
    "Tracked passes go faster the longer they are, as the square root of the length: their median "
    "fits 13 m/s at 12 m within 0.6 m/s (7.5 m/s at 3.5 m, 9.6 at 6.5, 11.6 at 10, 14.5 at 14, "
    "16.8 at 19 m); the upper quartile fits 15.5."
)
_PASS_BY_LEVEL_NOTE = "The men's tracked figure, scaled about like the wrist shot of the level."


def _pass_speed(level: Level, value: float, low: float, high: float) -> Constant:
    return assumed(
        f"play.pass_speed.{level.value}", f"Pass over 12 m, {level.value}", value, "m/s",
        low=low, high=high, note=_PASS_BY_LEVEL_NOTE,
    )  # fmt: skip


PASS_SPEED: dict[Level, Constant] = {
    Level.U9: _pass_speed(Level.U9, 5.0, 3.0, 9.0),
    Level.U11: _pass_speed(Level.U11, 6.0, 4.0, 11.0),
    Level.U13: _pass_speed(Level.U13, 7.5, 5.0, 13.0),
    Level.U15: _pass_speed(Level.U15, 9.5, 6.0, 15.0),
    Level.U18: _pass_speed(Level.U18, 10.8, 7.0, 18.0),
    Level.ADULT: _pass_speed(Level.ADULT, 10.8, 7.0, 18.0),
    Level.WOMEN_ELITE: _pass_speed(Level.WOMEN_ELITE, 11.2, 7.0, 18.0),
    Level.MEN_ELITE: assumed(
        "play.pass_speed.men elite", "Pass over 12 m, men elite", 13.0, "m/s",
        low=8.0, high=22.0, note=_PASS_NOTE, kind=OriginKind.MEASURED, source=_TRACKED,
    ),
}  # fmt: skip
PASS_LENGTH = assumed(
    "play.pass_length", "Length of pass at which the pass speed is stated", 12.0, "m",
    low=12.0, high=12.0,
)  # fmt: skip
PASS_FASTEST = fact(
    "puck.pass_high", "No pass is faster than", key="play.pass_fastest", low=20.0, high=30.0
)
OPEN_PASS = assumed(
    "play.open_pass", "Chance that a pass with an open lane arrives playable", 0.9, "share",
    low=0.6, high=1.0,
    note="Of 1,113 tracked passes inside the zone 79 % arrived, covered lanes included.",
)  # fmt: skip
ONE_TIMER_OPEN = assumed(
    "play.one_timer_open", "Share of one-timers struck cleanly, blade open to the pass", 0.7,
    "share", low=0.3, high=1.0,
)  # fmt: skip
ONE_TIMER_CLOSED = assumed(
    "play.one_timer_closed", "Share struck cleanly when the pass must cross his body", 0.3,
    "share", low=0.0, high=1.0,
)  # fmt: skip
LEAD_LEAST_OUT = assumed(
    "play.lead_least_out", "A mate at speed takes a pass no nearer to the goal line than", 1.5,
    "m", low=0.5, high=3.0, note="Led further he would run out of room to shoot: he eases off.",
)  # fmt: skip
SETTLE_TIME = assumed(
    "play.settle_time", "Time to bring a pass under control before a shot", 0.35, "s",
    low=0.1, high=1.0,
    note="Added to the release time. Tracked time from reception to shot: median 0.38 s, upper "
    "quartile 1.0 s, one-timers included.",
)  # fmt: skip
TRAILER_BEHIND = assumed(
    "play.trailer_behind", "A mate this much further from the goal than the puck is a trailer",
    1.5, "m", low=0.5, high=4.0,
)  # fmt: skip
TRAILER_ASIDE = assumed(
    "play.trailer_aside", "A trailer is no further than this from the puck's line", 2.5, "m",
    low=1.0, high=5.0,
)  # fmt: skip
DROP_SHARE = assumed(
    "play.drop_share", "Speed of a drop pass as a share of a hard pass", 0.5, "share",
    low=0.2, high=1.0,
)  # fmt: skip
POINT_FROM = assumed(
    "play.point_from", "A mate at least this far out is at the point", 14.0, "m",
    low=11.0, high=18.0,
)  # fmt: skip
LOW_SLOT_TO = assumed(
    "play.low_slot_to", "A pass from below the goal line to no further out than this is low", 7.5,
    "m", low=4.0, high=10.0,
)  # fmt: skip
TIP_FROM = assumed(
    "play.tip_from", "A mate no further from the goal than this may tip a shot", 6.0, "m",
    low=2.0, high=10.0,
)  # fmt: skip
TIP_REACH = assumed(
    "play.tip_reach", "How far from the shot's line a mate's blade still reaches it", 1.2, "m",
    low=0.5, high=2.0,
)  # fmt: skip
TIP_SHARE = assumed(
    "play.tip_share", "Share of shots past a mate's blade that he gets a piece of", 0.3, "share",
    low=0.05, high=0.7,
)  # fmt: skip
CUT_LOSS = assumed(
    "play.cut_loss", "Goal chance left when a pass or a move is broken up", 0.01, "share",
    low=0.0, high=0.1, note="A loose puck near the net still scores now and then.",
)  # fmt: skip

# Loose pucks ---------------------------------------------------------------------------------

LOOSE_OUT = assumed(
    "play.loose_out", "Where loose pucks are fought for: this far out of the goal's centre", 1.5,
    "m", low=1.5, high=1.5,
)  # fmt: skip
LOOSE_NEAR = assumed(
    "play.loose_near", "Distance over which a skater's chance to get there first falls", 4.0, "m",
    low=1.0, high=10.0,
)  # fmt: skip
LOOSE_NOBODY = assumed(
    "play.loose_nobody", "Weight of nobody getting there in time (a skater at the net weighs 1)",
    0.5, "count", low=0.1, high=3.0,
)  # fmt: skip
LOOSE_USUAL = assumed(
    "play.loose_usual", "Attackers' usual share of getting there first", 0.3, "share",
    low=0.1, high=0.9, kind=OriginKind.MEASURED,
    source="Open tracking data set st23 (Sports Hackdays 2024, MIT licence): unblocked shots",
    note="Mean of the share over 176 shots (0.296), half of them between 0.22 and 0.38; the two "
    "numbers above are assumed. With it the mean save leaves the published second shot.",
)  # fmt: skip
LOOSE_SETTINGS = (
    shots.SECOND_TIME, shots.SECOND_REACH, shots.SECOND_SCALE, shots.SECOND_DELAY,
    shots.SECOND_PACE, shots.GLANCE, *shots.HELD.values(), *shots.RESTITUTION.values(),
    *shots.STEERING.values(),
)  # fmt: skip
"""What the second shot hangs on; the numbers of ``shot``."""

# Defenders -----------------------------------------------------------------------------------

STICK_REACH = assumed(
    "play.stick_reach", "How far from himself a defender's stick cuts a pass", 1.4, "m",
    low=0.8, high=2.2, note="Blade length and arm, one hand on the stick.",
)  # fmt: skip
REACH_SPREAD = assumed(
    "play.reach_spread", "Spread of that reach", 0.4, "m", low=0.1, high=1.0,
    note="A lane this far beyond the stick is cut one time in six.",
)  # fmt: skip
DEFENDER_REACTION = assumed(
    "play.defender_reaction", "A defender's reaction to the pass", 0.3, "s", low=0.15, high=0.6,
)  # fmt: skip
CUT_MOST = assumed(
    "play.cut_most", "Most that one defender cuts of the passes through his reach", 0.5, "share",
    low=0.2, high=0.9,
    note="Common practice: alone between two attackers he cannot kill the pass; it goes over his "
    "stick, under it or before it comes down, and he must respect the shot.",
)  # fmt: skip
STOP_MOST = assumed(
    "play.stop_most", "Most that one defender in the way stops of the carriers coming at him",
    0.9, "share", low=0.5, high=1.0, note="Body and stick; a pass has no body to play.",
)  # fmt: skip
DEFENDER_LEAST_OUT = assumed(
    "play.defender_least_out", "A defender skating back stops this far out of the goal line", 1.0,
    "m", low=0.0, high=3.0, note="He stays between puck and goal and does not skate past the net.",
)  # fmt: skip
BODY_HALF_WIDTH = assumed(
    "play.body_half_width", "Half the width of a skater seen from the puck", 0.3, "m",
    low=0.2, high=0.5,
)  # fmt: skip
BLOCK_SHARE = assumed(
    "play.block_share", "Share of shots at a defender's body that he blocks", 0.6, "share",
    low=0.0, high=1.0, note="The rest goes over, past or through him.",
)  # fmt: skip

# Carrying and going round her ----------------------------------------------------------------

CARRY_TIME = assumed(
    "play.carry_time", "How long he carries the puck across before he shoots", 0.8, "s",
    low=0.3, high=2.0,
)  # fmt: skip
CARRY_OPEN = assumed(
    "play.carry_open", "Chance that he keeps the puck while carrying it across", 0.85, "share",
    low=0.4, high=1.0,
)  # fmt: skip
DEKE_SHARE = assumed(
    "play.deke_share", "How fast he pulls the puck across her, as a share of top skating speed",
    0.27, "share", low=0.15, high=0.5,
    note="Chosen with the widths and the feint below, by hand, with shoot-outs in view; "
    "play.deke_open was then fitted.",
)  # fmt: skip
DEKE_FOREHAND = assumed(
    "play.deke_forehand", "How far beside her he shoots on his forehand", 1.1, "m",
    low=0.7, high=1.8,
)  # fmt: skip
DEKE_BACKHAND = assumed(
    "play.deke_backhand", "How far beside her he shoots on his backhand", 0.9, "m",
    low=0.5, high=1.6,
)  # fmt: skip
DEKE_CLEARANCE = assumed(
    "play.deke_clearance", "How far in front of her he must start the move", 1.3, "m",
    low=0.8, high=2.5, note="Just beyond her stick.",
)  # fmt: skip
DEKE_END = assumed(
    "play.deke_end", "How far in front of her the move ends", 0.3, "m", low=0.0, high=1.0,
    note="He glides past her while he pulls the puck across.",
)  # fmt: skip
DEKE_FEINT = assumed(
    "play.deke_feint", "What his feint adds to her reaction", 0.15, "s", low=0.0, high=0.3
)
ROUND_WIDTH = assumed(
    "play.round_width", "How wide he skates to get past her stick", 1.8, "m", low=1.2, high=2.5
)
ROUND_OUT = assumed(
    "play.round_out", "How far out he shoots once past her", 0.8, "m", low=0.4, high=1.5
)
ROUND_ASIDE = assumed(
    "play.round_aside", "How far off the line he shoots once past her", 0.9, "m",
    low=0.4, high=1.5,
)  # fmt: skip
ROOM_FROM = assumed(
    "play.room_from", "With a defender as near as this to an attacker nobody shoots at leisure",
    3.0, "m", low=1.0, high=6.0,
)  # fmt: skip
ROOM_FULL = assumed(
    "play.room_full", "With every defender at least this far off, shooters pick their places", 8.0,
    "m", low=4.0, high=15.0,
)  # fmt: skip
DEKE_ROOM = assumed(
    "play.deke_room", "How free he is to pick his place once past her stick", 1.0, "share",
    low=0.0, high=1.0, note="1 is a shooter whom nobody hinders (see shot.free_floor).",
)  # fmt: skip
COME_IN_GAP = assumed(
    "play.come_in_gap", "How far in front of her a carrier who comes in shoots late", 2.5, "m",
    low=1.3, high=5.0, note="A stride before her stick reaches the puck.",
)  # fmt: skip
DEKE_OPEN = assumed(
    "play.deke_open", "Chance that the move itself comes off", 0.7, "share", low=0.2, high=1.0,
    kind=OriginKind.FITTED, source="ARCTIC11 (facts.toml game.shootout_goal)",
    note="Fitted by studies/breakaway.py so that a lone carrier at speed, nobody near, costs the "
    "published shoot-out, 0.327, where she is told to stand. The other numbers of going round her "
    "were chosen beforehand. What is left is poke checks, pucks that roll off the blade, shots "
    "wide of an open side.",
)  # fmt: skip

DRIVE_OUT = assumed(
    "play.drive_out", "How far out he shoots when he drives the net", 1.3, "m", low=0.6, high=2.5
)
DRIVE_ASIDE = assumed(
    "play.drive_aside", "How far past the middle he carries it when he drives the net", 0.6, "m",
    low=0.0, high=1.2,
)  # fmt: skip
DRIVE_FROM = assumed(
    "play.drive_from", "A carrier at least this far off the middle may drive the net", 2.0, "m",
    low=1.0, high=5.0,
)  # fmt: skip
DRIVE_OPEN = assumed(
    "play.drive_open", "Chance that he keeps the puck driving the net", 0.55, "share",
    low=0.2, high=1.0,
)  # fmt: skip

# From below the goal line --------------------------------------------------------------------

BELOW_FROM = assumed(
    "play.below_from", "A puck no further out than this may be walked out or wrapped", 1.5, "m",
    low=0.5, high=3.0,
)  # fmt: skip
WALK_OUT_X = assumed(
    "play.walk_out_x", "How far out a walk-out shoots", 1.5, "m", low=0.7, high=3.0
)
WALK_OUT_Y = assumed(
    "play.walk_out_y", "How far off the middle a walk-out shoots", 1.4, "m", low=0.5, high=2.5
)
WALK_OUT_OPEN = assumed(
    "play.walk_out_open", "Chance that a walk-out keeps the puck", 0.6, "share", low=0.2, high=1.0
)
WRAP_X = assumed(
    "play.wrap_x", "How far out a wraparound is tucked in", 0.3, "m", low=0.25, high=0.6
)
WRAP_Y = assumed(
    "play.wrap_y", "How far off the middle a wraparound is tucked in", 1.1, "m", low=0.95, high=1.5
)
WRAP_OPEN = assumed(
    "play.wrap_open", "Chance that a wraparound keeps the puck", 0.6, "share", low=0.2, high=1.0
)
WRAP_FROM = assumed(
    "play.wrap_from", "A puck no further from the net than this may be wrapped", 4.0, "m",
    low=2.0, high=7.0,
)  # fmt: skip

# Her reply -----------------------------------------------------------------------------------

MOVING_DELAY_MOST = assumed(
    "play.moving_delay_most", "Most that being on the move at the release delays her save", 0.25,
    "s", low=0.0, high=0.6,
    note="Otherwise the delay is the time still missing until she is set.",
)  # fmt: skip

REPLY_DEPTH_MOST = assumed(
    "play.reply_depth_most", "Furthest out that she replies to, unless she was further out", 1.83,
    "m", low=1.0, high=3.0, note="The top of the crease.",
)  # fmt: skip
SCREEN_BLIND = assumed(
    "play.screen_blind", "Share of shots unseen when bodies hide the puck at the release", 0.4,
    "share", low=0.0, high=1.0, note="The rest she finds in flight, or guesses right.",
)  # fmt: skip

# What she is asked ---------------------------------------------------------------------------

HABIT_WEIGHT = assumed(
    "play.habit_weight", "Observed choices needed before habits count as much as the worst case",
    12.0, "count", low=1.0, high=100.0,
    note="n0 in e = n0 / (n0 + n): with n choices seen, the worst case keeps the share e.",
)  # fmt: skip
TREMBLE = assumed(
    "play.tremble", "Share of attacks that take any option, all alike", 0.1, "share",
    low=0.0, high=0.5, note="An attack does not always find its best option.",
)  # fmt: skip
PLACE_ERROR = assumed(
    "play.place_error", "How far from the place she is told she comes to stand", 0.2, "m",
    low=0.0, high=0.6,
    note="Standard deviation, along the line and across. In the open frames mp2x half of the time "
    "is spent within 0.22 m of the puck's line, which would be 0.32 m: an upper bound, as she is "
    "on the move in most of it and the picture adds an error of its own.",
)  # fmt: skip
PLACE_TIE = assumed(
    "play.tie", "Places beside the line must be better than those on it by more than this", 0.001,
    "share", low=0.0, high=0.005, note="One goal in a thousand such attacks.",
)  # fmt: skip
BAND_COST = assumed(
    "play.band_cost", "Depths that cost at most this much more than the best are as good", 0.005,
    "share", low=0.001, high=0.05, note="0.005 is one goal in two hundred such attacks.",
)  # fmt: skip
DEPTH_LEAST = assumed(
    "play.depth_least", "Nearest to the goal's centre that she stands", 0.3, "m",
    low=0.1, high=0.6, note="Heels on the goal line.",
)  # fmt: skip
DEPTH_MOST = assumed(
    "play.depth_most", "Furthest from the goal's centre that the search looks", 3.0, "m",
    low=2.0, high=8.0,
)  # fmt: skip
OFFSET_MOST = assumed(
    "play.offset_most", "Furthest beside the puck's line that the search looks", 0.6, "m",
    low=0.0, high=1.0,
)  # fmt: skip
BELOW_OFFSET_MOST = assumed(
    "play.below_offset_most", "The same with the puck below the goal line, so that the far post "
    "is within it", 1.3, "m", low=0.5, high=2.0,
)  # fmt: skip
BELOW_DEPTH_MOST = assumed(
    "play.below_depth_most", "Furthest from the goal's centre with the puck below the goal line",
    0.9, "m", low=0.5, high=2.0,
    note="Jams, pucks banked in off her and the goal behind her back are not modelled; staying "
    "by the posts against them is common practice.",
)  # fmt: skip
SEAL_FROM = assumed(
    "play.seal_from", "A shot from this far off straight out may be met on the post", 55.0, "deg",
    low=40.0, high=75.0,
)  # fmt: skip
SEAL_NEAR = assumed(
    "play.seal_near", "Nearer to the post's pose than this she stands on the post", 0.2, "m",
    low=0.05, high=0.4,
)  # fmt: skip
PUCK_GAP = assumed(
    "play.puck_gap", "Room she leaves between herself and the puck", 1.0, "m", low=0.5, high=2.0,
    note="Nearer is a poke check, which is not modelled.",
)  # fmt: skip
BODY_ROOM = assumed(
    "play.body_room", "Room she needs beside a skater", 0.8, "m", low=0.3, high=1.2,
    note="Nobody stands where somebody else stands.",
)  # fmt: skip
BASE_DEPTH_TOLERANCE = assumed(
    "play.base_depth_tolerance", "Skates count as at the top of the crease within", 0.25, "m",
    low=0.1, high=0.5,
)  # fmt: skip

# Fixed figures of the computation, shown with their origin but not to be set ------------------

LEAST_OUT = assumed(
    "play.least_out", "A puck released nearer to the goal line sees too little of the mouth", 0.25,
    "m", low=0.25, high=0.25,
)  # fmt: skip
LEAST_IN_FRONT = assumed(
    "play.least_in_front", "She stands at least this far in front of the goal line", 0.1, "m",
    low=0.1, high=0.1,
)  # fmt: skip
STEEPEST_LINE = assumed(
    "play.steepest_line", "No line to stand on leans further from straight out", 80.0, "deg",
    low=80.0, high=80.0,
)  # fmt: skip
STEEPEST_FACING = assumed(
    "play.steepest_facing", "Waiting, she turns no further from straight out; her head does the "
    "rest", 70.0, "deg", low=70.0, high=70.0,
)  # fmt: skip
ROUND_NET = assumed(
    "play.round_net", "How far from the net a skater goes round it", 0.4, "m", low=0.4, high=0.4
)
LONGEST_REACH = assumed(
    "play.longest_reach", "A reach begins no longer than this before the release", 0.6, "s",
    low=0.6, high=0.6,
)  # fmt: skip
TIGHT_SHARE = assumed(
    "play.tight_share", "Share of her usual room to skaters that must do where there is no other",
    0.5, "share", low=0.5, high=0.5,
)  # fmt: skip
FIXED = (
    LOOSE_OUT, LEAST_OUT, LEAST_IN_FRONT, STEEPEST_LINE, STEEPEST_FACING, ROUND_NET, LONGEST_REACH,
    TIGHT_SHARE,
)  # fmt: skip
