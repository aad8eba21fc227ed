"""Going round her: the attack that keeps her from coming out without end.

He skates at her. Just beyond her stick he either *pulls* the puck across to his forehand or
backhand and shoots beside her, or skates *round* her, wide of her stick, and shoots into what she
has left behind. While he comes she may retreat along the puck's line; the place where she is when
he commits decides. Far out, the way round leads to a goal that she cannot get back to; deep,
there is no room to go round, but the shot before the move sees more of the net.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tendline.base import ShotType, Side
from tendline.motion import MoveKind
from tendline.play.geometry import LEAST_OUT, approach_speed, carry_speed
from tendline.play.lanes import Array, Point, skating_time
from tendline.play.parameters import AttackModel, PlayParameters
from tendline.play.situation import Goaltender, Situation

LINE_PLACES = 6
"""Depths at which the move is tried; between them the loss runs straight."""
COMMIT_OFFSETS = (-0.8, -0.2, 0.2, 0.8)
"""Distances [m] from the puck's line, to her left, at which the move is tried."""
SHADES = np.linspace(-0.3, 0.3, 25)
"""Distances [m] from the line among which she picks the best to be met at."""
FAR = 50.0
"""A retreat that never comes to its end [m]."""


@dataclass(frozen=True, slots=True)
class Moves:
    """His moves from each of m places, in ``BLOCKS`` blocks of m rows; all arrays (4 m, ...).

    ``start`` (4m, 3) her pose, ``release`` (4m, 2) [m], ``time`` [s] from commitment to release,
    ``speed`` [m/s] of the shot. Blocks: pull to her left, to her right, round her left, her right.
    """

    start: Array
    release: Array
    time: Array
    speed: Array


BLOCKS = 4


def commit_depths(puck: Point, model: AttackModel) -> Array:
    """Return the depths (n,) [m] on the puck's line at which he may commit."""
    far = max(math.hypot(*puck) - model.deke_clearance, model.depth_least + 0.1)
    return np.linspace(model.depth_least, min(far, model.depth_most), LINE_PLACES)


def moves_from(poses: Array, situation: Situation, parameters: PlayParameters) -> Moves:
    """Return all his moves against someone at ``poses`` (m, 3)."""
    model, puck = parameters.model, situation.puck_place
    ahead = np.array(puck) - poses[:, :2]
    distance = np.hypot(ahead[:, 0], ahead[:, 1])
    ahead = ahead / np.maximum(distance, 1e-9)[:, None]
    left = np.column_stack([-ahead[:, 1], ahead[:, 0]])
    snap = parameters.release_time(ShotType.SNAP)
    ends, times, speeds = [], [], []
    for side, sign in ((Side.LEFT, 1.0), (Side.RIGHT, -1.0)):
        on_forehand = situation.carrier.hand is side.other
        reach = model.deke_forehand if on_forehand else model.deke_backhand
        ends.append(poses[:, :2] + model.deke_end * ahead + sign * reach * left)
        times.append(np.full(len(poses), reach / (model.deke_share * parameters.top_speed) + snap))
        speeds.append(_speed(on_forehand, parameters))
    pace = carry_speed(situation, parameters)
    for side, sign in ((Side.LEFT, 1.0), (Side.RIGHT, -1.0)):
        on_forehand = situation.carrier.hand is side.other
        beside = poses[:, :2] + sign * model.round_width * left
        end = model.round_out * ahead + sign * model.round_aside * left
        way = math.hypot(model.deke_clearance, model.round_width) + np.hypot(*(end - beside).T)
        ends.append(end)
        times.append(way / pace + snap)
        speeds.append(_speed(on_forehand, parameters))
    release = np.concatenate(ends)
    release[:, 0] = np.maximum(release[:, 0], LEAST_OUT)
    return Moves(
        np.concatenate([poses] * BLOCKS), release, np.concatenate(times),
        np.repeat(speeds, len(poses)),
    )  # fmt: skip


def _speed(on_forehand: bool, parameters: PlayParameters) -> float:
    return parameters.shot_speed(ShotType.SNAP if on_forehand else ShotType.BACKHAND)


