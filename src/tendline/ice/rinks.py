"""Rinks and goals made from the rule-book figures."""

from __future__ import annotations

from functools import lru_cache

from tendline.base import DEFAULT_SETTINGS, Settings, build
from tendline.ice.constants import (
    IihfGoal,
    IihfSheet,
    NhlGoal,
    NhlSheet,
    SmallAreas,
    SmallGoal,
)
from tendline.ice.types import Crease, Goal, IceFormat, Rink, RuleSet


@lru_cache(maxsize=64)
def goal(
    rule_set: RuleSet = RuleSet.NHL, small: bool = False, settings: Settings = DEFAULT_SETTINGS
) -> Goal:
    """Return the goal of a rule set, or the small youth goal."""
    made: SmallGoal | NhlGoal | IihfGoal
    if small:
        made = build(SmallGoal, settings)
    elif rule_set is RuleSet.NHL:
        made = build(NhlGoal, settings)
    else:
        made = build(IihfGoal, settings)
    return Goal(
        width=made.width, height=made.height, post_diameter=made.post_diameter,
        depth=made.net_depth,
    )  # fmt: skip


@lru_cache(maxsize=64)
def crease(rule_set: RuleSet = RuleSet.NHL, settings: Settings = DEFAULT_SETTINGS) -> Crease:
    """Return the painted crease: side lines and arc (NHL) or a full semicircle (IIHF)."""
    if rule_set is RuleSet.NHL:
        nhl = build(NhlGoal, settings)
        return Crease(
            radius=nhl.crease_radius, half_width=nhl.crease_half_width,
            side_length=nhl.crease_side, mark_x=nhl.crease_mark_x, mark=nhl.crease_mark,
        )  # fmt: skip
    iihf = build(IihfGoal, settings)
    return Crease(
        radius=iihf.crease_radius, half_width=iihf.crease_radius, side_length=0.0,
        mark_x=iihf.crease_mark_x, mark=iihf.crease_mark,
    )  # fmt: skip


@lru_cache(maxsize=64)
def rink(
    rule_set: RuleSet = RuleSet.NHL,
    ice_format: IceFormat = IceFormat.FULL,
    small_goal: bool = False,
    settings: Settings = DEFAULT_SETTINGS,
) -> Rink:
    """Return a rink in the frame of the defended net.

    Half ice is the defended half, cut at the red line or at the longest half-ice length allowed,
    whichever is shorter; the second goal stands before the dividers. Cross-ice is one of three
    equal parts of the sheet, played from side boards to side boards; it carries no markings, so its
    named spots are those of an end zone scaled until the blue line lies in its middle, and its
    crease is scaled with the width of the goal.
    """
    sheet = build(NhlSheet, settings) if rule_set is RuleSet.NHL else build(IihfSheet, settings)
    areas = build(SmallAreas, settings)
    the_goal = goal(rule_set, small_goal, settings)
    the_crease = crease(rule_set, settings)
    length, width, goal_line = sheet.length, sheet.width, sheet.goal_line
    far_net = length - 2.0 * goal_line
    red_line = length / 2.0 - goal_line
    far_radius = sheet.corner_radius
    near_radius = sheet.corner_radius
    scale_x = scale_y = 1.0
    if ice_format is IceFormat.HALF:
        length = min(areas.half_length, sheet.length / 2.0)
        far_net = length - goal_line - areas.half_far_goal_line
        far_radius = 0.0
    elif ice_format is IceFormat.CROSS:
        length, width, goal_line = sheet.width, sheet.length / areas.zones, areas.cross_goal_line
        far_net = length - 2.0 * goal_line
        red_line = length / 2.0 - goal_line
        scale_x = red_line / sheet.blue_far_edge
        scale_y = width / sheet.width
        near_radius = far_radius = 0.0
        by = the_goal.width / goal(rule_set, False, settings).width
        the_crease = Crease(
            radius=the_crease.radius * by, half_width=the_crease.half_width * by,
            side_length=the_crease.side_length * by, mark_x=the_crease.mark_x * by,
            mark=the_crease.mark * by,
        )  # fmt: skip
    return Rink(
        rule_set=rule_set,
        ice_format=ice_format,
        goal=the_goal,
        crease=the_crease,
        length=length,
        width=width,
        corner_radius=near_radius,
        far_corner_radius=far_radius,
        goal_line_to_boards=goal_line,
        far_net_x=far_net,
        red_line_x=red_line,
        blue_line_x=sheet.blue_far_edge * scale_x,
        blue_line_width=sheet.blue_width,
        line_width=sheet.line_width,
        spot_x=sheet.spot_x * scale_x,
        spot_y=sheet.spot_y * scale_y,
        neutral_spot_x=(sheet.blue_far_edge + sheet.neutral_spot) * scale_x,
        spot_diameter=sheet.spot_diameter,
        circle_radius=sheet.circle_radius * min(scale_x, scale_y),
        hash_length=sheet.hash_length,
        hash_spacing=sheet.hash_spacing,
        trapezoid_goal_line=sheet.trapezoid_line * scale_y,
        trapezoid_boards=sheet.trapezoid_boards * scale_y,
        referee_crease=sheet.referee_crease,
        scale_x=scale_x,
        scale_y=scale_y,
        settings=settings,
    )
