"""Bodies by stance, and bodies put on the ice."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from tendline.base import InputError, Side
from tendline.body.build import Build
from tendline.body.gear import dressed
from tendline.body.stances import skeleton
from tendline.body.types import Capsules, Pose, Stance


@lru_cache(maxsize=512)
def capsules(build: Build, stance: Stance = Stance.READY, glove_open: bool = True) -> Capsules:
    """Return a goaltender in a stance, in her own frame.

    The frame's origin lies on the ice under her: midway between the ankles when she is on both
    skates, midway between the knees when both are down, and where these would be otherwise; +x is
    the way she faces, +y her left. A right-handed catcher in a stance is the exact mirror image of
    a left-handed one in the mirrored stance.
    """
    if build.catching_hand is Side.LEFT:
        return dressed(build, skeleton(build, stance), glove_open=glove_open)
    return dressed(build, skeleton(build, stance.mirrored), glove_open=glove_open).mirrored()


def place(body: Capsules, *, x: float, y: float, facing: float) -> Capsules:
    """Return a body moved to ``(x, y)`` metres and turned to ``facing`` radians."""
    if not all(map(math.isfinite, (x, y, facing))):
        raise InputError(
            "a place needs three numbers", came=f"({x}, {y}) facing {facing}",
            allowed="metres and radians",
        )  # fmt: skip
    cos, sin = math.cos(facing), math.sin(facing)
    turn = np.array([[cos, sin, 0.0], [-sin, cos, 0.0], [0.0, 0.0, 1.0]])
    shift = np.array([x, y, 0.0])
    return Capsules.of(
        body.start @ turn + shift, body.end @ turn + shift, body.radius, body.limb, body.part
    )


def posed(build: Build, pose: Pose, glove_open: bool = True) -> Capsules:
    """Return a goaltender in a pose, in the rink's frame."""
    return place(capsules(build, pose.stance, glove_open), x=pose.x, y=pose.y, facing=pose.facing)
