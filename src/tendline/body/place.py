"""Bodies by stance, and bodies put on the ice."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError, Side
from tendline.body.build import Build
from tendline.body.gear import dressed
from tendline.body.stances import skeleton
from tendline.body.types import Capsules, Part, Pose, Stance, stance_named


@lru_cache(maxsize=512)
def capsules(build: Build, stance: Stance = Stance.READY, glove_open: bool = True) -> Capsules:
    """Return a goaltender in a stance, in her own frame.

    The frame's origin lies on the ice under her: midway between the ankles when she is on both
    skates, midway between the knees when both are down, and where these would be otherwise; +x is
    the way she faces, +y her left. A right-handed catcher in a stance is the exact mirror image of
    a left-handed one in the mirrored stance. Raises ``NotFoundError`` for an unknown stance.
    """
    stance = stance_named(stance)
    if build.catching_hand is Side.LEFT:
        return dressed(build, skeleton(build, stance), glove_open=glove_open)
    return dressed(build, skeleton(build, stance.mirrored), glove_open=glove_open).mirrored()


def eye_point(build: Build, pose: Pose) -> NDArray[np.float64]:
    """Return where her eyes are in a pose (3,), rink frame, metres: on the front of the head."""
    body = capsules(build, pose.stance)
    head = body.part == int(Part.MASK)
    middle = 0.5 * (body.start[head][0] + body.end[head][0])
    x, y = middle[0] + 0.7 * float(body.radius[head][0]), middle[1]
    cos, sin = math.cos(pose.facing), math.sin(pose.facing)
    return np.array([pose.x + cos * x - sin * y, pose.y + sin * x + cos * y, middle[2]])


@lru_cache(maxsize=512)
def knee_drop(build: Build) -> float:
    """Return how far her knees fall from the ready stance into the butterfly (m)."""
    ready, down = skeleton(build, Stance.READY), skeleton(build, Stance.BUTTERFLY)
    return float(ready.left_leg.knee[2] - down.left_leg.knee[2])


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
