"""The figures behind puck speed, reaction, reach and aim, each with its origin.

Where a figure depends on age or playing level there is one constant per level, with the level in
its key (``shot.wrist_speed.U13``), so that a coach can change one without the others.
"""

from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import Any, cast

from tendline.base import Constant, Level, OriginKind, ShotType, assumed, fact, fact_table

FITTED: dict[str, Any] = tomllib.loads(
    files("tendline.shot").joinpath("fitted.toml").read_text("utf-8")
)


def fitted(
    name: str, key: str, label: str, unit: str, *, low: float, high: float, times: float = 1.0,
    note: str = "",
) -> Constant:  # fmt: skip
    """Return a number that ``studies/calibration`` fitted, with its uncertainty as a note.

    ``times`` carries a number fitted at one level over to another.
    """
    row = cast("dict[str, float]", FITTED["fitted"][name])
    value = round(row["value"] * times, 4)
    spread = f"standard error {row['error'] * times:.2g} {unit}"
    return assumed(
        key, label, value, unit, low=low, high=high, kind=OriginKind.FITTED,
        source=str(FITTED["source"]), note=f"{spread}; {note}" if note else spread,
    )  # fmt: skip


PUCK_DIAMETER = fact("rink.other.puck_diameter", "puck diameter")
PUCK_THICKNESS = fact("rink.other.puck_thickness", "puck thickness")
PUCK_MASS_MIN = fact("rink.other.puck_mass_min", "puck mass, lightest allowed")
PUCK_MASS_MAX = fact("rink.other.puck_mass_max", "puck mass, heaviest allowed")
DRAG_COEFFICIENT = fact("puck.cd_edge_on", "puck drag coefficient, flat flight", low=0.3, high=0.7)
FRICTION = fact("puck.mu_ice", "friction of puck on ice", low=0.03, high=0.15)
AIR_DENSITY = assumed("shot.air_density", "density of rink air", 1.25, "kg/m3", low=1.1, high=1.35,
                      note="dry air near 10 C at sea level")  # fmt: skip
GRAVITY = assumed("shot.gravity", "free fall", 9.81, "m/s2", low=9.78, high=9.83)

ARC_MOST = {
    level: assumed(f"shot.arc_most.{level}", f"arc of a shot above its line, at most, {level}",
                   value, "m", low=0.05, high=2.0, note="slower pucks are sent along the ice")
    for level, value in {
        Level.U9: 0.2, Level.U11: 0.3, Level.U13: 0.5, Level.U15: 0.6, Level.U18: 0.6,
        Level.ADULT: 0.6, Level.WOMEN_ELITE: 0.6, Level.MEN_ELITE: 0.6,
    }.items()
}  # fmt: skip

AGE_OF_LEVEL = {
    Level.U9: 8.0, Level.U11: 10.0, Level.U13: 12.0, Level.U15: 14.0, Level.U18: 17.0,
    Level.ADULT: 30.0, Level.WOMEN_ELITE: 25.0, Level.MEN_ELITE: 25.0,
}  # fmt: skip
"""Age (years) that stands for a level where a table goes by age."""

ADULT_REACTION_AGE = 16.0
REACTION_EXPONENT = fact("human.sart_loglog_exponent", "slope of reaction time with age (log-log)",
                         low=-1.0, high=-0.6)  # fmt: skip


def age_ratio(level: Level) -> float:
    """Return simple reaction time at this level's age over that of an adult.

    The log-log line through ages 5 and 15 (SART84), adult from 16 years on. It is measured on a
    sound signal and carried over to light as a ratio: an assumption.
    """
    age = min(AGE_OF_LEVEL[level], ADULT_REACTION_AGE)
    return float((age / ADULT_REACTION_AGE) ** REACTION_EXPONENT.value)


def _practice_speed(level: Level, path: str, low: float, high: float) -> Constant:
    return fact(path, f"wrist shot speed, {level}", key=f"shot.wrist_speed.{level}",
                low=low, high=high)  # fmt: skip


