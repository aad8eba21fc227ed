"""The edges of the search: every single move that could be the next one, with its time.

Each edge covers a share of the whole displacement and a share of the whole change of facing, so
that one search serves moves on the spot, single moves and moves that lead into another.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from tendline.body import Stance
from tendline.motion.kinds import TRAVELS_DOWN, TRAVELS_ON_FEET, MoveKind
from tendline.motion.parameters import MotionParameters
from tendline.motion.posture import is_at_post, is_down
from tendline.motion.travel import (
    SAME_PLACE,
    Travels,
    best_travel,
    feet_travel,
    longest_leg,
    off_sector,
)


@dataclass(frozen=True, slots=True)
class Edge:
    """One move: time [s] to its end, settling after it, stance after it, shares covered."""

    kind: MoveKind
    time: float
    settle: float
    stance: Stance
    share: float = 0.0
    turned: float = 0.0
    legs: int = 1


Path = tuple[Edge, ...]


@dataclass(frozen=True, slots=True)
class Displacement:
    """What is asked: metres, direction from the mean facing [rad], change of facing [rad]."""

    distance: float
    direction: float
    turn: float

    @property
    def nothing(self) -> bool:
        """Return whether place and facing stay."""
        return self.distance <= SAME_PLACE and abs(self.turn) <= SAME_PLACE

    @property
    def lateral(self) -> float:
        """Return the part to her left [m], exactly 0 when she goes straight out or back."""
        side = math.sin(self.direction) * self.distance
        return 0.0 if abs(side) <= 1e-6 * max(self.distance, 1e-6) else side


def paths(
    begin: Stance, goal: Stance, asked: Displacement, parameters: MotionParameters
) -> Iterator[Path]:
    """Yield every chain of the small graph from stance ``begin`` to stance ``goal``."""
    if asked.nothing:
        yield stance_change(begin, goal, parameters)
        return
    readied = _to_ready(begin, asked, parameters)
    for before, done in readied:
        for after, left in _from_ready(goal, asked, parameters):
            part = _left_over(done, left)
            if part < 0.0:
                continue
            travel = _on_feet(part, asked, parameters, must_settle=not after)
            yield (*before, *travel, *after)
    if is_down(goal):
        for before, done in readied:
            for after, left in _from_knees(goal, asked, parameters):
                low = _go_down(_left_over(done, left), asked, parameters)
                if low is not None:
                    yield (*before, low, *after)
    if (is_down(begin) and not is_at_post(begin)) or is_down(goal):
        before = stance_change(begin, Stance.BUTTERFLY, parameters)
        for after, left in _from_knees(goal, asked, parameters):
            knees = _on_knees(1.0 - left, asked, parameters, must_settle=not after)
            if knees is not None:
                yield (*before, *knees, *after)


def stance_change(before: Stance, after: Stance, parameters: MotionParameters) -> Path:
    """Return the moves from one stance to another on the spot; empty if they are the same."""
    p = parameters
    if before is after:
        return ()
    if is_at_post(after):
        return (Edge(MoveKind.POST_ENTRY, p.post_entry, p.post_push.settle, after),)
    if is_at_post(before):
        out = Edge(MoveKind.POST_EXIT, p.post_exit, p.post_push.settle, Stance.READY)
        return (out, *stance_change(Stance.READY, after, p))
    if is_down(before):
        if is_down(after):
            return (Edge(MoveKind.STANCE_CHANGE, p.down_change, 0.0, after),)
        up = Edge(MoveKind.FULL_RECOVERY, p.recovery_arrival, p.recovery_settle, Stance.READY)
        return (up, *stance_change(Stance.READY, after, p))
    if is_down(after):
        return (Edge(MoveKind.DROP, p.drop, p.drop_settle, after),)
    return (Edge(MoveKind.STANCE_CHANGE, p.stance_change, 0.0, after),)


def path_by(
    kinds: tuple[MoveKind, ...], begin: Stance, asked: Displacement, parameters: MotionParameters
) -> Path:
    """Return the way by some of ``kinds`` (one start posture), wise or not.

    Only the kinds nearest to their sector of directions are compared, at its edge if need be; a
    way longer than one of them reaches is made of equal legs. She gets up, or drops, first if
    the move needs it.
    """
    needed = Stance.BUTTERFLY if kinds[0] in TRAVELS_DOWN else Stance.READY
    ready = is_down(begin) if needed is Stance.BUTTERFLY else begin is needed
    before = () if ready else stance_change(begin, needed, parameters)
    ends = Stance.READY if kinds[0] in TRAVELS_ON_FEET else Stance.BUTTERFLY
    found: list[tuple[float, float, Edge]] = []
    for kind in kinds:
        law = parameters.law(kind)
        legs = max(1, math.ceil(asked.distance / longest_leg(kind, parameters) - 1e-9))
        leg = max(
            law.duration(asked.distance / legs), parameters.turn.duration(abs(asked.turn) / legs)
        )
        edge = Edge(kind, legs * leg, law.settle, ends, 1.0, 1.0, legs)
        off = round(off_sector(kind, asked.direction), 6)
        found.append((off, edge.time + edge.settle, edge))
    return (*before, min(found, key=lambda one: one[:2])[2])


def _left_over(done: float, left: float) -> float:
    """Return the share still to travel; exactly 0 where rounding alone is left."""
    part = 1.0 - done - left
    return 0.0 if abs(part) <= 1e-12 else part


def _to_ready(
    begin: Stance, asked: Displacement, parameters: MotionParameters
) -> list[tuple[Path, float]]:
    """Return ways to the ready stance, each with the share of the displacement it covers."""
    on_spot = (stance_change(begin, Stance.READY, parameters), 0.0)
    if not is_at_post(begin):
        return [on_spot]
    pushed = _post_push(MoveKind.POST_EXIT, Stance.READY, asked, parameters)
    return [on_spot] if pushed is None else [on_spot, pushed]


def _from_ready(
    goal: Stance, asked: Displacement, parameters: MotionParameters
) -> list[tuple[Path, float]]:
    on_spot = (stance_change(Stance.READY, goal, parameters), 0.0)
    if not is_at_post(goal):
        return [on_spot]
    pushed = _post_push(MoveKind.POST_ENTRY, goal, asked, parameters)
    return [on_spot] if pushed is None else [on_spot, pushed]


def _from_knees(
    goal: Stance, asked: Displacement, parameters: MotionParameters
) -> list[tuple[Path, float]]:
    on_spot = (stance_change(Stance.BUTTERFLY, goal, parameters), 0.0)
    if not is_at_post(goal):
        return [on_spot]
    pushed = _post_push(MoveKind.POST_ENTRY, goal, asked, parameters)
    return [on_spot] if pushed is None else [on_spot, pushed]


def _post_push(
    kind: MoveKind, stance: Stance, asked: Displacement, parameters: MotionParameters
) -> tuple[Path, float] | None:
    """Return the push into or off a post over as much of the way as it reaches."""
    if asked.distance <= SAME_PLACE:
        return None
    share = min(1.0, parameters.post_reach / asked.distance)
    least = parameters.post_entry if kind is MoveKind.POST_ENTRY else parameters.post_exit
    law = parameters.post_push
    time = max(
        least,
        law.duration(share * asked.distance),
        parameters.turn.duration(share * abs(asked.turn)),
    )
    return (Edge(kind, time, law.settle, stance, share, share),), share


def _laid(travels: Travels, stance: Stance, share: float, turned: float) -> Path:
    return tuple(
        Edge(
            one.kind,
            one.duration,
            one.settle,
            stance,
            one.share * share,
            one.share * turned,
            one.legs,
        )
        for one in travels
    )


def _on_feet(
    share: float, asked: Displacement, parameters: MotionParameters, *, must_settle: bool
) -> Path:
    travels = feet_travel(
        parameters,
        distance=share * asked.distance,
        direction=asked.direction,
        facing_change=share * asked.turn,
        must_settle=must_settle,
    )
    return _laid(travels, Stance.READY, share, share)


def _go_down(share: float, asked: Displacement, parameters: MotionParameters) -> Edge | None:
    """Return the slide over the distance, or on the spot the drop that turns; None if illegal."""
    if share * asked.distance <= SAME_PLACE:
        if asked.distance > SAME_PLACE:
            return None
        time = max(parameters.drop, parameters.turn.duration(abs(asked.turn)))
        return Edge(MoveKind.DROP, time, parameters.drop_settle, Stance.BUTTERFLY, 0.0, 1.0)
    travels = best_travel(
        (MoveKind.BUTTERFLY_SLIDE,),
        parameters,
        distance=share * asked.distance,
        direction=asked.direction,
        facing_change=share * asked.turn,
    )
    if travels is None:
        return None
    slide = travels[0]
    time = max(slide.duration, parameters.drop)
    return Edge(slide.kind, time, slide.settle, Stance.BUTTERFLY, share, share)


def _on_knees(
    share: float, asked: Displacement, parameters: MotionParameters, *, must_settle: bool
) -> Path | None:
    """Return travel on the knees, re-aiming first where she turns; None where not legal."""
    distance, turn = share * asked.distance, asked.turn
    aim: Path = ()
    if abs(turn) > parameters.re_aim_turn or distance <= SAME_PLACE:
        if abs(turn) > SAME_PLACE:
            time = max(parameters.on_ice_recovery, parameters.turn.duration(abs(turn)))
            aim = (Edge(MoveKind.ON_ICE_RECOVERY, time, 0.0, Stance.BUTTERFLY, 0.0, 1.0),)
        if distance <= SAME_PLACE:
            return aim
        turn = 0.0
    travels = best_travel(
        TRAVELS_DOWN,
        parameters,
        distance=distance,
        direction=asked.direction,
        facing_change=turn,
        must_settle=must_settle,
    )
    if travels is None:
        return None
    return (*aim, *_laid(travels, Stance.BUTTERFLY, share, 0.0 if aim else 1.0))
