"""Flights, tips and rebounds of many shots in one call: the same answers, NaN where there is none.

Tips go through the batched goal chance; flights and rebounds ask the single question row by row, so
there is no second formula.
"""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from tendline.base import DEFAULT_SETTINGS, InputError, Level, Settings, ShotType
from tendline.body import Build, Pose, Stance
from tendline.shot import constants as known
from tendline.shot.chance import GoalChances, goal_chance_many
from tendline.shot.flight import Flight, flight
from tendline.shot.parameters import ShotParameters
from tendline.shot.rebounds import rebounds
from tendline.shot.tips import loosened, share_touched
from tendline.sight.cover import Bodies, pair_rows
from tendline.sight.grid import Floats, MouthGrid


def flight_many(
    pucks: ArrayLike,
    targets: ArrayLike,
    *,
    speed: ArrayLike,
    settings: Settings = DEFAULT_SETTINGS,
) -> dict[str, Floats]:
    """Return flights from ``pucks`` to ``targets``, (m, 3) or (3,) each, by field of ``Flight``.

    ``speed`` one number or (m,). NaN where :func:`flight` has no answer (out of reach, NaN). Raises
    :class:`InputError` for shapes that do not fit.
    """
    starts, ends = pair_rows(pucks, targets)
    names = [one.name for one in dataclasses.fields(Flight)]
    made = np.full((len(starts), len(names)), np.nan)
    for row, velocity in enumerate(_one_each(speed, len(starts))):
        try:
            found = flight(starts[row], ends[row], speed=velocity, settings=settings)
        except InputError:
            continue
        made[row] = dataclasses.astuple(found)
    return dict(zip(names, made.T, strict=True))


@dataclass(frozen=True, slots=True)
class TippedShots:
    """Many shots past a ready blade: ``chance`` (m,) of a goal in all, ``share`` of them touched,
    ``tipped`` once touched and ``direct`` if not."""

    chance: Floats
    share: float
    tipped: GoalChances
    direct: GoalChances


def tipped_chance_many(
    pucks: ArrayLike,
    blades: ArrayLike,
    poses: ArrayLike,
    bodies: tuple[Bodies, ...],
    grid: MouthGrid,
    parameters: ShotParameters,
    *,
    speed: ArrayLike,
    delay: ArrayLike = 0.0,
    hidden: ArrayLike = 0.0,
    held: ArrayLike = 0,
    change: ArrayLike | None = None,
    share: float | None = None,
    settings: Settings = DEFAULT_SETTINGS,
) -> TippedShots:
    """Return what :func:`tipped_chance` does for many shots, batched.

    ``pucks`` and ``blades`` (m, 3) or (3,); the other arguments and what raises as in
    ``goal_chance_many``. NaN where either way has no answer.
    """
    touched = share_touched(share, settings)
    loose = loosened(parameters, settings)
    slower = np.asarray(speed, float) * settings.value_of(known.SPEED_RATIO[ShotType.TIP])
    direct = goal_chance_many(
        pucks, poses, bodies, grid, parameters, speed=speed, delay=delay, hidden=hidden, held=held,
        change=change,
    )  # fmt: skip
    tipped = goal_chance_many(
        blades, poses, bodies, grid, loose, speed=slower, delay=delay, hidden=hidden, held=held,
        change=change,
    )  # fmt: skip
    chance = touched * tipped.chance + (1.0 - touched) * direct.chance
    return TippedShots(chance, touched, tipped, direct)


@dataclass(frozen=True, slots=True)
class ReboundShares:
    """What follows many shots on goal, (m,) each: the totals of ``Rebounds``."""

    goal: Floats
    held: Floats
    loose: Floats
    second_shot: Floats
    second_goal: Floats


def rebounds_many(
    pucks: ArrayLike,
    her: Build,
    poses: ArrayLike,
    grid: MouthGrid,
    parameters: ShotParameters,
    *,
    stance: Stance,
    speed: ArrayLike,
    delay: ArrayLike = 0.0,
    level: Level | None = None,
    settings: Settings = DEFAULT_SETTINGS,
) -> ReboundShares:
    """Return the totals of :func:`rebounds` for many shots at a goaltender in one stance.

    ``pucks`` (m, 3) or (3,); ``poses`` (m, 3) or (3,): x, y, facing; ``speed`` and ``delay`` one
    number or (m,). NaN where the single question has no answer. Raises :class:`InputError` for
    shapes that do not fit.
    """
    shots, places = pair_rows(pucks, poses)
    names = [one.name for one in dataclasses.fields(ReboundShares)]
    made = np.full((len(shots), len(names)), np.nan)
    late = _one_each(delay, len(shots))
    for row, velocity in enumerate(_one_each(speed, len(shots))):
        x, y, facing = (float(one) for one in places[row])
        if not all(map(math.isfinite, (x, y, facing))):
            continue
        try:
            found = rebounds(
                shots[row], her, Pose(x, y, facing, stance), grid, parameters, speed=velocity,
                delay=late[row], level=level, settings=settings,
            )  # fmt: skip
        except InputError:
            continue
        made[row] = [getattr(found, name) for name in names]
    return ReboundShares(*made.T)


def _one_each(value: ArrayLike, count: int) -> list[float]:
    given = np.asarray(value, float)
    if given.shape not in ((), (count,)):
        raise InputError(
            "one number for all or one for each", came=f"shape {given.shape}",
            allowed=f"() or ({count},)",
        )  # fmt: skip
    return [float(one) for one in np.broadcast_to(given, (count,))]
