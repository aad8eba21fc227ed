"""The quickest legal chain of moves from pose to pose, by search.

The graph is small (at the start or at the end, on the feet or on the knees, pushing off or into a
post), so every legal path is compared. The cost of a chain is the time until she is set (or
sealed, when down); ties go to the earlier arrival, then to fewer moves, then to the order of the
catalogue, so the answer is always the same.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tendline.base import InputError, Side
from tendline.body import Pose, Stance
from tendline.motion.edges import Displacement, Edge, Path, path_by, paths
from tendline.motion.kinds import TRAVELS_DOWN, TRAVELS_ON_FEET, MoveKind
from tendline.motion.law import Course
from tendline.motion.parameters import MotionParameters, require_reaction
from tendline.motion.posture import is_down, push_leg, wrapped
from tendline.motion.types import Chain, Step

KEEPS_STANCE = frozenset(
    {
        MoveKind.SHORT_SHUFFLE, MoveKind.STEP_SHUFFLE, MoveKind.C_CUT_FORWARD,
        MoveKind.C_CUT_BACK, MoveKind.TURN,
    }
)  # fmt: skip
"""Moves during which she stays in the ready stance."""
BOTH_LEGS = frozenset({MoveKind.C_CUT_FORWARD, MoveKind.C_CUT_BACK})
"""Travelling moves that both legs drive in turn."""
LAWLESS = frozenset(
    {MoveKind.DROP, MoveKind.STANCE_CHANGE, MoveKind.FULL_RECOVERY, MoveKind.ON_ICE_RECOVERY}
)
"""Moves that have a time only."""


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
    sooner. Raises ``InputError`` for a reaction that is negative or not a number, or a NaN
    deadline.
    """
    wait = require_reaction(parameters.reaction if reaction is None else reaction)
    if deadline is not None and math.isnan(deadline):
        raise InputError("a deadline must be a time", came="nan", allowed="seconds, or None")
    asked = displacement(start, end)
    path = quickest_path(start.stance, end.stance, asked, parameters)
    set_after, arrives_after, _ = path_cost(path)
    late = deadline is not None and wait + set_after > deadline
    if deadline is not None and late and allow_down and not is_down(end.stance):
        low = quickest_path(start.stance, Stance.BUTTERFLY, asked, parameters)
        low_set, low_arrives, _ = path_cost(low)
        if wait + low_set <= deadline or low_arrives < arrives_after:
            lowered = Pose(end.x, end.y, end.facing, Stance.BUTTERFLY)
            return lay_out(start, lowered, low, asked, parameters, wait, as_asked=False)
    return lay_out(start, end, path, asked, parameters, wait, as_asked=True)


