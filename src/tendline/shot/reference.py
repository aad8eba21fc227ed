"""The plain numpy twin of the goal-chance kernel: double precision, written for reading.

It ranks the aims exactly where the kernel ranks them through 128 bins, and uses scipy's normal
distribution where the kernel uses a rational formula; tests hold the two together.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from tendline.shot.chance import GoalChance, aim_weights
from tendline.shot.constants import PUCK_THICKNESS
from tendline.shot.parameters import ShotParameters
from tendline.sight.cover import Bodies, require_puck
from tendline.sight.grid import Floats, MouthGrid
from tendline.sight.reference import gaps_reference

LEAST_STEEPNESS = 0.15
LEAST_WAY = 1e-4


def limb_need(gap: Floats, parameters: ShotParameters) -> Floats:
    """Return the time (limbs, m) that each limb needs to close ``gap`` (limbs, m), in seconds.

    From rest with constant acceleration to top speed; beyond its reach the whole body moves.
    """
    speed, acceleration, reach = (
        np.array(one)[:, None]
        for one in (parameters.limb_speed, parameters.limb_acceleration, parameters.limb_reach)
    )
    own = np.minimum(gap, reach)
    quick = np.sqrt(2.0 * own / acceleration)
    steady = own / speed + speed / (2.0 * acceleration)
    knee = speed**2 / (2.0 * acceleration)
    return np.asarray(np.where(own < knee, quick, steady) + (gap - own) / parameters.body_speed)


def goal_chance_reference(
    puck: ArrayLike,
    capsules: Bodies,
    grid: MouthGrid,
    parameters: ShotParameters,
    *,
    speed: float,
    delay: float = 0.0,
    hidden: float = 0.0,
    others: tuple[tuple[Bodies, float], ...] = (),
) -> GoalChance:
    """Return the same as ``goal_chance`` from the plain numpy twin."""
    from scipy.special import ndtr

    place = require_puck(puck, capsules)
    targets = grid.points
    away = targets - place
    distance = np.linalg.norm(away, axis=1)
    time = distance * (1.0 + parameters.drag * distance / 2.0) / speed
    fall = parameters.gravity * time**2 / 2.0
    low = max(PUCK_THICKNESS.value, 0.75 * grid.height / grid.rows)
    lift = np.clip((targets[:, 2] - low) / low, 0.0, 1.0)
    middle = (np.asarray(capsules.start, float) + np.asarray(capsules.end, float)).mean(axis=0) / 2
    way = np.hypot(*(place[:2] - middle[:2])) / np.hypot(place[0], place[1])
    rise = lift * fall * min(float(way), 1.0)
    reachable = np.clip(2.5 - fall / (2.0 * parameters.arc_most), 0.0, 1.0)
    reachable[lift <= 0.0] = 1.0

    cell = np.sqrt(grid.width / grid.columns * grid.height / grid.rows)
    margin = np.full(len(targets), -99.0)
    met = np.zeros(len(targets))
    for number, (body, change) in enumerate(((capsules, 0.0), *others)):
        gap, along = gaps_reference(
            place, targets, np.asarray(body.start, float), np.asarray(body.end, float),
            np.asarray(body.radius, float), np.asarray(body.limb, np.intp), rise,
        )  # fmt: skip
        apart = gap - parameters.clearance
        way = distance * along
        slow = parameters.drag * way
        arrival = way / speed * (1.0 + slow / 2.0 * (1.0 + slow / 3.0))
        far = np.maximum(apart, 0.0)
        spare = arrival - parameters.reaction - delay - change - limb_need(far, parameters)
        sure = np.array(parameters.limb_sureness)[:, None] / np.maximum(far, LEAST_WAY)
        spare = np.minimum(spare, parameters.reaction_spread * sure)
        margin = np.maximum(margin, spare.max(axis=0))
        if number == 0:
            met = np.clip(0.5 - apart / (cell * along), 0.0, 1.0).max(axis=0)
    seen = ndtr(margin / parameters.reaction_spread)
    sight = (1.0 - parameters.hidden) * (1.0 - hidden)
    save = met + (1.0 - met) * sight * seen
    goal = (1.0 - save * (1.0 - parameters.leak)).reshape(grid.rows, grid.columns)
    through_air = reachable.reshape(goal.shape)
    by_target = through_air * goal + (1.0 - through_air) * goal[0]
    across, up = blur_matrices(place, grid, parameters)
    aimed = up @ by_target @ across.T
    on_net = np.outer(up.sum(axis=1), across.sum(axis=1))
    aim = aim_weights(aimed, reachable, parameters.aim_looks)
    return GoalChance(
        float((aim * aimed).sum()), float((aim * on_net).sum()), by_target.astype(np.float32), aim
    )


def blur_matrices(
    puck: Floats, grid: MouthGrid, parameters: ShotParameters
) -> tuple[Floats, Floats]:
    """Return where an aimed puck lands: (columns, columns) and (rows, rows), aim by cell.

    Shares of a normal error over each cell. What would pass below the ice comes in along the ice;
    what passes outside the posts or over the bar is lost, so rows sum to less than one.
    """
    from scipy.special import ndtr

    level = float(np.hypot(puck[0], puck[1]))
    error = parameters.aim_error * level
    steep = max(puck[0] / level, LEAST_STEEPNESS)
    wide = np.hypot(error / steep, parameters.aim_floor)
    high = np.hypot(error, parameters.aim_floor)
    width, height = grid.width / grid.columns, grid.height / grid.rows

    def shares(off: Floats, size: float, spread: float) -> Floats:
        return np.asarray(ndtr((off + size / 2) / spread) - ndtr((off - size / 2) / spread))

    across = shares(grid.y[None, :] - grid.y[:, None], width, float(wide))
    up = shares(grid.z[None, :] - grid.z[:, None], height, float(high))
    folded = shares(grid.z[None, :] + grid.z[:, None], height, float(high))
    return across, up + folded
