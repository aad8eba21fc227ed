"""Asking the engine about logged shots: where she should have been, and what it costs from where.

A shot after a pass is read as that play: the carrier at the start of the pass, the shooter as his
mate, and her best reply to just that option. A rebound starts from the first shot's place, down:
she stays there turned to the puck, pushes along the ice or gets up, whichever costs least. Any
other shot is met set on the puck's line, at the depth the engine recommends against a lone carrier
there. Shots from behind the goal line, tips, and shots of whose play nothing was said have no
answer.

Frame of the defended net, metres and seconds. Chances are per shot on goal.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tendline.base import DEFAULT_SETTINGS, InputError, Level, Settings, ShotType, build
from tendline.body import Pose, Stance, capsules
from tendline.ice import Rink, line_spot
from tendline.log.constants import CauseParameters, SituationParameters
from tendline.log.game import Shot
from tendline.log.situation import pass_belongs
from tendline.log.vocabulary import Readiness
from tendline.motion import is_down, quickest_chain, state_at
from tendline.play import (
    Attacker,
    Goaltender,
    OptionKind,
    PlayParameters,
    Situation,
    play_parameters,
    read,
)
from tendline.shot import NEVER, goal_chance_many, puck_speed
from tendline.shot.ordinary import OrdinaryPlay
from tendline.sight import mouth_grid

READY, DOWN = 0, 1
DISTANCES = (1.5, 3.0, 5.0, 8.0, 14.0)
ANGLES = (0.0, 35.0, 65.0)
"""Places [m, degrees off the middle, her left] at which the lone carrier's depth is asked."""
LONE = frozenset({OptionKind.SHOOT, OptionKind.CARRY, OptionKind.COME_IN, OptionKind.DEKE})
NEAREST_X = 0.3
"""The engine is not asked about shots from nearer the goal line than this [m]."""
NEAREST_PASS = 1.5
"""Nor about passes that start nearer to the goal's centre than this [m]: there is no line then."""
PUCK_HEIGHT = 0.0127
ROUNDING = 0.5
"""Starts of passes and the shots after them are rounded to this [m]: like plays are read once."""


@dataclass(frozen=True, slots=True)
class Meeting:
    """How she meets a shot: her place and facing, which stance she holds, how late she is [s]."""

    x: float
    y: float
    facing: float
    held: int
    delay: float

    @classmethod
    def of(cls, pose: Pose, delay: float) -> Meeting:
        """Return the meeting at a pose."""
        held = DOWN if is_down(pose.stance) else READY
        return cls(pose.x, pose.y, pose.facing, held, delay)