def chain_times(
    starts: ArrayLike,
    ends: ArrayLike,
    parameters: MotionParameters,
    *,
    stances: tuple[Stance, Stance] = (Stance.READY, Stance.READY),
    reaction: float | None = None,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return when she arrives and when she is set [s], (m,) each, for many pairs of poses.

    ``starts`` and ``ends`` (m, 3) or (3,): x, y, facing; ``stances`` at the start and at the end.
    The times of :func:`quickest_chain`; NaN where a pose is not finite. From the ready stance
    ``arrival_times`` gives the same some hundred times faster. Raises ``InputError`` for shapes
    that do not fit or a reaction that is no time.
    """
    require_reaction(parameters.reaction if reaction is None else reaction)
    before, after = (np.atleast_2d(np.asarray(one, dtype=float)) for one in (starts, ends))
    count = max(len(before), len(after))
    if {before.shape, after.shape} - {(1, 3), (count, 3)}:
        raise InputError(
            "as many starts as ends of three numbers each, or one of them",
            came=f"shapes {before.shape} and {after.shape}", allowed="(m, 3)",
        )  # fmt: skip
    before, after = (np.broadcast_to(one, (count, 3)) for one in (before, after))
    times = np.full((2, count), np.nan)
    usable = np.isfinite(before).all(axis=1) & np.isfinite(after).all(axis=1)
    for row in np.flatnonzero(usable):
        (x, y, facing), (end_x, end_y, end_facing) = before[row].tolist(), after[row].tolist()
        start, end = Pose(x, y, facing, stances[0]), Pose(end_x, end_y, end_facing, stances[1])
        chain = quickest_chain(start, end, parameters, reaction=reaction)
        times[:, row] = chain.arrival, chain.set_time
    return times[0], times[1]


def chain_by(
    kinds: tuple[MoveKind, ...],
    start: Pose,
    end: Pose,
    parameters: MotionParameters,
    *,
    reaction: float = 0.0,
) -> Chain:
    """Return the chain to the place and facing of ``end`` by the named moves, wise or not.

    ``kinds`` all start from one posture (feet or knees). Where the direction lies outside a
    move's sector it is timed at the nearest legal direction. The stance at the end is the
    move's, not that of ``end``. Raises ``InputError`` for a kind that does not travel or a
    reaction that is no time.
    """
    require_reaction(reaction)
    known = (*TRAVELS_ON_FEET, *TRAVELS_DOWN, MoveKind.BUTTERFLY_SLIDE)
    for kind in kinds:
        if kind not in known:
            raise InputError("this move covers no distance", came=kind.value,
                             allowed=", ".join(one.value for one in known))  # fmt: skip
    asked = displacement(start, end)
    path = path_by(kinds, start.stance, asked, parameters)
    goal = Pose(end.x, end.y, end.facing, path[-1].stance)
    return lay_out(start, goal, path, asked, parameters, reaction, as_asked=True)


def displacement(start: Pose, end: Pose) -> Displacement:
    """Return distance, direction from the mean of both facings, and change of facing."""
    dx, dy = end.x - start.x, end.y - start.y
    distance = math.hypot(dx, dy)
    turn = wrapped(end.facing - start.facing)
    direction = wrapped(math.atan2(dy, dx) - (start.facing + 0.5 * turn)) if distance else 0.0
    return Displacement(distance, direction, turn)


def path_cost(path: Path) -> tuple[float, float, int]:
    """Return time to set [s], time to arrive [s] and number of moves.

    A move that follows at once does not spare her the settling of the one before: she is set
    when every move of the chain has settled.
    """
    arrival = settled = 0.0
    for edge in path:
        arrival += edge.time
        settled = max(settled, arrival + edge.settle)
    return (settled, arrival, len(path))


def quickest_path(
    begin: Stance, goal: Stance, asked: Displacement, parameters: MotionParameters
) -> Path:
    """Return the cheapest path of the graph; there is always one on the feet."""
    best: Path = ()
    best_cost = (math.inf, math.inf, 0)
    for path in paths(begin, goal, asked, parameters):
        cost = path_cost(path)
        if cost < best_cost:
            best, best_cost = path, cost
    return best


def lay_out(
    start: Pose,
    end: Pose,
    path: Path,
    asked: Displacement,
    parameters: MotionParameters,
    wait: float,
    *,
    as_asked: bool,
) -> Chain:
    """Return the chain with the steps of ``path`` laid out in place and time."""
    steps: list[Step] = []
    here, clock = start, wait
    share = turned = 0.0
    for edge in path:
        for _ in range(edge.legs):
            share += edge.share / edge.legs
            turned += edge.turned / edge.legs
            there = _part_way(start, end, asked, share, turned, edge.stance)
            finish = clock + edge.time / edge.legs
            step = _step(edge, here, there, clock, finish, asked, parameters)
            steps.append(step)
            here, clock = there, finish
    settled = max((one.finish + one.settle for one in steps), default=0.0)
    return Chain(
        start=start,
        end=end,
        reaction=wait if path else 0.0,
        steps=tuple(steps),
        arrival=clock if path else 0.0,
        set_time=settled,
        as_asked=as_asked,
    )


def _part_way(
    start: Pose, end: Pose, asked: Displacement, share: float, turned: float, stance: Stance
) -> Pose:
    whole_way, whole_turn = share > 1.0 - 1e-12, turned > 1.0 - 1e-12
    return Pose(
        end.x if whole_way else start.x + share * (end.x - start.x),
        end.y if whole_way else start.y + share * (end.y - start.y),
        end.facing if whole_turn or not asked.turn else wrapped(start.facing + turned * asked.turn),
        stance,
    )


def _step(
    edge: Edge,
    here: Pose,
    there: Pose,
    begin: float,
    finish: float,
    asked: Displacement,
    parameters: MotionParameters,
) -> Step:
    distance = edge.share / edge.legs * asked.distance
    turn = edge.turned / edge.legs * asked.turn
    kind = edge.kind
    count = 1
    if kind is MoveKind.STEP_SHUFFLE:
        count = max(1, math.ceil(distance / parameters.shuffle_step - 1e-9))
    return Step(
        move=kind,
        start=here,
        end=there,
        begin=begin,
        finish=finish,
        settle=edge.settle,
        drive_leg=_drive_leg(edge, asked),
        distance=distance,
        keeps_stance=kind in KEEPS_STANCE,
        count=count,
        course=Course(law=parameters.law(kind), distance=distance) if distance > 0.0 else None,
        turning=Course(law=parameters.turn, distance=abs(turn)) if turn else None,
    )


def _drive_leg(edge: Edge, asked: Displacement) -> Side | None:
    """Return the leg that pushes: opposite to the way she goes or turns."""
    kind = edge.kind
    if kind is MoveKind.TURN:
        return push_leg(asked.turn)
    if kind in (MoveKind.FULL_RECOVERY, MoveKind.ON_ICE_RECOVERY):
        return push_leg(asked.lateral) or push_leg(asked.turn)
    if kind in BOTH_LEGS or kind in LAWLESS or edge.share == 0.0:
        return None
    return push_leg(asked.lateral)
