"""Rinks by rule set, goals, creases, lines, named spots and zones, and geometry on the ice.

Frame: metres; origin at the centre of the goal line on the ice, +x out, +y to the goaltender's
left when she looks out. Every figure is a constant with its source.
"""

from tendline.ice.lines import (
    distance_to_goal,
    line_spot,
    off_line,
    on_angle_distance,
    opening_angle,
    width_to_cover,
)
from tendline.ice.rinks import crease, goal, rink
from tendline.ice.spots import (
    heading_at_other_end,
    mirror_name,
    mirror_side,
    mirror_xy,
    other_end,
    spot,
    spots,
)
from tendline.ice.types import Crease, Goal, IceFormat, Rink, RuleSet, Spot, Zone, require_on_ice
from tendline.ice.zones import inside_home_plate, zone_of

__all__ = [
    "Crease", "Goal", "IceFormat", "Rink", "RuleSet", "Spot", "Zone", "crease",
    "distance_to_goal", "goal", "heading_at_other_end", "inside_home_plate", "line_spot",
    "mirror_name", "mirror_side", "mirror_xy", "off_line", "on_angle_distance", "opening_angle",
    "other_end", "require_on_ice", "rink", "spot", "spots", "width_to_cover", "zone_of",
]  # fmt: skip
