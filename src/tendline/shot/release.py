"""Where the puck leaves the stick: beside and ahead of the shooter, by hand and kind of shot."""

from __future__ import annotations

import math

import numpy as np

from tendline.base import DEFAULT_SETTINGS, InputError, Settings, ShotType, Side
from tendline.shot import constants as known
from tendline.sight.grid import Floats


def release_point(
    x: float,
    y: float,
    *,
    hand: Side,
    shot_type: ShotType = ShotType.WRIST,
    facing: float | None = None,
    settings: Settings = DEFAULT_SETTINGS,
) -> Floats:
    """Return the puck's centre (3,) at release for a shooter at ``x``, ``y`` (m), on the ice.

    ``hand`` is the side of his own body on which he holds the blade (a left-hand shot: his left);
    ``facing`` (rad) is where he looks, by default the goal's centre. A backhand leaves from the
    other side; a tip or wraparound from the blade ahead of him. Raises :class:`InputError` for
    a place or a facing that is not finite.
    """
    if not all(map(math.isfinite, (x, y, facing or 0.0))):
        raise InputError(
            "a shooter needs a place", came=f"({x}, {y}) facing {facing}", item="shooter"
        )
    look = math.atan2(-y, -x) if facing is None else facing
    ahead = settings.value_of(known.BLADE_AHEAD)
    sign = 1.0 if hand is Side.LEFT else -1.0
    if shot_type is ShotType.BACKHAND:
        aside = -sign * settings.value_of(known.BACKHAND_OUT)
    elif shot_type in (ShotType.TIP, ShotType.WRAP):
        aside = 0.0
    else:
        aside = sign * settings.value_of(known.BLADE_OUT)
    cosine, sine = math.cos(look), math.sin(look)
    return np.array(
        [
            x + ahead * cosine - aside * sine,
            y + ahead * sine + aside * cosine,
            known.PUCK_THICKNESS.value / 2,
        ]
    )
