"""The figures behind rinks, goals and creases; each knows the rule or page it comes from.

Sources are those named in ``facts.toml`` (rule books of the NHL, the IIHF and USA Hockey, and
drawings that cite them). What no rule gives, such as where small nets are put on cross-ice, is
marked as assumed and can be set by the coach.
"""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import assumed, fact, parameter

NHL_LENGTH = fact("rink.nhl.length", "rink length")
NHL_WIDTH = fact("rink.nhl.width", "rink width")
NHL_CORNER_RADIUS = fact("rink.nhl.corner_radius", "corner radius")
NHL_GOAL_LINE = fact("rink.nhl.goal_line_to_end_boards", "goal line to end boards")
NHL_BLUE_FAR_EDGE = fact(
    "rink.nhl.goal_line_to_blue_far_edge", "goal line to far edge of blue line"
)
NHL_BLUE_WIDTH = fact("rink.nhl.blue_line_width", "blue line width")
NHL_LINE_WIDTH = fact("rink.nhl.minor_line_width", "width of thin lines")
NHL_SPOT_X = fact("rink.nhl.ez_spot_to_goal_line", "end-zone spot to goal line")
NHL_SPOT_Y = fact("rink.nhl.ez_spot_lateral", "end-zone spot to long axis")
NHL_NEUTRAL_SPOT = fact("rink.nhl.nz_spot_to_blue_line", "neutral-zone spot to blue line",
                        low=1.3716, high=1.6)  # fmt: skip
NHL_SPOT_DIAMETER = fact("rink.nhl.spot_diameter", "face-off spot diameter")
NHL_CIRCLE_RADIUS = fact("rink.nhl.circle_radius", "face-off circle radius")
NHL_HASH_LENGTH = fact("rink.nhl.hash_length", "hash mark length")
NHL_HASH_SPACING = fact("rink.nhl.hash_spacing", "hash mark spacing")
NHL_TRAPEZOID_LINE = fact("rink.nhl.trapezoid_goal_line", "goalkeeper area, width at goal line",
                          low=5.4864, high=6.8)  # fmt: skip
NHL_TRAPEZOID_BOARDS = fact("rink.nhl.trapezoid_boards", "goalkeeper area, width at boards",
                            low=8.5344, high=8.6)  # fmt: skip
NHL_REFEREE_CREASE = fact("rink.nhl.referee_crease_radius", "referee crease radius")

IIHF_LENGTH = fact("rink.iihf.length", "rink length")
IIHF_WIDTH = fact("rink.iihf.width_max", "rink width", low=26.0, high=30.0,
                  note="the book allows 26 to 30 m; 30 m is the championship width")  # fmt: skip
IIHF_CORNER_RADIUS = fact("rink.iihf.corner_radius_max", "corner radius", low=7.0, high=8.5)
IIHF_GOAL_LINE = fact("rink.iihf.goal_line_to_end_boards", "goal line to end boards")
IIHF_BLUE_MIDDLE = fact("rink.iihf.blue_line_to_end_boards", "middle of blue line to end boards")
IIHF_BLUE_WIDTH = fact("rink.iihf.blue_line_width", "blue line width")
IIHF_LINE_WIDTH = fact("rink.iihf.goal_line_width", "width of thin lines")
IIHF_SPOT_TO_BOARDS = fact("rink.iihf.ez_spot_to_end_boards", "end-zone spot to end boards",
                           low=9.5, high=10.5)  # fmt: skip
IIHF_SPOT_Y = fact("rink.iihf.ez_spot_lateral", "end-zone spot to long axis", low=6.5, high=7.5)
IIHF_NEUTRAL_SPOT = fact("rink.iihf.nz_spot_to_blue_line", "neutral-zone spot to blue line",
                         low=1.3, high=1.7)  # fmt: skip
