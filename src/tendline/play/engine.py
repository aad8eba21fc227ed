"""What every evaluation of one situation shares, and what is worked out once for her body."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from tendline.body import Build, post_pose
from tendline.ice import Goal
from tendline.play.ground import Line
from tendline.play.lanes import Array, Point
from tendline.play.options import Threat
from tendline.play.parameters import PlayParameters
from tendline.play.reply import POST_STAND, STANCES, Limits
from tendline.play.situation import Goaltender, Situation
from tendline.sight import MouthGrid, mouth_grid

FINE, COARSE = (37, 25), (15, 11)
"""Columns and rows of targets on the goal mouth: for answers, and for the search."""


@dataclass(frozen=True, slots=True)
class Engine:
    """What every evaluation of one situation shares.

    ``late`` [s] is the time still missing until she is set when it all begins: it delays her save
    of a shot taken now and her reaction to everything else. ``room`` 0 to 1 is how free the
    attackers are to pick their places (see ``ShotParameters.with_room``).
    """

    situation: Situation
    goaltender: Goaltender
    parameters: PlayParameters
    threats: tuple[Threat, ...]
    grid: MouthGrid
    line: Line
    late: float = 0.0
    room: float = 0.0

    @property
    def puck(self) -> Point:
        """Return where the puck lies [m]."""
        return self.situation.puck_place

    def puck_line_place(self, along: float, aside: float) -> Point:
        """Return the place [m] at ``along`` and ``aside`` of the line from the goal to the puck."""
        away = math.hypot(*self.puck)
        ux, uy = self.puck[0] / away, self.puck[1] / away
        return (along * ux - aside * uy, along * uy + aside * ux)

    @property
    def limits(self) -> Limits:
        """Return what bounds her replies."""
        model = self.parameters.model
        return Limits(
            least_depth=model.depth_least,
            most_depth=model.reply_depth_most,
            puck_gap=model.puck_gap,
            most_delay=model.moving_delay_most,
            save_reaction=self.parameters.shot.reaction,
            seal_from=math.radians(model.seal_from),
            seal_near=model.seal_near,
            posts=post_poses(self.goaltender.build, self.situation.rink.goal),
        )


@lru_cache(maxsize=64)
def post_poses(build: Build, goal: Goal) -> Array:
    """Return her poses (2, 2, 3) on the posts: standing and reverse VH; her left and right."""
    poses = [post_pose(build, one, goal) for one in STANCES[POST_STAND:]]
    made = np.array([(one.x, one.y, one.facing) for one in poses]).reshape(2, 2, 3)
    made.flags.writeable = False
    return made


def target_grid(goal: Goal, *, fine: bool) -> MouthGrid:
    """Return the targets on the goal mouth: fine for answers, coarse for the search."""
    columns, rows = FINE if fine else COARSE
    return mouth_grid(goal, columns=columns, rows=rows)
