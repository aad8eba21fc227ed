"""V19: everything inside its part of the ice, nobody in a line of fire."""

from __future__ import annotations

import math

from tendline import ice
from tendline.drill.findings import Finding, finding
from tendline.drill.places import xy_of
from tendline.drill.rules import FIRE_MARGIN, DrillLimits, RuleLevel
from tendline.drill.run_types import BranchRun, Run
from tendline.drill.skating import Point
from tendline.drill.types import Drill, actions_of
from tendline.drill.vocabulary import IceUse, Role, ThingKind
from tendline.drill.world import World

SLACK = 0.5
"""A path may leave its ice by this much [m]; numerical."""


def inside_its_ice(drill: Drill, run: Run, world: World) -> tuple[Finding, ...]:
    """V19: places and paths that leave the rink or the part of the ice that the card names."""
    low, high = _span(drill.ice.use, world.rink)
    found: list[Finding] = []
    seen: set[str] = set()
    for branch in run.branches:
        for name, track in branch.attack.tracks.items():
            if name.endswith("'") or name in seen:
                continue
            points = [track.start]
            for glided in track.glides:
                points += list(zip(glided.x.tolist(), glided.y.tolist(), strict=True))
            out = next((p for p in points if not _inside(p, low, high, world.rink)), None)
            if out is None:
                continue
            seen.add(name)
            found.append(
                finding(
                    "V19", RuleLevel.HARD, f"{name} leaves the {drill.ice.use.value}",
                    evidence=f"at ({out[0]:.1f}, {out[1]:.1f})", branch=branch.key,
                )
            )  # fmt: skip
    return tuple(found)


def _span(use: IceUse, rink: ice.Rink) -> tuple[float, float]:
    """Return least and greatest x of a part of the ice [m]."""
    near = {
        IceUse.END_ZONE: rink.blue_line_x,
        IceUse.HALF_ICE: rink.red_line_x,
        IceUse.CROSS_ICE: rink.blue_line_x,
        IceUse.CIRCLE: rink.blue_line_x,
        IceUse.CORNER: rink.blue_line_x,
        IceUse.CREASE: rink.blue_line_x,
    }
    return rink.x_min, near.get(use, rink.x_max) + SLACK


def _inside(point: Point, low: float, high: float, rink: ice.Rink) -> bool:
    x, y = point
    return low - SLACK <= x <= high and (rink.contains(x, y) or rink.contains(0.97 * x, 0.97 * y))


def out_of_fire(drill: Drill, run: Run, limits: DrillLimits, world: World) -> tuple[Finding, ...]:
    """V19: no coach, helper, waiting line or other net near a line of fire."""
    active = {one.who for one in actions_of(drill.play)}
    idle: list[tuple[str, Point]] = [
        (one.name, xy_of(one.at, drill, world.rink))
        for one in drill.people
        if one.name not in active and one.role in (Role.COACH, Role.HELPER)
    ]
    idle += [
        (one.label, xy_of(one.at, drill, world.rink))
        for one in drill.things
        if one.kind in (ThingKind.LINE, ThingKind.NET)
    ]
    found: list[Finding] = []
    half = world.rink.goal.half_width
    for branch in run.branches:
        for name, place in idle:
            hit = _in_fire(branch, place, half, limits.fire_margin)
            if hit and not any(one.text.startswith(f"{name} ") for one in found):
                found.append(
                    finding(
                        "V19", RuleLevel.HARD, f"{name} stands in a line of fire",
                        evidence=f"shot {hit}, place ({place[0]:.1f}, {place[1]:.1f})",
                        limit=FIRE_MARGIN, value=limits.fire_margin, branch=branch.key,
                        release=hit,
                    )
                )  # fmt: skip
    return tuple(found)


def _in_fire(branch: BranchRun, place: Point, half: float, margin: float) -> int:
    """Return the number of a shot whose line of fire holds the place; 0 for none.

    The line of fire is the triangle from the shooter to the goal line, wider than the mouth by
    the margin on both sides, and the strip behind it.
    """
    for one in branch.releases:
        if place[0] >= one.x:
            continue
        share = (one.x - max(place[0], 0.0)) / max(one.x, 1e-6)
        middle = one.y * (1.0 - share)
        reach = share * (half + margin)
        if abs(place[1] - middle) <= reach and math.hypot(place[0] - one.x, place[1] - one.y) > 1.0:
            return one.number
    return 0