IIHF_SPOT_DIAMETER = fact("rink.iihf.spot_diameter", "face-off spot diameter")
IIHF_CIRCLE_RADIUS = fact("rink.iihf.circle_radius", "face-off circle radius")
IIHF_HASH_LENGTH = fact("rink.iihf.hash_length", "hash mark length")
IIHF_HASH_SPACING = fact("rink.iihf.hash_spacing", "hash mark spacing")
IIHF_TRAPEZOID_LINE = fact("rink.iihf.trapezoid_goal_line", "goalkeeper area, width at goal line")
IIHF_TRAPEZOID_BOARDS = fact("rink.iihf.trapezoid_boards", "goalkeeper area, width at boards")
IIHF_REFEREE_CREASE = fact("rink.iihf.referee_crease_radius", "referee crease radius")

NHL_GOAL_WIDTH = fact("goal.nhl.width_inner", "goal width between posts")
NHL_GOAL_HEIGHT = fact("goal.nhl.height_inner", "goal height to the crossbar")
NHL_NET_DEPTH = fact("goal.nhl.net_depth", "net depth on the ice", low=0.9, high=1.12)
NHL_POST = fact("goal.nhl.post_diameter", "post diameter", low=0.05, high=0.0603)
NHL_CREASE_HALF_WIDTH = fact("goal.nhl.crease_half_width", "crease half-width at the goal line")
NHL_CREASE_SIDE = fact("goal.nhl.crease_side_length", "crease side-line length")
NHL_CREASE_RADIUS = fact("goal.nhl.crease_arc_radius", "crease arc radius")
NHL_CREASE_TICK_X = fact("goal.nhl.crease_tick_from_goal_line", "crease tick to goal line")
NHL_CREASE_TICK = fact("goal.nhl.crease_tick", "crease tick length")

IIHF_GOAL_WIDTH = fact("goal.iihf.width_inner", "goal width between posts")
IIHF_GOAL_HEIGHT = fact("goal.iihf.height_inner", "goal height to the crossbar")
IIHF_NET_DEPTH = fact("goal.iihf.net_depth_max", "net depth on the ice", low=0.6, high=1.12)
IIHF_POST = fact("goal.iihf.post_diameter", "post diameter", low=0.05, high=0.0603)
IIHF_CREASE_RADIUS = fact("goal.iihf.crease_radius_current", "crease radius", low=1.8, high=1.83,
                          note="1.80 m in the 2014-2018 book")  # fmt: skip
IIHF_CREASE_L_X = fact("goal.iihf.crease_L_from_goal_line", "L-mark to goal line")
IIHF_CREASE_L_LEG = fact("goal.iihf.crease_L_leg", "L-mark leg")

SMALL_GOAL_WIDTH = fact("rink.other.small_goal_width", "small goal width", low=1.02, high=1.22)
SMALL_GOAL_HEIGHT = fact("rink.other.small_goal_height", "small goal height", low=0.8, high=1.0)
SMALL_NET_DEPTH = assumed("ice.small_net_depth", "small goal, net depth", 0.6, "m",
                          low=0.3, high=0.8)  # fmt: skip
SMALL_POST = assumed("ice.small_post_diameter", "small goal, post diameter", 0.04, "m",
                     low=0.025, high=0.06)  # fmt: skip
HALF_ICE_LENGTH = fact("rink.other.hc_u9_half_ice_length", "half-ice length, maximum")
CROSS_ICE_ZONES = fact("rink.other.usah_8u_zones", "cross-ice zones per sheet")
CROSS_ICE_GOAL_LINE = assumed(
    "ice.cross_ice_goal_line", "cross-ice, goal line to boards", 2.5, "m", low=1.0, high=4.0,
    note="no rule found; room to play behind the net",
)  # fmt: skip
HALF_ICE_FAR_GOAL_LINE = assumed(
    "ice.half_ice_far_goal_line", "half ice, second goal to the dividers", 2.5, "m",
    low=1.0, high=4.0, note="no rule found; room to play behind the net",
)  # fmt: skip
PUCK_DIAMETER = fact("rink.other.puck_diameter", "puck diameter")
PUCK_THICKNESS = fact("rink.other.puck_thickness", "puck thickness")

