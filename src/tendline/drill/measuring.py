"""What a shot finds: is she set, on the line, how deep, since when has she seen the puck."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from tendline.body import Pose
from tendline.drill.goaltending import HerPlay, HerRun
from tendline.drill.run_types import HerState, Release
from tendline.drill.shooting import chance_of_goal
from tendline.drill.skating import Point
from tendline.drill.timeline import Attack, PuckEvent, PuckKind, puck_place
from tendline.drill.vocabulary import Role
from tendline.ice.constants import PUCK_DIAMETER
from tendline.motion import MotionState, MoveKind, is_down
from tendline.play.lanes import hidden_share

LOOK_BACK = 2.5
"""How far back from the release sight is followed [s]; numerical."""
STEP = 0.05
"""Step of that look back [s]; numerical."""
HALF_HIDDEN = 0.5
_RISING = frozenset({MoveKind.FULL_RECOVERY, MoveKind.ON_ICE_RECOVERY})
_SLIDING = frozenset(
    {MoveKind.BUTTERFLY_SLIDE, MoveKind.BUTTERFLY_PUSH, MoveKind.KNEE_SHUFFLE, MoveKind.DROP}
)


def plain_name(name: str) -> str:
    """Return the name in the script of somebody in a later repetition."""
    return name.rstrip("'")


def measure(
    number: int,
    event: PuckEvent,
    *,
    start: float,
    attack: Attack,
    her: HerPlay,
    run: HerRun,
    gap: float,
    after: float,
) -> Release:
    """Return the release of a shot; ``start`` is the whistle of its repetition [s]."""
    time = event.time
    state = run.track.state(time)
    pose = state.pose
    offset = her.offset(pose, event.place)
    is_set = _is_set(state)
    since = _set_since(run, time) if is_set else 0.0
    hidden = hidden_at(event.place, pose, attack, time, event.who, her)
    delay = 0.0 if is_set else min(_missing(run, time), her.world.play.model.moving_delay_most)
    advice = her.advice(attack, time - 1e-3, now=math.hypot(pose.x, pose.y))
    return Release(
        number=number,
        time=time - start,
        shooter=plain_name(event.who),
        x=event.place[0],
        y=event.place[1],
        distance=math.hypot(*event.place),
        shot=event.shot,
        speed=event.speed,
        pose=pose,
        state=_state(state, is_set),
        is_set=is_set,
        set_since=since,
        offset=offset,
        on_line=her.covers(pose, event.place),
        depth=math.hypot(pose.x, pose.y),
        placed=_placed(event, attack, her, run),
        sight=_sight(event, attack, her, run),
        hidden=hidden,
        gap=gap,
        after=after,
        goal_chance=chance_of_goal(event, pose, her.world, delay=delay, hidden=hidden),
        puck=event.puck,
        wanted_depth=math.hypot(advice.x, advice.y) if advice is not None else 0.0,
    )


def _is_set(state: MotionState) -> bool:
    return state.is_set and not state.moving and not is_down(state.pose.stance)


def _state(state: MotionState, is_set: bool) -> HerState:
    if is_set:
        return HerState.SET
    if state.moving and state.move in _RISING:
        return HerState.RISING
    if state.moving and state.move in _SLIDING:
        return HerState.SLIDING
    return HerState.DOWN if is_down(state.pose.stance) else HerState.MOVING


def _set_since(run: HerRun, time: float) -> float:
    """Return how long she has been set at a time [s], up to the look-back."""
    back = 0.0
    while back < LOOK_BACK and _is_set(run.track.state(time - back - STEP)):
        back += STEP
    return back


def _missing(run: HerRun, time: float) -> float:
    """Return how long from a time until she would be set [s]."""
    ahead = 0.0
    while ahead < LOOK_BACK and not _is_set(run.track.state(time + ahead)):
        ahead += STEP
    return ahead


def hidden_at(
    puck: Point, pose: Pose, attack: Attack, time: float, who: str, her: HerPlay
) -> float:
    """Return the share of the puck that bodies hide from her eyes, in plan view."""
    others = [
        track.at(time)
        for name, track in attack.tracks.items()
        if name != who and name[0] != Role.GOALTENDER.value and name.count("'") == who.count("'")
    ]
    near = [
        place for place in others
        if math.dist(place, puck) > 0.3 and math.hypot(*place) < math.hypot(*puck) + 0.5
    ]  # fmt: skip
    if not near:
        return 0.0
    shares = hidden_share(
        np.array([puck]), np.array([pose.x]), np.array([pose.y]), np.array(near),
        her.world.play.model.body_half_width, 0.5 * PUCK_DIAMETER.value,
    )  # fmt: skip
    return float(shares[0])


def _sight(event: PuckEvent, attack: Attack, her: HerPlay, run: HerRun) -> float:
    """Return how long before the release she saw the puck with nothing else to follow [s]."""
    busy = _busy_spans(event, attack, her)

    def sees(time: float, puck: Point, holder: str) -> bool:
        pose = run.track.state(time).pose
        return hidden_at(puck, pose, attack, time, holder or event.who, her) <= HALF_HIDDEN

    return _back(event, attack, sees, busy)


def _placed(event: PuckEvent, attack: Attack, her: HerPlay, run: HerRun) -> float:
    """Return how long before the release she has been on the puck's line [s]."""

    def covers(time: float, puck: Point, holder: str) -> bool:
        return her.covers(run.track.state(time).pose, puck)

    return _back(event, attack, covers, [])


def _back(
    event: PuckEvent,
    attack: Attack,
    holds: Callable[[float, Point, str], bool],
    busy: list[tuple[float, float]],
) -> float:
    """Return how long up to the release something has held without a break [s].

    Before the first whistle, and while an earlier shot is still on its way, nothing is asked.
    """
    back = 0.0
    while back <= LOOK_BACK:
        time = event.time - back
        puck, holder, current = puck_place(attack, time)
        if any(begin <= time < end for begin, end in busy):
            break
        another = current is None or (current.kind is PuckKind.SHOT and current is not event)
        if not another and not holds(time, puck, holder):
            break
        back += STEP
    return max(0.0, min(back - STEP, LOOK_BACK))


def _busy_spans(event: PuckEvent, attack: Attack, her: HerPlay) -> list[tuple[float, float]]:
    """Return the spans in which her eyes are elsewhere: turning to a pass, following a rebound."""
    spans = []
    for one in attack.events:
        if one.time >= event.time:
            continue
        if one.kind is PuckKind.PASS:
            spans.append((one.time, one.time + her.motion.reaction))
        elif one.kind is PuckKind.SHOT and not one.tipped:
            spans.append((one.time, one.arrives + her.world.clock.track_rebound))
    return spans