class Judge:
    """The engine for one goaltender at one level."""

    def __init__(
        self,
        goaltender: Goaltender,
        *,
        level: Level,
        rink: Rink,
        settings: Settings = DEFAULT_SETTINGS,
    ) -> None:
        self.goaltender = goaltender
        self.level = level
        self.rink = rink
        self.settings = settings
        self.parameters: PlayParameters = play_parameters(level, settings)
        self.windows = build(SituationParameters, settings)
        self.limits = build(CauseParameters, settings)
        self.pace = build(OrdinaryPlay, settings)

    def answers(self, shot: Shot) -> bool:
        """Return whether enough is known of a shot on goal to ask the engine about it.

        With nothing said of the play before, "set, and clearly seen" would be a guess that makes
        every long shot look easy.
        """
        known = shot.situation is not None or shot.context.readiness is not None
        return known and shot.on_goal and shot.x >= NEAREST_X and shot.shot_type is not ShotType.TIP

    def lone_depth(self, x: float, y: float) -> float:
        """Return the depth [m] recommended against a lone carrier at (x, y).

        Not beyond the furthest that the engine replies to with others about (the crease top by
        default): a logged shot is seldom a truly lone one, and far out the cost is nearly flat.
        """
        table = _depths(self.goaltender, self.parameters, self.rink)
        distance = min(max(math.hypot(x, y), DISTANCES[0]), DISTANCES[-1])
        angle = min(abs(math.degrees(math.atan2(y, x))), ANGLES[-1])
        along = [float(np.interp(distance, DISTANCES, table[:, j])) for j in range(len(ANGLES))]
        depth = float(np.interp(angle, ANGLES, along))
        model = self.parameters.model
        return min(depth, model.reply_depth_most, max(math.hypot(x, y) - model.puck_gap, 0.2))

    def best(self, shot: Shot, before: Shot | None) -> Meeting:
        """Return how she meets a shot from the recommended place and with the best reply."""
        rebound = shot.context.since_shot
        if rebound is not None and rebound <= self.windows.rebound_within:
            return self._after_a_save(shot, before, rebound)
        if pass_belongs(shot.context, self.windows):
            found = self._after_a_pass(shot)
            if found is not None:
                return found
        return self._on_the_line(shot.x, shot.y, self.lone_depth(shot.x, shot.y))

    def actual(self, shot: Shot, best: Meeting) -> Meeting | None:
        """Return how she met it in fact, None when neither place nor readiness was noted.

        What was not noted is taken from the best meeting.
        """
        context = shot.context
        known = context.goaltender_x is not None and context.goaltender_y is not None
        if not known and context.readiness is None:
            return None
        place = self.there(shot, best)
        if context.readiness is Readiness.SET:
            return Meeting(place.x, place.y, place.facing, READY, 0.0)
        if context.readiness is Readiness.DOWN:
            return Meeting(place.x, place.y, place.facing, DOWN, best.delay)
        late = max(best.delay, self.limits.moving_delay)
        delay = late if context.readiness is Readiness.MOVING else best.delay
        return Meeting(place.x, place.y, place.facing, best.held, delay)

    def there(self, shot: Shot, best: Meeting) -> Meeting:
        """Return the best meeting moved to where she really was, if that was noted."""
        gx, gy = shot.context.goaltender_x, shot.context.goaltender_y
        if gx is None or gy is None:
            return best
        facing = math.atan2(shot.y - gy, shot.x - gx)
        return Meeting(max(gx, 0.05), gy, facing, best.held, best.delay)

    def played_the_passer(self, shot: Shot) -> bool:
        """Return whether she was clearly nearer to the passer's line than to the shooter's."""
        context = shot.context
        gx, gy = context.goaltender_x, context.goaltender_y
        if gx is None or gy is None or not pass_belongs(context, self.windows):
            return False
        to_shot = _off_line(gx, gy, shot.x, shot.y)
        to_pass = _off_line(gx, gy, context.pass_x or 0.0, context.pass_y or 0.0)
        return to_pass + self.limits.stayed_near < to_shot

    def chances(self, asked: Sequence[tuple[Shot, Meeting]]) -> NDArray[np.float64]:
        """Return the goal chance (n,) of each shot on goal as it is met; NaN without an answer."""
        if not asked:
            return np.zeros(0)
        speed = np.array([self._speed(one) for one, _ in asked])
        model, motion = self.parameters.model, self.goaltender.motion
        blind = np.array([model.screen_blind * bool(one.context.screened) for one, _ in asked])
        bodies = (
            capsules(self.goaltender.build, Stance.READY),
            capsules(self.goaltender.build, Stance.BUTTERFLY),
        )
        found = goal_chance_many(
            np.array([[one.x, one.y, PUCK_HEIGHT] for one, _ in asked]),
            np.array([[met.x, met.y, met.facing] for _, met in asked]),
            bodies,
            mouth_grid(self.rink.goal),
            self.parameters.shot,
            speed=speed,
            delay=np.array([met.delay for _, met in asked]),
            hidden=blind,
            held=np.array([met.held for _, met in asked]),
            change=np.array([[0.0, motion.drop], [NEVER, 0.0]]),
        )
        with np.errstate(invalid="ignore", divide="ignore"):
            chance = found.chance / found.on_net
        return np.where(np.isfinite(chance), np.clip(chance, 0.0, 1.0), np.nan)

    def _speed(self, shot: Shot) -> float:
        """Return the speed of a shot [m/s]: the level's for its type, less from close in."""
        usual = puck_speed(self.level, shot.shot_type or ShotType.WRIST, self.settings)
        return float(self.pace.speed_at(np.array([shot.distance]), usual)[0])

    def _on_the_line(self, x: float, y: float, depth: float, held: int = READY) -> Meeting:
        gx, gy, facing = (float(one) for one in line_spot(x, y, depth))
        return Meeting(gx, gy, facing, held, 0.0)

    def _after_a_pass(self, shot: Shot) -> Meeting | None:
        context = shot.context
        px, py = context.pass_x, context.pass_y
        if px is None or py is None or px < NEAREST_X or math.hypot(px, py) < NEAREST_PASS:
            return None
        return _reply(
            self.goaltender,
            self.parameters,
            self.rink,
            start=_rounded(px, py),
            shot=_rounded(shot.x, shot.y),
            at_once=bool(context.one_timer) or shot.shot_type is ShotType.ONE_TIMER,
        )

    def _after_a_save(self, shot: Shot, before: Shot | None, since: float) -> Meeting:
        """Return how she meets a rebound, starting down on the line of the shot before."""
        first = shot if before is None or before.x < NEAREST_X else before
        begin = self._on_the_line(first.x, first.y, self.lone_depth(first.x, first.y))
        depth = min(self.lone_depth(shot.x, shot.y), math.hypot(begin.x, begin.y))
        there = self._on_the_line(shot.x, shot.y, depth)
        start = Pose(begin.x, begin.y, begin.facing, Stance.BUTTERFLY)
        motion, most = self.goaltender.motion, self.parameters.model.moving_delay_most
        turned = math.atan2(shot.y - begin.y, shot.x - begin.x)
        met = [Meeting(begin.x, begin.y, turned, DOWN, 0.0)]
        for stance in (Stance.READY, Stance.BUTTERFLY):
            chain = quickest_chain(
                start, Pose(there.x, there.y, there.facing, stance), motion, deadline=since
            )
            pose = state_at(chain, since).pose
            late = min(max(chain.set_time - since, 0.0), most)
            met.append(Meeting(pose.x, pose.y, pose.facing, DOWN, late))
            if not is_down(pose.stance):
                met.append(Meeting.of(pose, late))
        costs = self.chances([(shot, one) for one in met])
        return met[int(np.nanargmin(costs))] if np.isfinite(costs).any() else met[0]


