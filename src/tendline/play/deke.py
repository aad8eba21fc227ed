"""A carrier who comes in: he shoots late or goes round her, and she backs up with him meanwhile.

He skates at her. Near her he either *shoots late*, a stride before her stick reaches the puck, or,
just beyond her stick, *pulls* the puck across to his forehand or backhand and shoots beside her, or
skates *round* her, wide of her stick, and shoots into what she has left behind. While he comes she
may retreat along the puck's line; the place where she is when he commits decides, and it is one
place for all of these: she does not know which it will be. Far out, the way round leads to a goal
that she cannot get back to; deep, the late shot sees more of the net.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

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
COMMIT_OFFSETS = (-0.7, 0.0, 0.7)
"""Distances [m] from the puck's line, to her left, at which the move is tried."""
COMMIT_PLACES = 55
"""Depths among which she picks where to be met."""
SHADES = np.array(sorted(np.linspace(-0.3, 0.3, 25), key=abs))
"""Distances [m] from the line among which she picks the best to be met at, nearest first."""
FAR = 50.0
"""A retreat that never comes to its end [m]."""


def late_releases(puck: Point, poses: Array, gap: float) -> Array:
    """Return where (m, 2) [m] he shoots late against someone at ``poses`` (m, 3): ``gap`` in front
    of her, toward the puck, or where the puck is if that is nearer.
    """
    ahead = np.array(puck) - poses[:, :2]
    distance = np.maximum(np.hypot(ahead[:, 0], ahead[:, 1]), 1e-9)
    return poses[:, :2] + np.minimum(gap / distance, 1.0)[:, None] * ahead


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
             parameters: PlayParameters) -> tuple[Array, Array]:  # fmt: skip
    """Return how far [m] she can have backed up when he commits at each depth, each (n,).

    The first is how far she can back up and be set again, the second how far at all.
    """
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
    left = times - goaltender.motion.reaction
    return (
        law.covered_many(FAR, np.maximum(left - law.settle, 0.0)),
        law.covered_many(FAR, np.maximum(left, 0.0)),
    )


@dataclass(frozen=True, slots=True, eq=False)
class Surface:
    """His chances by where she is when he commits.

    ``round_her`` (blocks, offsets, n) and ``late_shot`` (1, offsets, n) at ``COMMIT_OFFSETS`` and
    ``depths`` (n,) [m] are those against her standing there; the two that follow, (blocks, n) and
    (n,), those against her still backing up on the line. ``weights`` (2,) say how often going round
    her and the late shot succeed as tried, 0 where one is not among his options. ``backed`` (n,)
    [m] is how far she can have retreated when he commits at each depth, and ``set_again`` (n,) how
    far if she is to be set again. Between those places each of his moves runs straight; he takes
    the best of them.
    """

    depths: Array
    round_her: Array
    late_shot: Array
    round_her_moving: Array
    late_shot_moving: Array
    weights: Array
    set_again: Array
    backed: Array

    def at(self, along: Array, aside: Array) -> Array:
        """Return his chances (2, m), going round her and shooting late, against her at ``along``
        and ``aside`` (m,) [m] of the line.

        Beyond the places tried, the nearest of them counts.
        """
        across, out = _cell(np.asarray(COMMIT_OFFSETS), aside), _cell(self.depths, along)
        return np.stack(
            [
                _inside(self.round_her, across, out).max(axis=0),
                _inside(self.late_shot, across, out)[0],
            ]
        )

    def cost(self, chances: Array) -> Array:
        """Return what he makes of chances (2, ...) at best (...)."""
        weights = self.weights.reshape(2, *(1,) * (chances.ndim - 1))
        return np.asarray((weights * chances).max(axis=0))

    def shaded(self, depths: Array) -> tuple[Array, Array, Array]:
        """Return his chances (2, n) at ``depths`` (n,) against her standing where it costs least,
        how far off the line that is (n,), and the chances (2, n) against her backing up there.
        """
        count = len(depths)
        chance = self.at(np.repeat(depths, len(SHADES)), np.tile(SHADES, count))
        chance = chance.reshape(2, count, len(SHADES))
        best, rows = self.cost(chance).argmin(axis=1), np.arange(count)
        shade, standing = SHADES[best], chance[:, rows, best]
        backing = [np.interp(depths, self.depths, one) for one in self.round_her_moving]
        shot = np.interp(depths, self.depths, self.late_shot_moving)
        return standing, shade, np.maximum(np.stack([np.max(backing, axis=0), shot]), standing)


