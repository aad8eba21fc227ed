"""Where the engine would have her stand, asked coarsely and remembered.

A drill asks the same few questions many times. The depth comes from the loss table of ``play`` at
a handful of depths on the puck's line, for a situation rounded to half a metre (far carriers and
others to a metre, speeds to 2 m/s); the place itself lies exactly on the line to where the puck
is. How far this is from the full search is measured in benchmarks/bench_drills.py and stated in
docs/understand/drills.md.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from tendline.base import InputError, Side
from tendline.body import Pose, Stance
from tendline.body.posts import post_pose
from tendline.drill.skating import Point
from tendline.drill.world import World
from tendline.play.options import OptionKind
from tendline.play.read import place_losses, prepare
from tendline.play.search import lowest_place
from tendline.play.situation import Attacker, Defender, Situation

KNOT = 0.45
"""Spacing of the depths looked at [m]; numerical."""
COARSE, COARSER, SPEED_STEP = 0.5, 1.0, 2.0
"""Rounding of the carrier's place, of everyone else's [m], and of speeds [m/s]; numerical."""
FAR = 10.0
"""Beyond this the carrier's place is rounded like everyone else's [m]; numerical."""
FURTHEST = 19.0
"""A carrier further out than this is read as at this distance [m]; numerical."""
MOST_MATES, MOST_DEFENDERS = 3, 2
POST_ANGLE = math.radians(75.0)
"""From a puck at a sharper angle than this, or behind the goal line, she is on her post."""
SEEN = 24
"""How often she counts as having seen what the play is told to bring; ours."""
FALLBACK_DEPTH = 1.2
"""Depth where the engine has no answer (the carrier sees no goal, say) [m]; numerical."""


@dataclass(frozen=True, slots=True)
class Mover:
    """Somebody on the ice, with velocity; ``hand`` of an attacker."""

    name: str
    place: Point
    velocity: Point = (0.0, 0.0)
    hand: Side = Side.LEFT


def advised(
    world: World,
    carrier: Mover,
    mates: tuple[Mover, ...],
    defenders: tuple[Mover, ...],
    expected: frozenset[OptionKind] = frozenset(),
    now: float | None = None,
) -> Pose:
    """Return the pose that the engine recommends against this moment of the attack.

    Depths within the engine's band are as good: from ``now`` [m] she goes no further than into
    the band; without it she stands in its middle. ``expected`` are the kinds of option that she
    knows to come, where the play is told: they enter as if she had seen them :data:`SEEN` times,
    so that the others keep some weight.
    """
    puck = carrier.place
    if on_the_post(puck):
        return at_post(world, Side.LEFT if puck[1] >= 0.0 else Side.RIGHT)
    step = COARSE if math.hypot(*puck) < FAR else COARSER
    low, high = _band(
        world, _rounded(carrier, step), _nearest(mates, MOST_MATES),
        _nearest(defenders, MOST_DEFENDERS), expected,
    )  # fmt: skip
    return on_line(puck, 0.5 * (low + high) if now is None else min(max(now, low), high))


def on_the_post(puck: Point) -> bool:
    """Return whether the puck is so low that she is on her post."""
    return puck[0] < 0.25 or abs(math.atan2(puck[1], puck[0])) > POST_ANGLE


def on_line(puck: Point, depth: float) -> Pose:
    """Return the ready pose on the line from the puck to the goal's centre, at a depth [m]."""
    away = math.hypot(*puck)
    room = max(0.2, min(depth, away - 0.8))
    facing = math.atan2(puck[1], puck[0])
    return Pose(room * math.cos(facing), room * math.sin(facing), facing, Stance.READY)


def at_post(world: World, side: Side) -> Pose:
    """Return the standing seal of a post."""
    stance = Stance.POST_STAND_LEFT if side is Side.LEFT else Stance.POST_STAND_RIGHT
    return post_pose(world.goaltender.build, stance, world.rink.goal, world.settings)


def _rounded(one: Mover, step: float) -> Mover:
    x, y = one.place
    away = math.hypot(x, y)
    if away > FURTHEST:
        x, y = x * FURTHEST / away, y * FURTHEST / away
    return Mover(
        one.name,
        (max(0.5, step * round(x / step)), step * round(y / step)),
        (SPEED_STEP * round(one.velocity[0] / SPEED_STEP),
         SPEED_STEP * round(one.velocity[1] / SPEED_STEP)),
        one.hand,
    )  # fmt: skip


def _nearest(people: tuple[Mover, ...], most: int) -> tuple[Mover, ...]:
    close = [one for one in people if math.hypot(*one.place) <= FURTHEST and one.place[0] > 0.3]
    close.sort(key=lambda one: math.hypot(*one.place))
    return tuple(_rounded(one, COARSER) for one in close[:most])


@lru_cache(maxsize=20000)
def _band(
    world: World,
    carrier: Mover,
    mates: tuple[Mover, ...],
    defenders: tuple[Mover, ...],
    expected: frozenset[OptionKind],
) -> tuple[float, float]:
    """Return the depths [m], from and to, round the least loss that are as good as it."""
    taken = {carrier.place}
    attack, defence = [], []
    for one in mates:
        if one.place not in taken:
            taken.add(one.place)
            attack.append(_attacker(one))
    for one in defenders:
        if one.place not in taken:
            taken.add(one.place)
            defence.append(
                Defender(name=one.name, x=one.place[0], y=one.place[1], vx=one.velocity[0],
                         vy=one.velocity[1])
            )  # fmt: skip
    habits = {one: SEEN // len(expected) for one in expected} or None
    try:
        situation = Situation(
            rink=world.rink, carrier=_attacker(carrier), mates=tuple(attack),
            defenders=tuple(defence), level=world.level,
        )  # fmt: skip
        engine, weights = prepare(
            situation, world.goaltender, world.play, habits=habits, options=None, fine=False
        )
    except InputError:
        return FALLBACK_DEPTH, FALLBACK_DEPTH
    try:
        field = lowest_place(engine.line, place_losses(engine), weights, only=0.0, knot=KNOT)
    except InputError:
        return FALLBACK_DEPTH, FALLBACK_DEPTH
    return field.band.low, field.band.high


def _attacker(one: Mover) -> Attacker:
    return Attacker(
        name=one.name, x=one.place[0], y=one.place[1], hand=one.hand, vx=one.velocity[0],
        vy=one.velocity[1],
    )  # fmt: skip
