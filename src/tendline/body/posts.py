"""Where she stands when she seals a post.

A post stance is drawn in her own frame; :func:`post_pose` turns it to the facing that coaches use
there and moves it until the foot of the pad on that post touches the inside of the post, and the
pad the goal line.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from tendline.base import DEFAULT_SETTINGS, InputError, Settings, Side, assumed, build, parameter
from tendline.body.build import Build
from tendline.body.place import capsules, place
from tendline.body.types import Part, Pose, Stance
from tendline.ice import Goal

STAND_FACING = assumed(
    "body.post_stand_facing", "standing on a post, turned from straight out toward the post's side",
    50.0, "deg", low=20.0, high=80.0,
)  # fmt: skip
VH_FACING = assumed(
    "body.vh_facing", "VH, turned from straight out toward the post's side", 35.0, "deg",
    low=10.0, high=70.0,
)  # fmt: skip
REVERSE_VH_FACING = assumed(
    "body.reverse_vh_facing", "reverse VH, turned from straight out toward the post's side", 20.0,
    "deg", low=0.0, high=60.0,
)  # fmt: skip


ON_ICE = 0.02
"""The end of a pad's segment nearer to the ice than this [m] is part of its foot; numerical."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PostFacing:
    """How far she is turned toward the side of the post she seals; degrees."""

    stand: float = parameter(STAND_FACING)
    vh: float = parameter(VH_FACING)
    reverse_vh: float = parameter(REVERSE_VH_FACING)


_KIND = {
    Stance.POST_STAND_LEFT: "stand",
    Stance.POST_STAND_RIGHT: "stand",
    Stance.VH_LEFT: "vh",
    Stance.VH_RIGHT: "vh",
    Stance.REVERSE_VH_LEFT: "reverse_vh",
    Stance.REVERSE_VH_RIGHT: "reverse_vh",
}


def sealed_post(stance: Stance) -> Side | None:
    """Return the post that a stance seals, or None."""
    if stance not in _KIND:
        return None
    return Side.LEFT if "left" in stance.value else Side.RIGHT


@lru_cache(maxsize=256)
def post_pose(
    build_of_her: Build, stance: Stance, goal: Goal, settings: Settings = DEFAULT_SETTINGS
) -> Pose:
    """Return the pose in which a post stance seals its post.

    The foot of the pad on the post's side touches the inside of the post, and the pad's rearmost
    point the goal line; a knee in front of the post may lie further out. Raises ``InputError`` for
    a stance that seals no post.
    """
    side = sealed_post(stance)
    if side is None:
        raise InputError(
            "the stance must seal a post",
            came=stance.value,
            allowed=", ".join(one.value for one in _KIND),
        )
    sign = 1.0 if side is Side.LEFT else -1.0
    facing = sign * math.radians(getattr(build(PostFacing, settings), _KIND[stance]))
    body = place(capsules(build_of_her, stance), x=0.0, y=0.0, facing=facing)
    pad = body.part == int(Part.LEFT_PAD if side is Side.LEFT else Part.RIGHT_PAD)
    ends = np.concatenate([body.start[pad], body.end[pad]])
    radius = np.concatenate([body.radius[pad], body.radius[pad]])
    on_ice = ends[:, 2] - radius < ON_ICE
    outermost = float((sign * ends[:, 1] + radius)[on_ice].max())
    rearmost = float((ends[:, 0] - radius).min())
    return Pose(-rearmost, sign * (goal.half_width - outermost), facing, stance)
