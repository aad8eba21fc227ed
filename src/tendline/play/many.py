"""Many situations in one call, and the map of the zone: the same answers as one by one."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError
from tendline.body import Pose
from tendline.play.lanes import Array
from tendline.play.losses import losses_of_many
from tendline.play.options import OptionKind
from tendline.play.parameters import PlayParameters
from tendline.play.read import prepare, read, require_clear
from tendline.play.result import Read
from tendline.play.situation import Goaltender, Situation

MAP_STEP = 1.5
"""Spacing of the map of the zone [m]."""


def read_many(
    situations: Sequence[Situation],
    goaltender: Goaltender,
    parameters: PlayParameters,
    *,
    options: frozenset[OptionKind] | None = None,
    detail: bool = False,
    workers: int = 1,
) -> tuple[Read | None, ...]:
    """Return the read of each situation; None where one has no answer.

    ``workers`` processes share the work (1: none beside this one). Each answer equals that of
    :func:`read` on its own.
    """
    one = partial(
        _read_or_none, goaltender=goaltender, parameters=parameters, options=options, detail=detail
    )
    if workers <= 1 or len(situations) < 2:
        return tuple(map(one, situations))
    with ProcessPoolExecutor(workers) as pool:
        return tuple(pool.map(one, situations, chunksize=max(1, len(situations) // (4 * workers))))


def evaluate_many(
    situations: Sequence[Situation],
    goaltender: Goaltender,
    parameters: PlayParameters,
    poses: Sequence[Pose],
    *,
    options: frozenset[OptionKind] | None = None,
    threads: int = 1,
) -> Array:
    """Return the combined loss (n,) of each situation with her at its pose; NaN for no answer.

    All pairs of option and reply of all situations go into one call of the shot's kernel, which
    ``threads`` may share. Raises ``InputError`` unless there is one pose per situation.
    """
    if len(situations) != len(poses):
        raise InputError(
            "one pose per situation is needed",
            came=f"{len(situations)} situations and {len(poses)} poses",
        )
    engines, weights, at, rows = [], [], [], []
    for row, (situation, pose) in enumerate(zip(situations, poses, strict=True)):
        try:
            require_clear(situation, pose)
            engine, shares = prepare(
                situation, goaltender, parameters, habits=None, options=options, fine=True
            )
        except InputError:
            continue
        engines.append(engine)
        weights.append(shares)
        at.append(np.array([[pose.x, pose.y, pose.facing]]))
        rows.append(row)
    found = np.full(len(situations), np.nan)
    for row, shares, table in zip(
        rows, weights, losses_of_many(engines, at, threads=threads), strict=True
    ):
        found[row] = shares.loss(table.loss)[0]
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class DepthMap:
    """Where she should stand for every place of the puck: ``x`` (n,) and ``y`` (m,) [m].

    ``depth``, ``offset`` and ``loss`` (n, m): recommended depth, distance to the left of the line
    [m], and the chance of a goal there; NaN where the puck cannot be or there is no answer.
    ``worst`` (n, m) names the option that costs most, empty where there is none.
    """

    x: Array
    y: Array
    depth: Array
    offset: Array
    loss: Array
    worst: NDArray[np.str_]


def depth_map(
    situation: Situation,
    goaltender: Goaltender,
    parameters: PlayParameters,
    *,
    step: float = MAP_STEP,
    options: frozenset[OptionKind] | None = None,
) -> DepthMap:
    """Return the read for the carrier at every place of the zone, everybody else as he is.

    The map runs from behind the goal line to the blue line, every ``step`` [m], symmetric about
    the middle. Each answer equals that of :func:`read` on its own.
    """
    if not 0.25 <= step <= 5.0:
        raise InputError("spacing of the map", came=f"{step:g} m", allowed="0.25 to 5 m")
    rink = situation.rink
    behind = int(-rink.x_min // step)
    x = step * np.arange(-behind, int(min(rink.blue_line_x, rink.x_max) // step) + 1.0)
    half = int(rink.half_width // step)
    y = step * np.arange(-half, half + 1.0)
    shape = (len(x), len(y))
    depth, offset, loss = (np.full(shape, np.nan) for _ in range(3))
    worst = np.full(shape, "", dtype="U64")
    for row, out in enumerate(x):
        for column, aside in enumerate(y):
            moved = _moved(situation, float(out), float(aside))
            found = moved and _read_or_none(
                moved, goaltender=goaltender, parameters=parameters, options=options, detail=False
            )
            if not found:
                continue
            depth[row, column], offset[row, column] = found.depth, found.offset
            loss[row, column] = found.loss
            worst[row, column] = found.worst.words
    for array in (x, y, depth, offset, loss, worst):
        array.flags.writeable = False
    return DepthMap(x=x, y=y, depth=depth, offset=offset, loss=loss, worst=worst)


def _moved(situation: Situation, x: float, y: float) -> Situation | None:
    """Return the situation with the carrier at a place, or None if he cannot be there."""
    try:
        return replace(situation, carrier=replace(situation.carrier, x=x, y=y), puck=None)
    except InputError:
        return None


def _read_or_none(
    situation: Situation,
    *,
    goaltender: Goaltender,
    parameters: PlayParameters,
    options: frozenset[OptionKind] | None,
    detail: bool,
) -> Read | None:
    try:
        return read(situation, goaltender, parameters, options=options, detail=detail)
    except InputError:
        return None
