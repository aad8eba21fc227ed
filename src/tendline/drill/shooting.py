"""What a shot in a drill costs, and whether she goes down for it: asked of ``shot``."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from tendline.base import InputError, ShotType
from tendline.body import Capsules, Pose, Stance, posed
from tendline.drill.timeline import PuckEvent
from tendline.drill.vocabulary import Target
from tendline.drill.world import World
from tendline.motion import is_down
from tendline.shot import goal_chance
from tendline.shot.constants import PUCK_THICKNESS
from tendline.sight import mouth_grid

COLUMNS, ROWS = 19, 13
"""Targets on the goal mouth for a release; numerical, half as fine as for pictures."""
_STAYS_UP = frozenset(
    {Target.HIGH_GLOVE, Target.HIGH_BLOCKER, Target.BODY}
)  # fmt: skip
STEP, TURN = 0.05, math.radians(3.0)
"""Rounding of places [m] and facings [rad] under which answers are remembered; numerical."""


def chance_of_goal(
    event: PuckEvent, pose: Pose, world: World, *, delay: float, hidden: float
) -> float | None:
    """Return the chance of a goal of a released shot; None where the shot's model has no answer.

    ``delay`` [s] is what she still lacks to be set, ``hidden`` the share of the puck's lines to
    her eyes that bodies block.
    """
    return _chance(
        world, event.shot, round(event.speed, 1), _cell(event.place),
        (*_cell((pose.x, pose.y)), TURN * round(pose.facing / TURN), pose.stance),
        round(delay, 2), round(hidden, 1),
    )  # fmt: skip


def goes_down(event: PuckEvent, pose: Pose, world: World) -> bool:
    """Return whether she drops for this shot: low ones yes, high ones and hand tosses no.

    Where the script names no aim, whatever lets fewer shots in from there decides.
    """
    if event.toss and (event.target is None or not event.target.is_low):
        return False
    if event.target is not None:
        return event.target not in _STAYS_UP
    if event.shot is ShotType.WRAP or event.place[0] < 1.0:
        return True
    up = chance_of_goal(event, pose, world, delay=0.0, hidden=0.0)
    low = Pose(pose.x, pose.y, pose.facing, Stance.BUTTERFLY)
    down = chance_of_goal(event, low, world, delay=0.0, hidden=0.0)
    return up is None or down is None or down <= up


def _cell(place: tuple[float, float]) -> tuple[float, float]:
    return STEP * round(place[0] / STEP), STEP * round(place[1] / STEP)


@lru_cache(maxsize=20000)
def _chance(
    world: World,
    shot: ShotType,
    speed: float,
    place: tuple[float, float],
    her: tuple[float, float, float, Stance],
    delay: float,
    hidden: float,
) -> float | None:
    pose = Pose(*her)
    puck = (place[0], place[1], 0.5 * PUCK_THICKNESS.value)
    grid = mouth_grid(world.rink.goal, columns=COLUMNS, rows=ROWS)
    build = world.goaltender.build
    others: tuple[tuple[Capsules, float], ...] = ()
    if not is_down(pose.stance):
        low = Pose(pose.x, pose.y, pose.facing, Stance.BUTTERFLY)
        others = ((posed(build, low), world.goaltender.motion.drop),)
    try:
        found = goal_chance(
            puck, posed(build, pose), grid, world.play.shot, speed=speed, delay=delay,
            hidden=hidden, others=others,
        )  # fmt: skip
    except InputError:
        return None
    return None if np.isnan(found.chance) else float(found.chance)