Cell = tuple[NDArray[np.int64], Array]


def _inside(chance: Array, offset: Cell, depth: Cell) -> Array:
    """Return chances (blocks, m) between the places tried."""
    (row, across), (column, out) = offset, depth
    near = (1.0 - out) * chance[:, row, column] + out * chance[:, row, column + 1]
    far = (1.0 - out) * chance[:, row + 1, column] + out * chance[:, row + 1, column + 1]
    return np.asarray((1.0 - across) * near + across * far)


def bridged(chance: Array) -> Array:
    """Return chances (..., n) with places without an answer (NaN) bridged from their neighbours.

    The shot has no answer where the puck would leave from inside her.
    """
    filled = chance.copy()
    places = np.arange(chance.shape[-1])
    for index in np.ndindex(chance.shape[:-1]):
        known = np.isfinite(chance[index])
        if known.any() and not known.all():
            filled[index] = np.interp(places, places[known], chance[index][known])
    return filled


def best_commit(surface: Surface, along: Array, aside: Array) -> tuple[Array, Array, Array]:
    """Return the goal chances (2, m), round her and late, that she can hold him to, and where.

    She stands ``along`` (m,) [m] out on the puck's line and ``aside`` (m,) off it. She may be met
    there, or on her way to the best place of any depth that is not further out than she is: in it,
    or as far toward it as she can back up by then. As far as she can be set again backing up costs
    nothing; from there on she is the later to push across the further she must come: to the
    furthest that she can reach his chance runs straight.
    """
    here = surface.at(along, aside)
    depths, standing, shade, moving, free, backed = _met_at(surface)
    back, across = depths[None, :] - along[:, None], shade[None, :] - aside[:, None]
    away = np.maximum(np.hypot(back, across), 1e-9)
    part = np.minimum(backed / away, 1.0)
    out, off = along[:, None] + part * back, aside[:, None] + part * across
    late = np.clip((away - free) / np.maximum(backed - free, 1e-9), 0.0, 1.0)
    level = surface.at(out.ravel(), off.ravel()).reshape(2, *out.shape)
    level = level + late * (moving - standing)[:, None, :]
    cost = np.where(back <= 0.0, surface.cost(level), np.inf)
    best, rows = cost.argmin(axis=1), np.arange(len(along))
    stays = surface.cost(here) <= cost[rows, best]
    return (
        np.where(stays, here, level[:, rows, best]),
        np.where(stays, along, out[rows, best]),
        np.where(stays, aside, off[rows, best]),
    )


@lru_cache(maxsize=128)
def _met_at(surface: Surface) -> tuple[Array, Array, Array, Array, Array, Array]:
    """Return the depths (n,) at which she may be met, and what :func:`best_commit` needs there."""
    depths = np.linspace(surface.depths[0], surface.depths[-1], COMMIT_PLACES)
    standing, shade, moving = surface.shaded(depths)
    free = np.interp(depths, surface.depths, surface.set_again)
    return depths, standing, shade, moving, free, np.interp(depths, surface.depths, surface.backed)


def _cell(knots: Array, values: Array) -> Cell:
    """Return the stretch between knots in which each value lies, and the share along it."""
    held = np.clip(values, knots[0], knots[-1])
    index = np.clip(np.searchsorted(knots, held, side="right") - 1, 0, len(knots) - 2)
    return index, (held - knots[index]) / (knots[index + 1] - knots[index])