@lru_cache(maxsize=32)
def _depths(goaltender: Goaltender, parameters: PlayParameters, sheet: Rink) -> NDArray[np.float64]:
    """Return the recommended depth (distances, angles) [m] against a lone carrier."""
    table = np.empty((len(DISTANCES), len(ANGLES)))
    for i, distance in enumerate(DISTANCES):
        for j, degrees in enumerate(ANGLES):
            turn = math.radians(degrees)
            carrier = Attacker(name="F1", x=distance * math.cos(turn), y=distance * math.sin(turn))
            try:
                situation = Situation(rink=sheet, carrier=carrier, level=parameters.level)
                found = read(situation, goaltender, parameters, options=LONE, detail=False)
                table[i, j] = found.depth
            except InputError:
                table[i, j] = table[i, j - 1] if j else 0.5
    table.flags.writeable = False
    return table


@lru_cache(maxsize=4096)
def _reply(
    goaltender: Goaltender,
    parameters: PlayParameters,
    sheet: Rink,
    *,
    start: tuple[float, float],
    shot: tuple[float, float],
    at_once: bool,
) -> Meeting | None:
    """Return her best reply to a pass from ``start`` and the shot that follows it."""
    try:
        situation = Situation(
            rink=sheet,
            carrier=Attacker(name="F1", x=start[0], y=start[1]),
            mates=(Attacker(name="F2", x=shot[0], y=shot[1]),),
            level=parameters.level,
        )
        found = read(situation, goaltender, parameters, detail=False)
    except InputError:
        return None
    wanted = OptionKind.ONE_TIMER if at_once else OptionKind.SETTLE
    passes = [one for one in found.options if one.option.kind.is_pass and one.option.to == "F2"]
    passes.sort(key=lambda one: one.option.kind is not wanted)
    if not passes:
        return None
    answer = passes[0]
    late = min(max(-answer.set_margin, 0.0), parameters.model.moving_delay_most)
    return Meeting.of(answer.reply.at_release, 0.0 if answer.is_set else late)


def _rounded(x: float, y: float) -> tuple[float, float]:
    return (max(round(x / ROUNDING) * ROUNDING, ROUNDING), round(y / ROUNDING) * ROUNDING)


def _off_line(gx: float, gy: float, x: float, y: float) -> float:
    """Return how far a place lies from the line between the goal's centre and (x, y) [m]."""
    return abs(gx * y - gy * x) / max(math.hypot(x, y), 1e-9)
