"""Loose pucks: what a save leaves behind, and why she cannot stand out without end.

A save is not the end of an option. Some pucks come loose near her, and whoever gets there shoots
again while she is down, still moving and, the further out she met the shot, the less between him
and the net. The cost of that by depth is the rebound model of ``shot``, worked out once for each
goaltender; where the first shot came from changes it little. Who gets there depends on who is
near: everyone counts the less the further he is from the place in front of the net,

    attackers' share = A / (A + D + nobody),   A, D = sum exp(-distance / near)

and is taken relative to the usual share at shots of tracked games, at which the rebound model
meets the published numbers.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from tendline.base import Level, Settings, ShotType
from tendline.body import Build, Pose, Stance, posed
from tendline.ice import Goal
from tendline.play import constants as known
from tendline.play.geometry import defenders_at
from tendline.play.lanes import Array, Point
from tendline.play.options import Threat
from tendline.play.parameters import AttackModel
from tendline.play.situation import Situation
from tendline.shot import constants as shots
from tendline.shot import puck_speed, rebounds, shot_parameters
from tendline.sight import mouth_grid

DEPTHS = np.array([0.3, 0.8, 1.3, 1.8, 2.4, 3.0])
"""Depths [m] at which the cost is worked out; between them it runs straight."""
FIRST_SHOT = (10.0, 0.0, shots.PUCK_THICKNESS.value / 2.0)
"""Where the first shot comes from [m]."""
TARGETS = (29, 19)
"""Columns and rows of targets."""
NET_FRONT: Point = (known.LOOSE_OUT.value, 0.0)
"""Where loose pucks are fought for [m]."""


def second_chances(
    depth: Array, build: Build, goal: Goal, level: Level, settings: Settings
) -> Array:
    """Return the chance (same shape) that a saved shot becomes a goal by a second one.

    ``depth`` [m] is how far from the goal's centre she met the first; the usual people are near.
    """
    return np.interp(depth, DEPTHS, _by_depth(build, goal, level, _of_rebounds(settings)))


def _of_rebounds(settings: Settings) -> Settings:
    """Return the settings that rebounds hang on, so that others do not ask for them again."""
    keys = {one.key for one in known.LOOSE_SETTINGS}
    return Settings.of({key: value for key, value in settings.changed if key in keys})


@lru_cache(maxsize=64)
def _by_depth(build: Build, goal: Goal, level: Level, settings: Settings) -> Array:
    shot = shot_parameters(level)
    grid = mouth_grid(goal, columns=TARGETS[0], rows=TARGETS[1])
    costs = []
    for depth in DEPTHS:
        ready = Pose(float(depth), 0.0, 0.0)
        down = posed(build, Pose(float(depth), 0.0, 0.0, Stance.BUTTERFLY))
        found = rebounds(
            FIRST_SHOT, build, ready, grid, shot, speed=puck_speed(level, ShotType.WRIST),
            others=((down, shots.DROP_TIME.value),), settings=settings,
        )  # fmt: skip
        again = found.second_goal if found.second_shot > 0.0 else 0.0
        costs.append(found.second_shot * again / (1.0 - found.goal))
    made = np.array(costs)
    made.flags.writeable = False
    return made


def attackers_reach(situation: Situation, threat: Threat, model: AttackModel) -> float:
    """Return how much oftener than usual attackers get to a loose puck after this threat's shot."""
    time = threat.time
    mates = [one for one in situation.attackers if one.name != threat.shooter]
    places = [threat.release, *((one.x + one.vx * time, one.y + one.vy * time) for one in mates)]
    theirs = _near(np.array(places), model.loose_near)
    hers = _near(defenders_at(situation, time, model)[0], model.loose_near)
    return float(theirs / (theirs + hers + model.loose_nobody) / model.loose_usual)


def _near(places: Array, scale: float) -> float:
    away = np.hypot(places[:, 0] - NET_FRONT[0], places[:, 1] - NET_FRONT[1])
    return float(np.exp(-away / scale).sum())
