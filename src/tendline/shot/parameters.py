"""What decides a shot and a save at one playing level, with the coach's settings applied."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from tendline.base import DEFAULT_SETTINGS, Constant, Level, Settings, ShotType, require_number
from tendline.shot import constants as known

PUCK_FACE = known.PUCK_DIAMETER.value * known.PUCK_THICKNESS.value


@dataclass(frozen=True)
class ShotParameters:
    """Reaction, reach and aim at one level; seconds, metres, radians, shares.

    The tuples hold one number per limb in the order of ``body.Limb``; speeds and accelerations
    already include the level's quickness.
    """

    level: Level
    reaction: float
    reaction_spread: float
    aim_error: float
    aim_floor: float
    aim_looks: float
    hidden: float
    leak: float
    clearance: float
    limb_speed: tuple[float, ...]
    limb_acceleration: tuple[float, ...]
    limb_reach: tuple[float, ...]
    limb_sureness: tuple[float, ...]
    body_speed: float
    drag: float
    gravity: float
    arc_most: float
    free_floor: float
    free_looks: float

    def with_room(self, room: float) -> ShotParameters:
        """Return the parameters against a shooter with time and room to pick his place.

        ``room`` 0 is an ordinary shooter (hurried, sticks about, as game tables show him), 1 one
        whom nobody hinders, as on a breakaway. Raises ``InputError`` outside 0..1.
        """
        share = require_number("room", room, low=0.0, high=1.0, unit="", item="shooter")
        return replace(
            self,
            aim_floor=self.aim_floor
            + share * (min(self.free_floor, self.aim_floor) - self.aim_floor),
            aim_looks=self.aim_looks
            + share * (max(self.free_looks, self.aim_looks) - self.aim_looks),
        )

    @cached_property
    def limbs(self) -> NDArray[np.float32]:
        """Return what the kernel needs of each limb (limbs, 4): speed, acceleration, reach, and
        the way at which it is sure to one spread."""
        table = np.array(
            [self.limb_speed, self.limb_acceleration, self.limb_reach, self.limb_sureness],
            np.float32,
        )
        return np.ascontiguousarray(table.T)


def shot_constants(level: Level) -> tuple[Constant, ...]:
    """Return every constant that :func:`shot_parameters` uses at a level."""
    return (
        known.REACTION[level], known.REACTION_SPREAD, known.AIM_ERROR[level], known.AIM_FLOOR,
        known.AIM_LOOKS, known.HIDDEN, known.LEAK, known.CLEARANCE, *known.LIMB_SPEED,
        *known.LIMB_ACCELERATION, *known.LIMB_REACH, *known.LIMB_SURENESS, known.BODY_SPEED,
        known.QUICKNESS[level], known.SURENESS[level],
        known.DRAG_COEFFICIENT, known.AIR_DENSITY, known.GRAVITY, known.ARC_MOST[level],
        known.FREE_FLOOR, known.FREE_LOOKS,
    )  # fmt: skip


def drag_per_metre(settings: Settings = DEFAULT_SETTINGS) -> float:
    """Return the share of speed a flat puck loses per metre: rho C A / (2 m)."""
    mass = (known.PUCK_MASS_MIN.value + known.PUCK_MASS_MAX.value) / 2
    density, coefficient = (
        settings.value_of(known.AIR_DENSITY),
        settings.value_of(known.DRAG_COEFFICIENT),
    )
    return density * coefficient * PUCK_FACE / (2 * mass)


@lru_cache(maxsize=64)
def shot_parameters(level: Level, settings: Settings = DEFAULT_SETTINGS) -> ShotParameters:
    """Return the parameters of a level; raises ``InputError`` if a setting is out of range."""
    of = settings.value_of
    quickness, sureness = of(known.QUICKNESS[level]), of(known.SURENESS[level])
    return ShotParameters(
        level=level,
        reaction=of(known.REACTION[level]),
        reaction_spread=of(known.REACTION_SPREAD),
        aim_error=of(known.AIM_ERROR[level]),
        aim_floor=of(known.AIM_FLOOR),
        aim_looks=of(known.AIM_LOOKS),
        hidden=of(known.HIDDEN),
        leak=of(known.LEAK),
        clearance=of(known.CLEARANCE),
        limb_speed=tuple(of(one) * quickness for one in known.LIMB_SPEED),
        limb_acceleration=tuple(of(one) * quickness for one in known.LIMB_ACCELERATION),
        limb_reach=tuple(of(one) for one in known.LIMB_REACH),
        limb_sureness=tuple(of(one) * sureness for one in known.LIMB_SURENESS),
        body_speed=of(known.BODY_SPEED),
        drag=drag_per_metre(settings),
        gravity=of(known.GRAVITY),
        arc_most=of(known.ARC_MOST[level]),
        free_floor=of(known.FREE_FLOOR),
        free_looks=of(known.FREE_LOOKS),
    )


def puck_speed(
    level: Level, shot_type: ShotType = ShotType.WRIST, settings: Settings = DEFAULT_SETTINGS
) -> float:
    """Return the speed of the puck at release (m/s)."""
    ratio = settings.value_of(known.SPEED_RATIO[shot_type])
    return settings.value_of(known.WRIST_SPEED[level]) * ratio


def release_time(
    level: Level, shot_type: ShotType = ShotType.WRIST, settings: Settings = DEFAULT_SETTINGS
) -> float:
    """Return the time from the start of the shot to the release (s); alike at every level."""
    del level  # no published difference by level
    return settings.value_of(known.RELEASE_TIME[shot_type])
