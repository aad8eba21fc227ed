"""What a rink, a goal, a crease and a named spot are. Metres; frame as in the package's notes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from tendline.base import InputError, Settings, require_number


class RuleSet(StrEnum):
    """Whose rule book the markings follow; USA Hockey is drawn with the NHL figures."""

    NHL = "NHL"
    IIHF = "IIHF"


class IceFormat(StrEnum):
    """How much of the sheet is used."""

    FULL = "full ice"
    HALF = "half ice"
    CROSS = "cross-ice"


class Zone(StrEnum):
    """The areas into which records count a place, as seen from the defended net."""

    BEHIND_NET = "behind the net"
    LEFT_CORNER = "left corner"
    RIGHT_CORNER = "right corner"
    LOW_SLOT = "low slot"
    HIGH_SLOT = "high slot"
    LEFT_CIRCLE = "left circle"
    RIGHT_CIRCLE = "right circle"
    LEFT_HALF_WALL = "left half wall"
    RIGHT_HALF_WALL = "right half wall"
    LEFT_POINT = "left point"
    CENTRE_POINT = "centre point"
    RIGHT_POINT = "right point"
    NEUTRAL = "neutral zone"
    FAR_END = "far end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """A goal: opening ``width`` x ``height``, post diameter, net depth on the ice; metres."""

    width: float
    height: float
    post_diameter: float
    depth: float

    @property
    def half_width(self) -> float:
        """Return half the width between the posts (m)."""
        return self.width / 2.0

    @property
    def area(self) -> float:
        """Return the area of the mouth (m2)."""
        return self.width * self.height


@dataclass(frozen=True, slots=True, kw_only=True)
class Crease:
    """The painted area in front of the goal; metres.

    ``radius`` is that of the front arc, centred on the middle of the goal line. With side lines
    the crease is ``half_width`` wide each side and its corners lie ``side_length`` out; without
    them (``half_width == radius``, ``side_length == 0``) it is a full semicircle. Marks inside the
    crease lie ``mark_x`` out and are ``mark`` long.
    """

    radius: float
    half_width: float
    side_length: float
    mark_x: float
    mark: float

    @property
    def top(self) -> float:
        """Return how far out the crease reaches on the long axis (m)."""
        return self.radius

    @property
    def corner(self) -> tuple[float, float]:
        """Return (x, y) of the left crease corner; for a semicircle the point at 45 degrees."""
        if self.side_length > 0.0:
            return self.side_length, self.half_width
        return self.radius * math.sqrt(0.5), self.radius * math.sqrt(0.5)

    def contains(self, x: float, y: float) -> bool:
        """Return whether a point lies in the crease, lines included."""
        return x >= 0.0 and abs(y) <= self.half_width and math.hypot(x, y) <= self.radius


@dataclass(frozen=True, slots=True, kw_only=True)
class Rink:
    """One playing area in the frame of the defended net; metres.

    The goal line is x = 0. The boards behind the net lie at ``x_min`` (negative), the other end at
    ``x_max``; the width is symmetric about the x axis. ``corner_radius`` rounds the two corners
    behind the defended net, ``far_corner_radius`` the two at the other end. ``far_net_x`` is the
    other goal line. Face-off spots, circles and the blue lines are painted on the sheet; a
    cross-ice area has no painted markings of its own (``has_markings`` is False) and its distances
    are the sheet's, scaled to the area.
    """

    rule_set: RuleSet
    ice_format: IceFormat
    goal: Goal
    crease: Crease
    length: float
    width: float
    corner_radius: float
    far_corner_radius: float
    goal_line_to_boards: float
    far_net_x: float
    red_line_x: float
    blue_line_x: float
    blue_line_width: float
    line_width: float
    spot_x: float
    spot_y: float
    neutral_spot_x: float
    spot_diameter: float
    circle_radius: float
    hash_length: float
    hash_spacing: float
    trapezoid_goal_line: float
    trapezoid_boards: float
    referee_crease: float
    scale_x: float = 1.0
    scale_y: float = 1.0
    settings: Settings

    @property
    def x_min(self) -> float:
        """Return the x of the boards behind the defended net (m, negative)."""
        return -self.goal_line_to_boards

    @property
    def x_max(self) -> float:
        """Return the x of the other end of the area (m)."""
        return self.length - self.goal_line_to_boards

    @property
    def half_width(self) -> float:
        """Return half the width of the area (m)."""
        return self.width / 2.0

    @property
    def has_markings(self) -> bool:
        """Return whether the sheet's painted lines belong to this area."""
        return self.ice_format is not IceFormat.CROSS

    def contains(self, x: float, y: float) -> bool:
        """Return whether a point lies inside the boards; False for NaN."""
        if not (self.x_min <= x <= self.x_max and abs(y) <= self.half_width):
            return False
        near, far = self.corner_radius, self.far_corner_radius
        for radius, over in ((near, self.x_min + near - x), (far, x - self.x_max + far)):
            aside = abs(y) - self.half_width + radius
            if over > 0.0 and aside > 0.0 and math.hypot(over, aside) > radius:
                return False
        return True

    def in_net(self, x: float, y: float) -> bool:
        """Return whether a point lies behind the goal line inside the defended net."""
        return -self.goal.depth <= x < 0.0 and abs(y) <= self.goal.half_width


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on the ice with a name of the trade; metres."""

    name: str
    x: float
    y: float


def require_on_ice(rink: Rink, *, x: float, y: float, item: str = "") -> tuple[float, float]:
    """Return ``(x, y)`` if the point lies inside the boards.

    Raises :class:`InputError` for a value that is no number or a point beyond the boards.
    """
    where_x = require_number(
        "distance out", x, low=rink.x_min, high=rink.x_max, unit="m", item=item
    )
    where_y = require_number(
        "distance to the side", y, low=-rink.half_width, high=rink.half_width, unit="m", item=item
    )
    if not rink.contains(where_x, where_y):
        raise InputError(
            "the place must be on the ice",
            came=f"({where_x:g}, {where_y:g}) m, beyond the rounded corner of the boards",
            allowed=f"inside corners of {rink.corner_radius:g} m radius",
            hint="Move it toward the middle of the ice.",
            item=item,
        )
    return where_x, where_y
