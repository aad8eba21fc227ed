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

LINE_PLACES = 10
"""Places on the puck's line at which the move is tried; between them the loss runs straight."""
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


def best_commit(
    along: Array, aside: Array, here: Array, depths: Array, at_depths: Array, backed: Array
) -> tuple[Array, NDArray[np.bool_]]:
    """Return the least goal chance (m,) she can hold him to, and whether by staying put.

    She stands ``along`` (m,) [m] out on the puck's line and ``aside`` (m,) off it; ``here`` (m,)
    is the chance if he commits against her there, ``at_depths`` (n,) against her at ``depths``
    (n,) on the line, which she reaches if it lies no further than ``backed`` (n,) from her and
    not further out than she is. Between depths both chance and reach run straight.
    """
    room = backed[None, :] - np.hypot(along[:, None] - depths[None, :], aside[:, None])
    out = np.minimum(along[:, None] - depths[None, :], room)
    best = np.where(out >= 0.0, at_depths[None, :], np.inf).min(axis=1)
    for index in range(len(depths) - 1):
        near, far = out[:, index], out[:, index + 1]
        crosses = (near >= 0.0) != (far >= 0.0)
        with np.errstate(divide="ignore", invalid="ignore"):
            part = np.where(crosses, near / (near - far), 0.0)
        level = at_depths[index] + part * (at_depths[index + 1] - at_depths[index])
        best = np.where(crosses, np.minimum(best, level), best)
    stays = ~(best < here)
    return np.where(stays, here, best), stays
