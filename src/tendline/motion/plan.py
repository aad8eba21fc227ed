"""The quickest legal chain of moves from pose to pose, by search.

The search runs over few nodes: at the start or at the end, on the feet or on the knees, plus the
stances asked for. Edges are moves of the catalogue. The cost of a chain is the time until she is
set (or sealed, when down); ties go to fewer moves, then to the order of the catalogue, so the
answer is always the same.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tendline.base import InputError, Side
from tendline.body.types import Pose, Stance
from tendline.motion.constants import RE_AIM_TURN
from tendline.motion.kinds import TRAVELS_DOWN, MoveKind
from tendline.motion.parameters import MotionParameters
from tendline.motion.posture import is_at_post, is_down, push_leg
from tendline.motion.travel import (
    SAME_PLACE,
    Travel,
    best_travel,
    feet_travel,
    travel_by,
)
from tendline.motion.types import Chain, Step

_KEEPS_STANCE = frozenset(
    {
        MoveKind.SHORT_SHUFFLE, MoveKind.STEP_SHUFFLE, MoveKind.C_CUT_FORWARD,
        MoveKind.C_CUT_BACK, MoveKind.TURN,
    }
)  # fmt: skip
_ONE_LEG = frozenset(
    {
        MoveKind.SHORT_SHUFFLE, MoveKind.STEP_SHUFFLE, MoveKind.T_PUSH, MoveKind.FORWARD_PUSH,
        MoveKind.BUTTERFLY_SLIDE, MoveKind.BUTTERFLY_PUSH, MoveKind.KNEE_SHUFFLE,
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Edge:
    """One move of the search: time to its end, settling after it, stance after it."""

    kind: MoveKind
    time: float
    settle: float
    stance: Stance
    travel: Travel | None = None


def wrapped(angle: float) -> float:
    """Return ``angle`` [rad] in (-pi, pi]."""
    turned = math.remainder(angle, math.tau)
    return math.pi if turned == -math.pi else turned


def quickest_chain(
    start: Pose,
    end: Pose,
    parameters: MotionParameters,
    *,
    reaction: float | None = None,
    allow_down: bool = True,
    deadline: float | None = None,
) -> Chain:
    """Return the chain from ``start`` to ``end`` that is set soonest.

    ``reaction`` [s] before the first move, the parameters' own when None. With a ``deadline``
    [s] by which she cannot be set on her feet, and ``allow_down``, the answer may end in the
    butterfly at the same place instead (``as_asked`` False): sealed in time, or at least there
    sooner. Raises ``InputError`` for a pose or time that is not finite.
    """
    wait = parameters.reaction if reaction is None else reaction
    for name, value in (
        ("start x", start.x), ("start y", start.y), ("start facing", start.facing),
        ("end x", end.x), ("end y", end.y), ("end facing", end.facing), ("reaction", wait),
    ):  # fmt: skip
        if not math.isfinite(value):
            raise InputError(f"the {name} of a chain must be a number", came=f"{value}")
    dx, dy = end.x - start.x, end.y - start.y
    distance = math.hypot(dx, dy)
    turn = wrapped(end.facing - start.facing)
    direction = wrapped(math.atan2(dy, dx) - (start.facing + 0.5 * turn)) if distance else 0.0
    motion = _Motion(distance, direction, turn)
    path = _search(start.stance, end.stance, motion, parameters)
    cost = _cost(path)
    late = deadline is not None and wait + cost[0] > deadline
    if deadline is not None and late and allow_down and not is_down(end.stance):
        low = _search(start.stance, Stance.BUTTERFLY, motion, parameters)
        low_cost = _cost(low)
        if wait + low_cost[0] <= deadline or low_cost[1] < cost[1]:
            lowered = Pose(end.x, end.y, end.facing, Stance.BUTTERFLY)
            return _chain(start, lowered, low, motion, parameters, wait, as_asked=False)
    return _chain(start, end, path, motion, parameters, wait, as_asked=True)


@dataclass(frozen=True, slots=True)
class _Motion:
    distance: float
    direction: float
    turn: float

    @property
    def nothing(self) -> bool:
        return self.distance <= SAME_PLACE and abs(self.turn) <= SAME_PLACE

    @property
    def lateral(self) -> float:
        """Return the displacement to her left [m], exactly 0 when straight."""
        side = math.sin(self.direction) * self.distance
        return 0.0 if abs(side) <= 1e-6 * max(self.distance, 1e-6) else side


def _cost(path: tuple[_Edge, ...]) -> tuple[float, float, int]:
    """Return time to set, time to arrival and number of moves."""
    arrival = sum(one.time for one in path)
    return (arrival + (path[-1].settle if path else 0.0), arrival, len(path))


def _search(
    begin: Stance, goal: Stance, motion: _Motion, parameters: MotionParameters
) -> tuple[_Edge, ...]:
    """Return the cheapest path; every path of the small graph is compared."""
    if motion.nothing:
        return _change(begin, goal, parameters)
    best: tuple[_Edge, ...] | None = None
    best_cost = (math.inf, math.inf, 0)
    for path in _paths(begin, goal, motion, parameters):
        cost = _cost(path)
        if cost < best_cost:
            best, best_cost = path, cost
    if best is None:  # pragma: no cover - travel on the feet is always legal
        raise InputError("no legal chain of moves")
    return best


def _paths(
    begin: Stance, goal: Stance, motion: _Motion, parameters: MotionParameters
) -> list[tuple[_Edge, ...]]:
    feet = _on_feet(motion, parameters)
    found = []
    to_ready = _change(begin, Stance.READY, parameters)
    if feet is not None:
        found.append((*to_ready, feet, *_change(Stance.READY, goal, parameters)))
    if is_down(goal):
        slide = _slide(motion, parameters)
        if slide is not None:
            found.append((*to_ready, slide, *_change(Stance.BUTTERFLY, goal, parameters)))
    if is_down(begin) or is_down(goal):
        down = _down(motion, parameters)
        if down:
            to_knees = _change(begin, Stance.BUTTERFLY, parameters)
            found.append(to_knees + down + _change(Stance.BUTTERFLY, goal, parameters))
    return found


def _on_feet(motion: _Motion, parameters: MotionParameters) -> _Edge | None:
    travel = feet_travel(
        parameters, distance=motion.distance, direction=motion.direction, facing_change=motion.turn
    )
    if travel is None:
        return None
    return _Edge(travel.kind, travel.duration, travel.settle, Stance.READY, travel)


def _slide(motion: _Motion, parameters: MotionParameters) -> _Edge | None:
    travel = travel_by(
        MoveKind.BUTTERFLY_SLIDE, parameters, distance=motion.distance,
        direction=motion.direction, facing_change=motion.turn,
    )  # fmt: skip
    if travel is None or motion.distance <= SAME_PLACE:
        return None
    time = max(travel.duration, parameters.drop)
    return _Edge(travel.kind, time, travel.settle, Stance.BUTTERFLY, travel)


def _down(motion: _Motion, parameters: MotionParameters) -> tuple[_Edge, ...]:
    aim: tuple[_Edge, ...] = ()
    turn = motion.turn
    if abs(turn) > RE_AIM_TURN or motion.distance <= SAME_PLACE:
        time = max(parameters.on_ice_recovery, parameters.turn.duration(abs(turn)))
        aim = (_Edge(MoveKind.ON_ICE_RECOVERY, time, 0.0, Stance.BUTTERFLY),)
        if motion.distance <= SAME_PLACE:
            return aim
        turn = 0.0
    travel = best_travel(
        TRAVELS_DOWN, parameters, distance=motion.distance, direction=motion.direction,
        facing_change=turn,
    )  # fmt: skip
    if travel is None:
        return ()
    return (*aim, _Edge(travel.kind, travel.duration, travel.settle, Stance.BUTTERFLY, travel))


def _change(before: Stance, after: Stance, parameters: MotionParameters) -> tuple[_Edge, ...]:
    """Return the moves from one stance to another on the spot."""
    p = parameters
    if before is after:
        return ()
    if is_at_post(after):
        return (_Edge(MoveKind.POST_ENTRY, p.post_entry, 0.0, after),)
    if is_at_post(before):
        first = _Edge(MoveKind.POST_EXIT, p.post_exit, 0.0, Stance.READY)
        return (first, *_change(Stance.READY, after, p))
    if is_down(before):
        if is_down(after):
            return (_Edge(MoveKind.STANCE_CHANGE, p.down_change, 0.0, after),)
        up = _Edge(MoveKind.FULL_RECOVERY, p.recovery_arrival, p.recovery_settle, Stance.READY)
        return (up, *_change(Stance.READY, after, p))
    if is_down(after):
        return (_Edge(MoveKind.DROP, p.drop, p.drop_settle, after),)
    return (_Edge(MoveKind.STANCE_CHANGE, p.stance_change, 0.0, after),)


def _chain(
    start: Pose,
    end: Pose,
    path: tuple[_Edge, ...],
    motion: _Motion,
    parameters: MotionParameters,
    wait: float,
    *,
    as_asked: bool,
) -> Chain:
    """Return the chain with its steps laid out in place and time."""
    steps: list[Step] = []
    here, clock = start, wait
    lead = push_leg(motion.lateral) or push_leg(motion.turn)
    for edge in path:
        travel = edge.travel
        legs = travel.legs if travel else 1
        arrives = travel is not None or edge.kind is MoveKind.ON_ICE_RECOVERY
        for leg in range(legs):
            share = (leg + 1) / legs
            if travel is not None and edge.kind is not MoveKind.TURN:
                there = _between(start, end, here.facing, share, edge.stance)
            elif arrives:
                there = Pose(here.x, here.y, end.facing, edge.stance)
            else:
                there = Pose(here.x, here.y, here.facing, edge.stance)
            distance = motion.distance / legs if travel and edge.kind is not MoveKind.TURN else 0.0
            finish = clock + edge.time / legs
            steps.append(
                Step(
                    move=edge.kind,
                    start=here,
                    end=there,
                    begin=clock,
                    finish=finish,
                    settle=edge.settle,
                    drive_leg=_leg(edge.kind, motion, lead),
                    distance=distance,
                    keeps_stance=edge.kind in _KEEPS_STANCE,
                    count=_count(edge.kind, distance, parameters),
                    law=parameters.law(edge.kind) if travel else None,
                    turn_law=parameters.turn if arrives else None,
                )
            )
            here, clock = there, finish
    settle = path[-1].settle if path else 0.0
    moved = wait if path else 0.0
    arrival = clock if path else 0.0
    return Chain(
        start=start,
        end=end,
        reaction=moved,
        steps=tuple(steps),
        arrival=arrival,
        set_time=arrival + settle,
        as_asked=as_asked,
    )


def _between(start: Pose, end: Pose, facing: float, share: float, stance: Stance) -> Pose:
    if share >= 1.0:
        return Pose(end.x, end.y, end.facing, stance)
    turn = wrapped(end.facing - facing)
    return Pose(
        start.x + share * (end.x - start.x),
        start.y + share * (end.y - start.y),
        start.facing + share * wrapped(end.facing - start.facing) if turn else facing,
        stance,
    )


def _leg(kind: MoveKind, motion: _Motion, lead: Side | None) -> Side | None:
    if kind in _ONE_LEG:
        return push_leg(motion.lateral)
    if kind is MoveKind.TURN:
        return push_leg(motion.turn)
    if kind in (MoveKind.FULL_RECOVERY, MoveKind.ON_ICE_RECOVERY):
        return lead
    return None


def _count(kind: MoveKind, distance: float, parameters: MotionParameters) -> int:
    if kind is MoveKind.STEP_SHUFFLE:
        return max(1, math.ceil(distance / parameters.shuffle_step - 1e-9))
    return 1