WRIST_SPEED = {
    Level.U9: _practice_speed(Level.U9, "puck.wrist_u9", 8.0, 12.0),
    Level.U11: _practice_speed(Level.U11, "puck.wrist_u11", 11.0, 16.0),
    Level.U13: _practice_speed(Level.U13, "puck.wrist_u13", 14.0, 20.0),
    Level.U15: _practice_speed(Level.U15, "puck.wrist_u15", 18.0, 25.0),
    Level.U18: _practice_speed(Level.U18, "puck.wrist_u18", 22.0, 30.0),
    Level.ADULT: assumed("shot.wrist_speed.adult", "wrist shot speed, adult", 25.0, "m/s",
                         low=20.0, high=31.0,
                         note="inside the 22-31 m/s stated for amateurs' shots"),
    Level.WOMEN_ELITE: _practice_speed(Level.WOMEN_ELITE, "puck.wrist_women_elite", 20.0, 27.0),
    Level.MEN_ELITE: _practice_speed(Level.MEN_ELITE, "puck.wrist_men_elite", 27.0, 36.0),
}  # fmt: skip

_WOMEN_SLAP = float(fact_table("puck.slap_women_elite")["v"])
_MEN_SLAP = float(fact_table("puck.slap_elite_lab")["v"])
SPEED_RATIO = {
    ShotType.WRIST: assumed("shot.speed_ratio.wrist", "wrist shot over wrist shot", 1.0, "ratio",
                            low=1.0, high=1.0),
    ShotType.SNAP: assumed("shot.speed_ratio.snap", "snap shot speed over wrist shot", 1.0,
                           "ratio", low=0.9, high=1.15),
    ShotType.SLAP: assumed("shot.speed_ratio.slap", "slap shot speed over wrist shot", 1.15,
                           "ratio", low=1.0, high=1.35,
                           note=f"{_MEN_SLAP:g} over 31 m/s (men) and {_WOMEN_SLAP:g} over "
                                "24 m/s (women) in the published rows"),
    ShotType.BACKHAND: assumed("shot.speed_ratio.backhand", "backhand speed over wrist shot", 0.8,
                               "ratio", low=0.6, high=1.0),
    ShotType.ONE_TIMER: assumed("shot.speed_ratio.one-timer", "one-timer speed over wrist shot",
                                1.05, "ratio", low=0.85, high=1.3),
    ShotType.TIP: assumed("shot.speed_ratio.tip", "tipped puck's speed over wrist shot", 0.75,
                          "ratio", low=0.4, high=1.0),
    ShotType.WRAP: assumed("shot.speed_ratio.wraparound", "wraparound speed over wrist shot", 0.4,
                           "ratio", low=0.2, high=0.7),
}  # fmt: skip

RELEASE_TIME = {
    ShotType.WRIST: fact("puck.release_wrist", "wrist shot, start of draw to release", low=0.2,
                         high=0.4),
    ShotType.SNAP: fact("puck.release_snap", "snap shot, start to release", low=0.1, high=0.2),
    ShotType.SLAP: fact("puck.release_slap", "slap shot, backswing to contact", low=0.6, high=1.0),
    ShotType.BACKHAND: assumed("shot.release.backhand", "backhand, start to release", 0.25, "s",
                               low=0.15, high=0.4),
    ShotType.ONE_TIMER: fact("puck.onetimer_delay", "one-timer, arrival to release", low=0.05,
                             high=0.15),
    ShotType.TIP: assumed("shot.release.tip", "tip, arrival to release", 0.0, "s", low=0.0,
                          high=0.05),
    ShotType.WRAP: assumed("shot.release.wraparound", "wraparound, post to release", 0.2, "s",
                           low=0.1, high=0.4),
}  # fmt: skip

_TRANSFER = "fitted on men's elite games; carried to other levels by assumption"
REACTION = {
    level: fitted(
        "reaction", f"shot.reaction.{level}", f"reaction to a seen shot, {level}", "s", low=0.05,
        high=0.45, times=age_ratio(level),
        note="counted from the release: shorter than a laboratory reaction because she reads the "
             f"shot before it; {_TRANSFER}: times the measured ratio of reaction times by age",
    )
    for level in Level
}  # fmt: skip
REACTION_SPREAD = fitted("reaction_spread", "shot.reaction_spread",
                         "spread of reaction and movement time", "s", low=0.01,
                         high=0.25)  # fmt: skip
