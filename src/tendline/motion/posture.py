"""Which stances seal a post, which leg drives where, and angles brought into one turn."""

from __future__ import annotations

import math

from tendline.base import Side
from tendline.body import Stance

_AT_POST = frozenset(
    {
        Stance.POST_STAND_LEFT, Stance.POST_STAND_RIGHT, Stance.VH_LEFT, Stance.VH_RIGHT,
        Stance.REVERSE_VH_LEFT, Stance.REVERSE_VH_RIGHT,
    }
)  # fmt: skip
_DOWN = frozenset(one for one in Stance if one.is_down)


def is_down(stance: Stance) -> bool:
    """Return whether at least one knee is on the ice."""
    return stance in _DOWN


def is_at_post(stance: Stance) -> bool:
    """Return whether the stance seals a post."""
    return stance in _AT_POST


def push_leg(lateral: float) -> Side | None:
    """Return the leg that drives toward ``lateral`` > 0 (her left) or < 0 (her right)."""
    if lateral == 0.0:
        return None
    return Side.RIGHT if lateral > 0.0 else Side.LEFT


def wrapped(angle: float) -> float:
    """Return ``angle`` [rad] in (-pi, pi]."""
    turned = math.remainder(angle, math.tau)
    return math.pi if turned == -math.pi else turned
