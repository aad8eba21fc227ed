"""Tips: a mate's blade near the net changes the puck's way after she has begun to read it."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from numpy.typing import ArrayLike

from tendline.base import DEFAULT_SETTINGS, Settings, ShotType, require_number
from tendline.shot import constants as known
from tendline.shot.chance import GoalChance, goal_chance
from tendline.shot.parameters import ShotParameters
from tendline.sight.cover import Bodies
from tendline.sight.grid import MouthGrid


@dataclass(frozen=True, slots=True)
class TippedShot:
    """A shot past a ready blade: ``chance`` of a goal in all, ``tipped`` once touched and
    ``direct`` if it passes untouched; ``share`` of such shots that are touched."""

    chance: float
    share: float
    tipped: GoalChance
    direct: GoalChance


def share_touched(share: float | None, settings: Settings) -> float:
    """Return the share of shots that a ready blade touches; raises ``InputError`` outside 0..1."""
    touched = settings.value_of(known.TIP_SHARE) if share is None else share
    return require_number("share of shots touched", touched, low=0.0, high=1.0, unit="")


def loosened(parameters: ShotParameters, settings: Settings) -> ShotParameters:
    """Return the parameters of a shot off a blade: worse aimed, and at no chosen place."""
    worse = parameters.aim_error * settings.value_of(known.TIP_AIM)
    return dataclasses.replace(parameters, aim_error=worse, aim_looks=1.0)


def tipped_chance(
    puck: ArrayLike,
    blade: ArrayLike,
    capsules: Bodies,
    grid: MouthGrid,
    parameters: ShotParameters,
    *,
    speed: float,
    delay: float = 0.0,
    hidden: float = 0.0,
    others: tuple[tuple[Bodies, float], ...] = (),
    share: float | None = None,
    settings: Settings = DEFAULT_SETTINGS,
) -> TippedShot:
    """Return what a shot from ``puck`` (3,) costs when a mate's ``blade`` (3,) may touch it.

    From the touch on it is a new, slower and less well aimed shot from the blade, to which she
    reacts from the touch; what she did for the first line is lost. ``share`` overrides the setting
    ``shot.tip_share``. Other parameters as in ``goal_chance``; raises as it does.
    """
    touched = share_touched(share, settings)
    loose = loosened(parameters, settings)
    slower = settings.value_of(known.SPEED_RATIO[ShotType.TIP])
    words = {"delay": delay, "hidden": hidden}
    direct = goal_chance(puck, capsules, grid, parameters, speed=speed, others=others, **words)
    tipped = goal_chance(blade, capsules, grid, loose, speed=speed * slower, others=others, **words)
    return TippedShot(
        touched * tipped.chance + (1.0 - touched) * direct.chance, touched, tipped, direct
    )