_AIM_RATIO = {
    Level.U9: 2.2, Level.U11: 1.9, Level.U13: 1.6, Level.U15: 1.4, Level.U18: 1.2,
    Level.ADULT: 1.2, Level.WOMEN_ELITE: 1.0, Level.MEN_ELITE: 1.0,
}  # fmt: skip
AIM_ERROR = {
    level: fitted("aim_error", f"shot.aim_error.{level}", f"aiming error by angle, {level}", "rad",
                  low=0.005, high=0.15, times=_AIM_RATIO[level], note=_TRANSFER)
    for level in Level
}  # fmt: skip
AIM_FLOOR = fitted("aim_floor", "shot.aim_floor", "aiming error that remains at any distance", "m",
                   low=0.0, high=0.6,
                   note="haste, sticks in the way and bouncing pucks near the net")  # fmt: skip
AIM_LOOKS = assumed("shot.aim_looks", "places a shooter compares before he picks one", 2.0,
                    "count", low=1.0, high=20.0,
                    note="1: anywhere on the net; many: always the best place; game tables fit "
                         "about as well from 1 to 6")  # fmt: skip
FREE_FLOOR = assumed("shot.free_aim_floor", "the same for a shooter whom nobody hinders", 0.12, "m",
                     low=0.0, high=0.4)  # fmt: skip
FREE_LOOKS = assumed("shot.free_aim_looks", "places compared by a shooter whom nobody hinders", 9.0,
                     "count", low=1.0, high=30.0,
                     note="chosen by hand, with play.deke_open fitted after it on the published "
                          "shoot-out: with fewer she would be met on the goal line")  # fmt: skip
HIDDEN = fitted("hidden", "shot.hidden", "share of shots that she does not see in time", "share",
                low=0.0, high=0.4)  # fmt: skip
LEAK = assumed("shot.leak", "share of touched pucks that still go in", 0.005, "share", low=0.0,
               high=0.05)  # fmt: skip
CLEARANCE = assumed("shot.clearance", "room a puck needs beside a limb", 0.025, "m", low=0.0127,
                    high=0.0381,
                    note="between half the thickness and half the diameter of a puck")  # fmt: skip

LIMB_NAMES = ("trunk", "head", "left leg", "right leg", "catching hand", "blocker hand", "stick")
_LIMB_SPEED = (1.2, 0.6, 3.0, 3.0, 5.0, 4.5, 3.5)
_LIMB_ACCELERATION = (12.0, 6.0, 25.0, 25.0, 60.0, 55.0, 40.0)
_LIMB_REACH = (0.15, 0.05, 0.45, 0.45, 0.65, 0.60, 0.45)
LIMB_SPEED = tuple(
    assumed(f"shot.limb_speed.{name}", f"top speed of the {name} in a save", value, "m/s",
            low=value / 2, high=value * 2)
    for name, value in zip(LIMB_NAMES, _LIMB_SPEED, strict=True)
)  # fmt: skip
LIMB_ACCELERATION = tuple(
    assumed(f"shot.limb_acceleration.{name}", f"acceleration of the {name} in a save", value,
            "m/s2", low=value / 2, high=value * 2)
    for name, value in zip(LIMB_NAMES, _LIMB_ACCELERATION, strict=True)
)  # fmt: skip
LIMB_REACH = tuple(
    assumed(f"shot.limb_reach.{name}", f"how far the {name} moves without the body", value, "m",
            low=0.0, high=1.2)
    for name, value in zip(LIMB_NAMES, _LIMB_REACH, strict=True)
)  # fmt: skip
_LIMB_SURENESS = (0.28, 0.08, 0.25, 0.25, 0.22, 0.18, 0.1)
LIMB_SURENESS = tuple(
    assumed(f"shot.limb_sureness.{name}", f"way at which the {name} is put right 5 times in 6",
            value, "m", low=0.02, high=3.0,
            note="half the limb's width over how far off it comes, by the way it goes")
    for name, value in zip(LIMB_NAMES, _LIMB_SURENESS, strict=True)
)  # fmt: skip
_SURENESS_RATIO = {
    Level.U9: 0.27, Level.U11: 0.31, Level.U13: 0.37, Level.U15: 0.45, Level.U18: 0.58,
    Level.ADULT: 0.58, Level.WOMEN_ELITE: 0.7, Level.MEN_ELITE: 1.0,
}  # fmt: skip
SURENESS = {
    level: fitted("sureness", f"shot.sureness.{level}", f"sureness of the limbs, {level}", "ratio",
                  low=0.05, high=5.0, times=_SURENESS_RATIO[level],
                  note=f"{_TRANSFER}: chosen so that ordinary shots are saved about as often at "
                       "every level, as coaches see it")
    for level in Level
}  # fmt: skip
BODY_SPEED = fact("locomotion.butterfly_slide_speed", "speed of the whole body in a save",
                  low=1.0, high=3.0)  # fmt: skip
