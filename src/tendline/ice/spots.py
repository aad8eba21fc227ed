"""Named spots, mirror and change of ends.

Left is +y, the goaltender's left when she looks out. Names are terms of the trade; the rule set
fixes those that are painted, :class:`tendline.ice.constants.TradeSpots` the others.
"""

from __future__ import annotations

import math
from functools import lru_cache

from tendline.base import Side, build, unknown_name
from tendline.ice.constants import TradeSpots
from tendline.ice.types import Rink, Spot


@lru_cache(maxsize=64)
def _table(rink: Rink) -> tuple[Spot, ...]:
    trade = build(TradeSpots, rink.settings)
    sx, sy = rink.scale_x, rink.scale_y
    corner_x, corner_y = rink.crease.corner
    top = rink.crease.top
    circle_top = rink.spot_x + rink.circle_radius
    wall_y = rink.half_width - trade.half_wall_gap * sy
    boards = _corner_spot(rink, share=trade.corner_below, gap=trade.half_wall_gap)
    behind = -min(rink.goal.depth + trade.behind_net_gap, 0.7 * rink.goal_line_to_boards)
    point_x = rink.blue_line_x - trade.point_inside * sx
    middle = [
        Spot("crease top", top, 0.0),
        Spot("mid-crease", trade.mid_crease * top, 0.0),
        Spot("low slot", trade.low_slot * sx, 0.0),
        Spot("hash-mark slot", rink.spot_x, 0.0),
        Spot("high slot", circle_top, 0.0),
        Spot("behind the net", behind, 0.0),
        Spot("centre point", point_x, 0.0),
        Spot("blue line", rink.blue_line_x, 0.0),
        Spot("red line", rink.red_line_x, 0.0),
        Spot("goal", 0.0, 0.0),
    ]
    left = [
        Spot("left post", 0.0, rink.goal.half_width),
        Spot("left crease corner", corner_x, corner_y),
        Spot("left dot", rink.spot_x, rink.spot_y),
        Spot("left circle top", circle_top, rink.spot_y),
        Spot("left half wall", trade.half_wall_x * sx, wall_y),
        Spot("left corner", *boards),
        Spot("left goal line", trade.goal_line_out * sx, trade.goal_line_wide * sy),
        Spot("left point", point_x, trade.point_lateral * sy),
        Spot("left neutral dot", rink.neutral_spot_x, rink.spot_y),
    ]
    return (*middle, *left, *(_mirrored(one) for one in left))


def _corner_spot(rink: Rink, *, share: float, gap: float) -> tuple[float, float]:
    """Return the left corner spot: below the goal line, ``gap`` metres inside the boards."""
    x = share * rink.x_min
    radius = rink.corner_radius
    centre_x = rink.x_min + radius
    if x >= centre_x:
        return x, rink.half_width - gap
    return x, rink.half_width - radius + math.sqrt((radius - gap) ** 2 - (centre_x - x) ** 2)


def _mirrored(one: Spot) -> Spot:
    return Spot(mirror_name(one.name), one.x, -one.y)


def spots(rink: Rink) -> dict[str, Spot]:
    """Return every named spot of a rink, by name."""
    return {one.name: one for one in _table(rink)}


def spot(rink: Rink, name: str) -> Spot:
    """Return a named spot; raises ``NotFoundError`` with the nearest name."""
    table = spots(rink)
    key = " ".join(name.lower().split())
    if key not in table:
        raise unknown_name("spot on the ice", name, sorted(table))
    return table[key]


def mirror_name(name: str) -> str:
    """Return the name of the spot on the other side: the words left and right change places."""
    swap = {"left": "right", "right": "left", "Left": "Right", "Right": "Left"}
    return " ".join(swap.get(word, word) for word in name.split(" "))


def mirror_xy(x: float, y: float) -> tuple[float, float]:
    """Return the point mirrored in the long axis of the rink."""
    return x, -y


def mirror_side(side: Side) -> Side:
    """Return the other side."""
    return side.other


def other_end(rink: Rink, x: float, y: float) -> tuple[float, float]:
    """Return a point in the frame of the other net: half a turn about the middle of the area.

    Applying it twice returns the point. On half ice the other net is the one before the dividers.
    """
    return rink.far_net_x - x, -y


def heading_at_other_end(heading: float) -> float:
    """Return a direction in the frame of the other net (radians, in (-pi, pi])."""
    turned = heading + math.pi
    return math.atan2(math.sin(turned), math.cos(turned))