def retreats(puck: Point, depths: Array, situation: Situation, goaltender: Goaltender,
             parameters: PlayParameters) -> Array:  # fmt: skip
    """Return how far (n,) [m] she can have backed up when he commits at each depth (n,)."""
    model = parameters.model
    law = goaltender.motion.law(MoveKind.C_CUT_BACK)
    away = math.hypot(*puck)
    times = np.array(
        [
            skating_time(
                max(away - depth - model.deke_clearance, 0.0),
                speed=approach_speed(situation),
                top_speed=carry_speed(situation, parameters),
                acceleration=model.skating_acceleration,
            )
            for depth in depths
        ]
    )
    return law.covered_many(FAR, np.maximum(times - goaltender.motion.reaction, 0.0))


@dataclass(frozen=True, slots=True)
class Surface:
    """His chances by where she is when he commits.

    ``chance`` (blocks, offsets, n) at ``COMMIT_OFFSETS`` and ``depths`` (n,) [m]; ``backed`` (n,)
    [m] is how far she can have retreated when he commits at each depth. Between those places each
    of his moves runs straight; he takes the best of them.
    """

    depths: Array
    chance: Array
    backed: Array

    def at(self, along: Array, aside: Array) -> Array:
        """Return his chance (m,) against her at ``along`` and ``aside`` (m,) [m] of the line.

        Beyond the places tried, the nearest of them counts.
        """
        row, across = _cell(np.asarray(COMMIT_OFFSETS), aside)
        column, out = _cell(self.depths, along)
        near = (1.0 - out) * self.chance[:, row, column] + out * self.chance[:, row, column + 1]
        far = (1.0 - out) * self.chance[:, row + 1, column] + out * (
            self.chance[:, row + 1, column + 1]
        )
        return np.asarray(((1.0 - across) * near + across * far).max(axis=0))

    def shaded(self) -> tuple[Array, Array]:
        """Return the least chance (n,) at each depth and how far off the line (n,) that is."""
        along = np.repeat(self.depths, len(SHADES))
        chance = self.at(along, np.tile(SHADES, len(self.depths))).reshape(len(self.depths), -1)
        best = chance.argmin(axis=1)
        return chance.min(axis=1), SHADES[best]


def best_commit(surface: Surface, along: Array, aside: Array) -> tuple[Array, Array, Array]:
    """Return the least goal chance (m,) she can hold him to, and where (m,) along and aside.

    She stands ``along`` (m,) [m] out on the puck's line and ``aside`` (m,) off it. She may be met
    there, or at the best place of any depth that is not further out than she is and no further
    from her than she can back up by then. Between depths chance and reach run straight.
    """
    here = surface.at(along, aside)
    chance, shade = surface.shaded()
    depths, backed = surface.depths, surface.backed
    ahead = along[:, None] - depths[None, :]
    away = np.hypot(ahead, aside[:, None] - shade[None, :])
    out = np.minimum(ahead, backed[None, :] - away)
    best, best_along, best_aside = here, along.astype(float), aside.astype(float)
    for index in range(len(depths)):
        parts = [(out[:, index] >= 0.0, np.zeros_like(here))]
        if index + 1 < len(depths):
            near, far = out[:, index], out[:, index + 1]
            crosses = (near >= 0.0) != (far >= 0.0)
            parts.append(
                (crosses, np.where(crosses, near / np.where(crosses, near - far, 1.0), 0.0))
            )
        after = min(index + 1, len(depths) - 1)
        for possible, part in parts:
            level = chance[index] + part * (chance[after] - chance[index])
            better = possible & (level < best)
            best = np.where(better, level, best)
            best_along = np.where(
                better, depths[index] + part * (depths[after] - depths[index]), best_along
            )
            best_aside = np.where(
                better, shade[index] + part * (shade[after] - shade[index]), best_aside
            )
    return best, best_along, best_aside


def _cell(knots: Array, values: Array) -> tuple[NDArray[np.int64], Array]:
    """Return the stretch between knots in which each value lies, and the share along it."""
    held = np.clip(values, knots[0], knots[-1])
    index = np.clip(np.searchsorted(knots, held, side="right") - 1, 0, len(knots) - 2)
    return index, (held - knots[index]) / (knots[index + 1] - knots[index])