QUICKNESS = {
    level: assumed(f"shot.quickness.{level}", f"limb speeds over those of an elite adult, {level}",
                   value, "ratio", low=0.3, high=1.2)
    for level, value in {
        Level.U9: 0.85, Level.U11: 0.88, Level.U13: 0.9, Level.U15: 0.92, Level.U18: 0.95,
        Level.ADULT: 0.93, Level.WOMEN_ELITE: 0.97, Level.MEN_ELITE: 1.0,
    }.items()
}  # fmt: skip

ORDINARY_DEPTH = assumed("shot.ordinary.depth", "ordinary depth with the puck close", 0.55, "m",
                         low=0.2, high=1.2,
                         note="rough medians of tracked goaltenders: 0.8 m with the puck 6-11 m "
                              "out, 1.4 m at 15-21 m")  # fmt: skip
ORDINARY_DEPTH_SLOPE = assumed("shot.ordinary.depth_slope", "ordinary depth gained per metre",
                               0.045, "m/m", low=0.0, high=0.12)  # fmt: skip
ORDINARY_DEPTH_MOST = assumed("shot.ordinary.depth_most", "ordinary depth at most", 1.4, "m",
                              low=0.6, high=2.2)  # fmt: skip
ORDINARY_DEPTH_WIDE = assumed("shot.ordinary.depth_wide", "share of the depth given up on the goal "
                              "line's side", 0.35, "share", low=0.0, high=0.8)  # fmt: skip
ORDINARY_ROOM = assumed("shot.ordinary.room", "room kept between her skates and the puck", 0.8, "m",
                        low=0.5, high=1.5)  # fmt: skip
ORDINARY_OFF_LINE = assumed("shot.ordinary.off_line", "distance off the line when set", 0.12,
                            "m", low=0.0, high=0.4,
                            note="tracked medians of 0.2-0.3 m hold sensor error")  # fmt: skip
PACE_NEAR = assumed("shot.ordinary.pace_near", "speed of shots at the net over the usual", 0.45,
                    "ratio", low=0.2, high=1.0,
                    note="tracked men's shots: mean 17.8 m/s within 6 m, 26.9 at 6-11 m, 30.7 "
                         "from 15 m and more")  # fmt: skip
PACE_FULL = assumed("shot.ordinary.pace_full", "distance from which shots have their usual speed",
                    12.0, "m", low=4.0, high=20.0)  # fmt: skip
PACE_LEAST = assumed("shot.ordinary.pace_least", "speed that no shot at the net falls below", 9.0,
                     "m/s", low=4.0, high=15.0,
                     note="or the level's usual speed, if that is less; matters below U15 "
                          "only")  # fmt: skip
OFF_SPOT_NEAR = fitted("off_spot_near", "shot.ordinary.off_spot_near",
                       "share of shots met off the spot, at the net", "share", low=0.0,
                       high=0.9)  # fmt: skip
OFF_SPOT_FAR = fitted("off_spot_far", "shot.ordinary.off_spot_far",
                      "share of shots met off the spot, far out", "share", low=0.0,
                      high=0.5)  # fmt: skip
OFF_SPOT_SCALE = fitted("off_spot_scale", "shot.ordinary.off_spot_scale",
                        "distance over which that share falls", "m", low=1.0,
                        high=30.0)  # fmt: skip
OFF_SPOT_SHARP = fitted("off_spot_sharp", "shot.ordinary.off_spot_sharp",
                        "share added at the goal line's sides", "share", low=-0.6,
                        high=0.6)  # fmt: skip
OFF_SPOT_DISTANCE = assumed("shot.ordinary.off_spot_distance", "how far off she then is", 0.5, "m",
                            low=0.1, high=1.2,
                            note="tracked shift during a pass across: 0.54-0.64 m")  # fmt: skip
