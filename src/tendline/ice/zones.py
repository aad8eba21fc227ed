"""The areas that records count by, and the home plate in front of the net."""

from __future__ import annotations

from tendline.base import InputError
from tendline.ice.types import Rink, Zone


def inside_home_plate(rink: Rink, x: float, y: float) -> bool:
    """Return whether a point lies in the home plate.

    The home plate runs from the posts to the end-zone dots, up to the tops of the circles and
    straight across: the scoring area "inside the dots, below the circle tops" of published save
    counts, with its lower corners cut toward the posts. Its edges belong to it.
    """
    top = rink.spot_x + rink.circle_radius
    if not 0.0 <= x <= top:
        return False
    post = rink.goal.half_width
    limit = post + (rink.spot_y - post) * min(x / rink.spot_x, 1.0)
    return abs(y) <= limit


def zone_of(rink: Rink, x: float, y: float) -> Zone:
    """Return the zone of a place; every place on the ice has exactly one.

    Behind the goal line the trapezoid's width divides *behind the net* from the corners. The home
    plate is the slot, low up to the dots and high above. Beside it come the circles, and outside
    the circles' edge the half walls, whose lower end (below the circles) is the corner. From the
    circle tops to the blue line lie the points, divided half-way to the dots. A place on a dividing
    line belongs to the zone nearer the net or the middle. Raises ``InputError`` for NaN.
    """
    if x != x or y != y:
        raise InputError("a place needs two numbers", came=f"({x}, {y})", allowed="metres")
    side = y > 0.0
    if x > rink.red_line_x:
        return Zone.FAR_END
    if x > rink.blue_line_x:
        return Zone.NEUTRAL
    if x < 0.0:
        if abs(y) <= rink.trapezoid_goal_line / 2.0:
            return Zone.BEHIND_NET
        return Zone.LEFT_CORNER if side else Zone.RIGHT_CORNER
    if inside_home_plate(rink, x, y):
        return Zone.LOW_SLOT if x <= rink.spot_x else Zone.HIGH_SLOT
    if x > rink.spot_x + rink.circle_radius:
        if abs(y) <= rink.spot_y / 2.0:
            return Zone.CENTRE_POINT
        return Zone.LEFT_POINT if side else Zone.RIGHT_POINT
    if abs(y) <= rink.spot_y + rink.circle_radius:
        return Zone.LEFT_CIRCLE if side else Zone.RIGHT_CIRCLE
    if x < rink.spot_x - rink.circle_radius:
        return Zone.LEFT_CORNER if side else Zone.RIGHT_CORNER
    return Zone.LEFT_HALF_WALL if side else Zone.RIGHT_HALF_WALL