LOW_SLOT_X = assumed("ice.low_slot", "low slot, distance out", 4.5, "m", low=3.0, high=6.0,
                     note="trade term without a rule")  # fmt: skip
HALF_WALL_GAP = assumed("ice.half_wall_gap", "half wall and corner spots to boards", 1.0, "m",
                        low=0.5, high=2.5, note="trade term without a rule")  # fmt: skip
HALF_WALL_X = assumed("ice.half_wall_x", "half wall, distance out", 8.5, "m", low=6.0, high=11.0,
                      note="trade term without a rule")  # fmt: skip
CORNER_BELOW = assumed("ice.corner_below", "corner spot, share of the way to the end boards", 0.3,
                       "ratio", low=0.0, high=0.7, note="trade term without a rule")  # fmt: skip
BEHIND_NET_GAP = assumed("ice.behind_net_gap", "behind the net, distance from the net", 0.48, "m",
                         low=0.2, high=1.5, note="trade term without a rule")  # fmt: skip
GOAL_LINE_WIDE = assumed("ice.goal_line_wide", "goal-line spot, distance to the side", 5.0, "m",
                         low=3.0, high=8.0, note="trade term without a rule")  # fmt: skip
GOAL_LINE_OUT = assumed("ice.goal_line_out", "goal-line spot, distance out", 0.3, "m",
                        low=0.0, high=1.0, note="trade term without a rule")  # fmt: skip
POINT_INSIDE = assumed("ice.point_inside", "point, distance inside the blue line", 1.5, "m",
                       low=0.5, high=3.0, note="trade term without a rule")  # fmt: skip
POINT_Y = assumed("ice.point_lateral", "point, distance to the side", 7.0, "m", low=4.0, high=10.0,
                  note="trade term without a rule")  # fmt: skip
MID_CREASE = assumed("ice.mid_crease", "mid-crease, share of the crease depth", 0.5, "ratio",
                     low=0.3, high=0.7, note="published depth scale: about mid-way")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class GoalFigures:
    """Goal and crease figures of one rule set; metres."""

    width: float
    height: float
    net_depth: float
    post_diameter: float
    crease_radius: float
    crease_mark_x: float
    crease_mark: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NhlGoal(GoalFigures):
    """The NHL (and USA Hockey) goal and crease."""

    width: float = parameter(NHL_GOAL_WIDTH)
    height: float = parameter(NHL_GOAL_HEIGHT)
    net_depth: float = parameter(NHL_NET_DEPTH)
    post_diameter: float = parameter(NHL_POST)
    crease_radius: float = parameter(NHL_CREASE_RADIUS)
    crease_mark_x: float = parameter(NHL_CREASE_TICK_X)
    crease_mark: float = parameter(NHL_CREASE_TICK)
    crease_half_width: float = parameter(NHL_CREASE_HALF_WIDTH)
    crease_side: float = parameter(NHL_CREASE_SIDE)


@dataclass(frozen=True, slots=True, kw_only=True)
class IihfGoal(GoalFigures):
    """The IIHF goal and crease."""

    width: float = parameter(IIHF_GOAL_WIDTH)
    height: float = parameter(IIHF_GOAL_HEIGHT)
    net_depth: float = parameter(IIHF_NET_DEPTH)
    post_diameter: float = parameter(IIHF_POST)
    crease_radius: float = parameter(IIHF_CREASE_RADIUS)
    crease_mark_x: float = parameter(IIHF_CREASE_L_X)
    crease_mark: float = parameter(IIHF_CREASE_L_LEG)


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallGoal:
    """The small youth goal."""

    width: float = parameter(SMALL_GOAL_WIDTH)
    height: float = parameter(SMALL_GOAL_HEIGHT)
    net_depth: float = parameter(SMALL_NET_DEPTH)
    post_diameter: float = parameter(SMALL_POST)


