"""The figures that the drill package uses, each with its origin."""

from __future__ import annotations

from tendline.base import OriginKind, assumed

_CP = OriginKind.PRACTICE

BACK_DOOR_X = assumed(
    "drill.back_door_x", "Back door, out from the goal line", 1.5, "m", low=1.5, high=1.5, kind=_CP
)
BACK_DOOR_Y = assumed(
    "drill.back_door_y", "Back door, off the middle", 1.8, "m", low=1.8, high=1.8, kind=_CP
)