OFF_SPOT_DELAY = assumed("shot.ordinary.off_spot_delay", "time lost when still moving", 0.15, "s",
                         low=0.0, high=0.5)  # fmt: skip
DROP_TIME = fact("locomotion.butterfly_drop_time_est", "time to drop into the butterfly", low=0.2,
                 high=0.5)  # fmt: skip

BLADE_OUT = assumed("shot.blade_out", "blade beside the shooter's body on the forehand", 0.6, "m",
                    low=0.2, high=1.2)  # fmt: skip
BLADE_AHEAD = assumed("shot.blade_ahead", "blade ahead of the shooter's body", 0.5, "m", low=0.0,
                      high=1.2)  # fmt: skip
BACKHAND_OUT = assumed("shot.backhand_out", "blade beside the body on the backhand", 0.45, "m",
                       low=0.1, high=1.0)  # fmt: skip

QUIET_EYE = fact("human.quiet_eye_onset_before_release", "sight of the puck before the release "
                 "that goes with saves", low=0.3, high=1.5)  # fmt: skip
LATE_SIGHT = assumed("shot.late_sight", "most that late sight of the puck delays her", 0.12, "s",
                     low=0.0, high=0.4)  # fmt: skip
SCREEN_UNSEEN = assumed("shot.screen_unseen", "share of shots never seen when the puck is hidden",
                        0.45, "share", low=0.0, high=1.0)  # fmt: skip

TIP_SHARE = assumed("shot.tip_share", "share of shots past a ready blade that it touches", 0.3,
                    "share", low=0.0, high=1.0)  # fmt: skip
TIP_AIM = assumed("shot.tip_aim", "aiming error of a tip over that of a shot", 2.0, "ratio",
                  low=1.0, high=6.0)  # fmt: skip

SURFACES = ("trunk", "head", "leg pad", "leg pad", "catching glove", "blocker", "stick")
"""The surface that each limb offers a puck, in the order of ``body.Limb``."""
HELD = {
    name: assumed(f"shot.held.{name}", f"share of pucks held by the {name}", value, "share",
                  low=0.0, high=1.0)
    for name, value in {
        "trunk": 0.6, "head": 0.05, "leg pad": 0.12, "catching glove": 0.85, "blocker": 0.05,
        "stick": 0.05,
    }.items()
}  # fmt: skip
RESTITUTION = {
    name: assumed(f"shot.restitution.{name}", f"bounce off the {name}, speed kept", value, "ratio",
                  low=0.0, high=0.8,
                  note="the puck itself: 0.35 frozen, 0.45-0.55 unfrozen (weak source)")
    for name, value in {
        "trunk": 0.08, "head": 0.3, "leg pad": 0.3, "catching glove": 0.1, "blocker": 0.4,
        "stick": 0.3,
    }.items()
}  # fmt: skip
STEERING = {
    name: assumed(f"shot.steering.{name}", f"angle by which the {name} turns a puck outward",
                  value, "rad", low=0.0, high=0.9)
    for name, value in {
        "trunk": 0.0, "head": 0.0, "leg pad": 0.15, "catching glove": 0.1, "blocker": 0.45,
        "stick": 0.4,
    }.items()
}  # fmt: skip
GLANCE = assumed("shot.glance", "speed along the surface that a puck keeps", 0.5, "ratio", low=0.0,
                 high=1.0)  # fmt: skip
SECOND_TIME = assumed("shot.second_time", "from the save to a rebound shot", 0.7, "s", low=0.3,
                      high=2.0)  # fmt: skip
SECOND_REACH = assumed("shot.second_reach", "loose pucks that attackers shoot again, at the net",
                       0.45, "share", low=0.0, high=1.0,
                       note="chosen so that about 5 % of even-strength shots get a second chance "
                            "(published 4.7 %)")  # fmt: skip
SECOND_SCALE = assumed("shot.second_scale", "distance over which that share falls", 4.0, "m",
                       low=1.0, high=15.0)  # fmt: skip
SECOND_DELAY = assumed("shot.second_delay", "time lost because she is still moving", 0.15, "s",
                       low=0.0, high=0.5)  # fmt: skip
SECOND_PACE = assumed("shot.second_pace", "speed of rebound shots over the usual", 0.55, "ratio",
                      low=0.3, high=1.0)  # fmt: skip
