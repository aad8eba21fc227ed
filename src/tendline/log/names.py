"""Headings and words that shot tables commonly use, for guessing what a column holds.

Plain words only: a heading or word that is not here is simply not guessed.
"""

from __future__ import annotations

from collections.abc import Mapping

from tendline.base import ShotResult, ShotType
from tendline.log.columns import FileUnit

UNIT_NAMES: Mapping[str, FileUnit] = {
    "m": FileUnit.METRES, "metre": FileUnit.METRES, "metres": FileUnit.METRES,
    "meter": FileUnit.METRES, "meters": FileUnit.METRES, "ft": FileUnit.FEET,
    "feet": FileUnit.FEET, "foot": FileUnit.FEET, "yd": FileUnit.YARDS, "yds": FileUnit.YARDS,
    "yards": FileUnit.YARDS, "in": FileUnit.INCHES, "inch": FileUnit.INCHES,
    "inches": FileUnit.INCHES,
}  # fmt: skip

FIELD_NAMES: Mapping[str, tuple[str, ...]] = {
    "game": ("gameid", "gameno", "gamenumber", "match", "matchid", "fixture"),
    "day": ("date", "gamedate", "matchdate"),
    "team": ("shooting", "shootingteam", "teamshooting", "eventteam", "teamatt", "attackingteam",
             "shootersteam", "teamfor"),
    "opponent": ("defendingteam", "teamdefending", "teamdef", "against", "opp", "teamagainst"),
    "goaltender": ("goalie", "goalkeeper", "keeper", "netminder", "goaliename", "gt", "innet",
                   "goaltendername"),
    "period": ("per", "p", "periodnumber", "periodno"),
    "elapsed": ("time", "periodtime", "timeelapsed", "elapsedtime", "periodseconds", "gametime",
                "clockelapsed"),
    "clock_left": ("timeleft", "timeremaining", "remaining", "clock", "clockremaining"),
    "x": ("xcoord", "xcoordinate", "coordx", "coordsx", "xloc", "xlocation", "locationx", "shotx",
          "xshot", "xadj", "adjx", "xpos", "posx", "xposition", "out", "distanceout"),
    "y": ("ycoord", "ycoordinate", "coordy", "coordsy", "yloc", "ylocation", "locationy", "shoty",
          "yshot", "yadj", "adjy", "ypos", "posy", "yposition", "across", "side"),
    "result": ("outcome", "shotresult", "shotoutcome", "event", "eventtype", "what", "goal",
               "isgoal"),
    "shot_type": ("shottype", "typeofshot", "kind", "type", "shot"),
    "situation": ("scoringsituation", "how"),
    "shooter": ("player", "playername", "shootername", "shotby", "number"),
    "shooter_hand": ("hand", "shoots", "shooterhand"),
    "readiness": ("ready", "goaliestate", "goaltenderstate", "set", "state"),
    "screened": ("screen", "traffic"),
    "one_timer": ("onetimer", "onetime"),
    "crossed_middle": ("crossice", "lateralpass", "passacross"),
    "off_rush": ("rush", "offrush"),
    "empty_net": ("emptynet", "en"),
    "penalty_shot": ("penaltyshot", "ps"),
    "since_pass": ("secondssincepass",),
    "goaltender_x": ("goaliex", "gtx", "xgoalie"),
    "goaltender_y": ("goaliey", "gty", "ygoalie"),
    "skaters_shooting": ("skatersown", "skatersatt", "skatersfor"),
    "skaters_defending": ("skatersopp", "skatersdef", "skatersagainst"),
}  # fmt: skip
"""Other headings for a field, in order of preference, without signs, unit and capitals."""

_GOAL, _SAVE = ShotResult.GOAL.value, ShotResult.SAVE.value
_WIDE, _BLOCKED = ShotResult.WIDE.value, ShotResult.BLOCKED.value
RESULT_WORDS: Mapping[str, str] = {
    "goal": _GOAL, "goals": _GOAL, "g": _GOAL, "score": _GOAL, "scored": _GOAL, "1": _GOAL,
    "yes": _GOAL, "true": _GOAL,
    "save": _SAVE, "saved": _SAVE, "saves": _SAVE, "s": _SAVE, "sv": _SAVE, "shot": _SAVE,
    "sog": _SAVE, "shotongoal": _SAVE, "shotsaved": _SAVE, "ongoal": _SAVE, "stopped": _SAVE,
    "0": _SAVE, "no": _SAVE, "false": _SAVE,
    "frozen": ShotResult.SAVE_HELD.value, "held": ShotResult.SAVE_HELD.value,
    "miss": _WIDE, "missed": _WIDE, "missedshot": _WIDE, "wide": _WIDE, "off": _WIDE,
    "offtarget": _WIDE, "post": _WIDE, "high": _WIDE, "shotmissed": _WIDE,
    "block": _BLOCKED, "blocked": _BLOCKED, "blockedshot": _BLOCKED, "blk": _BLOCKED,
    "shotblocked": _BLOCKED,
}  # fmt: skip
"""Words for what became of a shot, without signs and capitals."""

SHOT_TYPE_WORDS: Mapping[str, str] = {
    "wristshot": ShotType.WRIST.value, "wrister": ShotType.WRIST.value, "w": ShotType.WRIST.value,
    "snapshot": ShotType.SNAP.value, "slapshot": ShotType.SLAP.value,
    "slapper": ShotType.SLAP.value, "backhandshot": ShotType.BACKHAND.value,
    "bh": ShotType.BACKHAND.value, "onetimer": ShotType.ONE_TIMER.value,
    "onetime": ShotType.ONE_TIMER.value, "tipin": ShotType.TIP.value,
    "tipped": ShotType.TIP.value, "deflected": ShotType.TIP.value,
    "deflection": ShotType.TIP.value, "redirect": ShotType.TIP.value,
    "wrap": ShotType.WRAP.value, "wraparound": ShotType.WRAP.value,
}  # fmt: skip
"""Words for how the puck was sent, without signs and capitals."""

SHOTS = frozenset(
    {"shot", "shots", "goal", "shotongoal", "sog", "missedshot", "blockedshot", "miss", "block",
     "save", "saved"}
)  # fmt: skip
"""Words of an event column that mean a shot."""