@dataclass(frozen=True, slots=True, kw_only=True)
class NhlSheet:
    """The NHL (and USA Hockey) sheet of ice."""

    length: float = parameter(NHL_LENGTH)
    width: float = parameter(NHL_WIDTH)
    corner_radius: float = parameter(NHL_CORNER_RADIUS)
    goal_line: float = parameter(NHL_GOAL_LINE)
    blue_far_edge: float = parameter(NHL_BLUE_FAR_EDGE)
    blue_width: float = parameter(NHL_BLUE_WIDTH)
    line_width: float = parameter(NHL_LINE_WIDTH)
    spot_x: float = parameter(NHL_SPOT_X)
    spot_y: float = parameter(NHL_SPOT_Y)
    neutral_spot: float = parameter(NHL_NEUTRAL_SPOT)
    spot_diameter: float = parameter(NHL_SPOT_DIAMETER)
    circle_radius: float = parameter(NHL_CIRCLE_RADIUS)
    hash_length: float = parameter(NHL_HASH_LENGTH)
    hash_spacing: float = parameter(NHL_HASH_SPACING)
    trapezoid_line: float = parameter(NHL_TRAPEZOID_LINE)
    trapezoid_boards: float = parameter(NHL_TRAPEZOID_BOARDS)
    referee_crease: float = parameter(NHL_REFEREE_CREASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class IihfSheet:
    """The IIHF sheet of ice."""

    length: float = parameter(IIHF_LENGTH)
    width: float = parameter(IIHF_WIDTH)
    corner_radius: float = parameter(IIHF_CORNER_RADIUS)
    goal_line: float = parameter(IIHF_GOAL_LINE)
    blue_middle_to_boards: float = parameter(IIHF_BLUE_MIDDLE)
    blue_width: float = parameter(IIHF_BLUE_WIDTH)
    line_width: float = parameter(IIHF_LINE_WIDTH)
    spot_to_boards: float = parameter(IIHF_SPOT_TO_BOARDS)
    spot_y: float = parameter(IIHF_SPOT_Y)
    neutral_spot: float = parameter(IIHF_NEUTRAL_SPOT)
    spot_diameter: float = parameter(IIHF_SPOT_DIAMETER)
    circle_radius: float = parameter(IIHF_CIRCLE_RADIUS)
    hash_length: float = parameter(IIHF_HASH_LENGTH)
    hash_spacing: float = parameter(IIHF_HASH_SPACING)
    trapezoid_line: float = parameter(IIHF_TRAPEZOID_LINE)
    trapezoid_boards: float = parameter(IIHF_TRAPEZOID_BOARDS)
    referee_crease: float = parameter(IIHF_REFEREE_CREASE)

    @property
    def spot_x(self) -> float:
        """Return the distance of the end-zone spots from the goal line (m)."""
        return self.spot_to_boards - self.goal_line

    @property
    def blue_far_edge(self) -> float:
        """Return the distance from goal line to the far edge of the blue line (m)."""
        return self.blue_middle_to_boards - self.goal_line + self.blue_width / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallAreas:
    """How a sheet is cut for half-ice and cross-ice games; metres and a count."""

    half_length: float = parameter(HALF_ICE_LENGTH)
    zones: float = parameter(CROSS_ICE_ZONES)
    cross_goal_line: float = parameter(CROSS_ICE_GOAL_LINE)
    half_far_goal_line: float = parameter(HALF_ICE_FAR_GOAL_LINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class TradeSpots:
    """Where the trade's named spots lie when no rule fixes them."""

    low_slot: float = parameter(LOW_SLOT_X)
    half_wall_gap: float = parameter(HALF_WALL_GAP)
    half_wall_x: float = parameter(HALF_WALL_X)
    corner_below: float = parameter(CORNER_BELOW)
    behind_net_gap: float = parameter(BEHIND_NET_GAP)
    goal_line_wide: float = parameter(GOAL_LINE_WIDE)
    goal_line_out: float = parameter(GOAL_LINE_OUT)
    point_inside: float = parameter(POINT_INSIDE)
    point_lateral: float = parameter(POINT_Y)
    mid_crease: float = parameter(MID_CREASE)
