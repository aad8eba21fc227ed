"""The loss table: for each place she may stand at and each option, the chance of a goal.

    L(g, o) = comes_off(o) * min over her replies of goal chance + (1 - comes_off(o)) * cut_loss

Every pair of place, option and reply goes into one batch for the shot's kernel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from tendline.body import Build, Capsules, capsules, post_pose
from tendline.ice import Goal
from tendline.play.deke import (
    BLOCKS,
    COMMIT_OFFSETS,
    Moves,
    Surface,
    best_commit,
    bridged,
    commit_depths,
    moves_from,
    retreats,
)
from tendline.play.geometry import bodies_at
from tendline.play.ground import Line
from tendline.play.lanes import Array, Point, hidden_share
from tendline.play.options import OptionKind, Threat
from tendline.play.parameters import PlayParameters
from tendline.play.reply import (
    BUTTERFLY,
    POST_STAND,
    READY,
    STANCES,
    Limits,
    Pairs,
    Replies,
    Way,
    replies,
)
from tendline.play.situation import Goaltender, Situation
from tendline.play.threats import deke_threat
from tendline.shot import NEVER, ShotParameters, goal_chance_many
from tendline.shot import constants as shots
from tendline.sight import MouthGrid, mouth_grid

PUCK_HEIGHT = shots.PUCK_THICKNESS.value / 2.0
"""Height of the centre of a puck lying on the ice [m]."""
PUCK_HALF_WIDTH = shots.PUCK_DIAMETER.value / 2.0
"""Half the puck's width [m]."""
HEAD_START = 1.0
"""No save is under way for longer than this before the release [s]."""
FINE, COARSE = (37, 25), (15, 11)
"""Columns and rows of targets on the goal mouth: for answers, and for the search."""


@dataclass(frozen=True, slots=True)
class Engine:
    """What every evaluation of one situation shares.

    ``late`` [s] is the time still missing until she is set when it all begins: it delays her save
    of a shot taken now and her reaction to everything else. ``room`` 0 to 1 is how free the
    attackers are to pick their places (see ``ShotParameters.with_room``).
    """

    situation: Situation
    goaltender: Goaltender
    parameters: PlayParameters
    threats: tuple[Threat, ...]
    grid: MouthGrid
    line: Line
    late: float = 0.0
    room: float = 0.0

    @property
    def puck(self) -> Point:
        """Return where the puck lies [m]."""
        return self.situation.puck_place

    def puck_line_place(self, along: float, aside: float) -> Point:
        """Return the place [m] at ``along`` and ``aside`` of the line from the goal to the puck."""
        away = math.hypot(*self.puck)
        ux, uy = self.puck[0] / away, self.puck[1] / away
        return (along * ux - aside * uy, along * uy + aside * ux)

    def on_grid(self, grid: MouthGrid) -> Engine:
        """Return the same engine with other targets on the goal mouth.

        Going round her keeps its coarse ones: it is interpolated between places anyway.
        """
        return replace(self, grid=grid)

    @property
    def limits(self) -> Limits:
        """Return what bounds her replies."""
        model = self.parameters.model
        return Limits(
            least_depth=model.depth_least,
            most_depth=model.reply_depth_most,
            puck_gap=model.puck_gap,
            most_delay=model.moving_delay_most,
            save_reaction=self.parameters.shot.reaction,
            seal_from=math.radians(model.seal_from),
            seal_near=model.seal_near,
            posts=post_poses(self.goaltender.build, self.situation.rink.goal),
        )


@dataclass(frozen=True, slots=True)
class LossTable:
    """Losses and goal chances, both (places, options)."""

    loss: Array
    chance: Array


@dataclass(frozen=True, slots=True)
class Meeting:
    """How one option meets her at one place: the shot, her best reply and the loss.

    ``start`` and ``pose`` are x, y, facing when the option begins and when the shot leaves;
    ``time`` [s] from its first sign to the release; ``line_time`` [s] when she could be set on the
    new line, even if she does something else; other fields as in ``reply``.
    """

    release: Point
    time: float
    start: tuple[float, float, float]
    pose: tuple[float, float, float]
    target: Point
    way: Way
    held: int
    delay: float
    arrival: float
    set_time: float
    line_time: float
    chance: float
    loss: float


@dataclass(frozen=True, slots=True)
class Candidates:
    """Pairs with the shot each faces and her replies to it: all that the kernel needs.

    ``speed`` (n,) [m/s], ``hidden`` (ways, n) share of shots that she does not see.
    """

    pairs: Pairs
    speed: Array
    replies: Replies
    hidden: Array


@lru_cache(maxsize=64)
def stance_bodies(build: Build) -> tuple[Capsules, ...]:
    """Return her body in the stances that replies use, in the order of ``reply``."""
    return tuple(capsules(build, one) for one in STANCES)


@lru_cache(maxsize=64)
def post_poses(build: Build, goal: Goal) -> Array:
    """Return her poses (2, 2, 3) on the posts: standing and reverse VH; her left and right."""
    poses = [post_pose(build, one, goal) for one in STANCES[POST_STAND:]]
    made = np.array([(one.x, one.y, one.facing) for one in poses]).reshape(2, 2, 3)
    made.flags.writeable = False
    return made


@lru_cache(maxsize=64)
def stance_changes(drop: float) -> Array:
    """Return the seconds (stances, stances) from one stance into another within a save."""
    table = np.full((len(STANCES), len(STANCES)), NEVER)
    np.fill_diagonal(table, 0.0)
    table[READY, BUTTERFLY] = drop
    return table


def target_grid(goal: Goal, *, fine: bool) -> MouthGrid:
    """Return the targets on the goal mouth: fine for answers, coarse for the search."""
    columns, rows = FINE if fine else COARSE
    return mouth_grid(goal, columns=columns, rows=rows)


def loss_table(engine: Engine, poses: Array) -> LossTable:
    """Return the loss of each pose (m, 3) against each threat of the engine.

    A pose without an answer (NaN) gets NaN.
    """
    return _table(engine, poses, least_answer(fire(engine, _all_candidates(engine, poses))))


def _table(engine: Engine, poses: Array, least: Array) -> LossTable:
    chance = np.empty((len(poses), len(engine.threats)))
    row = 0
    for column, threat in enumerate(engine.threats):
        if threat.option.kind is OptionKind.DEKE:
            chance[:, column] = best_commit(commits(engine), *_on_line(engine, poses))[0]
        else:
            chance[:, column] = least[row : row + len(poses)]
            row += len(poses)
    comes_off = np.array([one.comes_off for one in engine.threats])
    cut = engine.parameters.model.cut_loss
    return LossTable(comes_off * chance + (1.0 - comes_off) * cut, chance)


def meetings(engine: Engine, pose: Array) -> tuple[Meeting, ...]:
    """Return how each threat meets her at one ``pose`` (1, 3)."""
    here = _all_candidates(engine, pose)
    chances = fire(engine, here)
    table = _table(engine, pose, least_answer(chances))
    found, row = [], 0
    for column, threat in enumerate(engine.threats):
        chance, loss = table.chance[0, column], table.loss[0, column]
        if threat.option.kind is OptionKind.DEKE:
            _, along, aside = best_commit(commits(engine), *_on_line(engine, pose))
            x, y = engine.puck_line_place(float(along[0]), float(aside[0]))
            close = _close(engine)
            part = _deke_part(close, threat, engine.line.poses(np.array([[x, y]])))
            there = _candidates(close, [part])
            his = fire(close, there)
            found.append(_meeting(there, his, int(least_answer(his).argmax()), chance, loss))
        else:
            found.append(_meeting(here, chances, row, chance, loss))
            row += 1
    return tuple(found)


def _meeting(of: Candidates, chances: Array, row: int, chance: float, loss: float) -> Meeting:
    ways = np.where(np.isnan(chances[:, row]), np.inf, chances[:, row])
    way = Way(int(ways.argmin()))
    one, pairs = of.replies, of.pairs
    return Meeting(
        release=(float(pairs.release[row, 0]), float(pairs.release[row, 1])),
        time=float(pairs.time[row]),
        start=_triple(pairs.start[row]),
        pose=_triple(one.pose[way, row]),
        target=(float(one.target[way, row, 0]), float(one.target[way, row, 1])),
        way=way,
        held=int(one.held[way, row]),
        delay=float(one.delay[way, row]),
        arrival=float(one.arrival[way, row]),
        set_time=float(one.set_time[way, row]),
        line_time=float(one.set_time[Way.NEAREST, row]),
        chance=float(chance),
        loss=float(loss),
    )


def _triple(values: Array) -> tuple[float, float, float]:
    return (float(values[0]), float(values[1]), float(values[2]))


def _on_line(engine: Engine, poses: Array) -> tuple[Array, Array]:
    """Return how far along the puck's own line and how far to its left (m,) [m] poses are."""
    ux, uy = np.array(engine.puck) / np.hypot(*engine.puck)
    return poses[:, 0] * ux + poses[:, 1] * uy, poses[:, 1] * ux - poses[:, 0] * uy


def _close(engine: Engine) -> Engine:
    """Return the engine for going round her: coarse targets, and a shooter with room."""
    return replace(
        engine,
        room=engine.parameters.model.deke_room,
        grid=target_grid(engine.situation.rink.goal, fine=False),
    )


def commits(engine: Engine) -> Surface:
    """Return going round her wherever she is met.

    It hangs on the carrier, on her and on the parameters, not on the other people, and is kept
    while those are dragged about.
    """
    situation = engine.situation
    alone = replace(situation, mates=(), defenders=())
    return _commits(alone, engine.goaltender, engine.parameters, engine.line, engine.late)


@lru_cache(maxsize=128)
def _commits(
    situation: Situation,
    goaltender: Goaltender,
    parameters: PlayParameters,
    line: Line,
    late: float,
) -> Surface:
    threat = deke_threat(situation, parameters)
    engine = _close(
        Engine(
            situation=situation,
            goaltender=goaltender,
            parameters=parameters,
            threats=(threat,),
            grid=target_grid(situation.rink.goal, fine=False),
            line=line,
            late=late,
        )
    )
    depths = commit_depths(engine.puck, parameters.model)
    places = np.array(
        [engine.puck_line_place(depth, aside) for aside in COMMIT_OFFSETS for depth in depths]
    )
    late_push = threat.wrong_foot + parameters.model.moving_delay_most
    poses = line.poses(places)
    parts = [
        _deke_part(engine, one, poses) for one in (threat, replace(threat, wrong_foot=late_push))
    ]
    chance = least_answer(fire(engine, _candidates(engine, parts)))
    standing, moving = bridged(chance.reshape(2, BLOCKS, len(COMMIT_OFFSETS), -1))
    set_again, backed = retreats(engine.puck, depths, situation, goaltender, parameters)
    return Surface(
        depths=depths,
        chance=standing,
        on_the_move=moving,
        set_again=set_again,
        backed=backed,
    )


@dataclass(frozen=True, slots=True)
class _Part:
    """One threat against some starts."""

    threat: Threat
    start: Array
    release: Array
    time: Array
    speed: Array


def _all_candidates(engine: Engine, poses: Array) -> Candidates:
    parts = []
    count = len(poses)
    for threat in engine.threats:
        if threat.option.kind is not OptionKind.DEKE:
            release = np.broadcast_to(np.array(threat.release), (count, 2))
            time, speed = np.full(count, threat.time), np.full(count, threat.speed)
            parts.append(_Part(threat, poses, release, time, speed))
    return _candidates(engine, parts)


def _deke_part(engine: Engine, threat: Threat, poses: Array) -> _Part:
    moves: Moves = moves_from(poses, engine.situation, engine.parameters)
    return _Part(threat, moves.start, moves.release, moves.time, moves.speed)


def _candidates(engine: Engine, parts: list[_Part]) -> Candidates:
    """Return her replies to all parts, in one batch."""
    start = np.concatenate([one.start for one in parts])
    release = np.concatenate([one.release for one in parts])
    speed = np.concatenate([one.speed for one in parts])
    sizes = [len(one.time) for one in parts]
    motion = engine.goaltender.motion
    late_drop = speed * (motion.drop + engine.parameters.shot.reaction)
    pairs = Pairs(
        start=start,
        release=release,
        time=np.concatenate([one.time for one in parts]),
        wrong_foot=np.repeat([one.threat.wrong_foot + engine.late for one in parts], sizes),
        drops=np.hypot(*(release - start[:, :2]).T) < late_drop,
        reaches=np.repeat([one.threat.option.kind is OptionKind.DEKE for one in parts], sizes),
    )
    found = replies(pairs, motion, engine.limits)
    if engine.late:
        found.delay[:, pairs.time == 0.0] += engine.late
    return Candidates(pairs, speed, found, _hidden(engine, parts, pairs, found))


def _hidden(engine: Engine, parts: list[_Part], pairs: Pairs, found: Replies) -> Array:
    """Return the share (ways, n) of shots that she does not see for bodies in between."""
    hidden = np.zeros(found.delay.shape)
    situation, model = engine.situation, engine.parameters.model
    if len(situation.people) == 1:
        return hidden
    first = 0
    for part in parts:
        rows = slice(first, first + len(part.time))
        first = rows.stop
        bodies = bodies_at(situation, part.threat.time, part.threat.shooter)
        if len(bodies):
            eyes = found.pose[:, rows]
            hidden[:, rows] = model.screen_blind * hidden_share(
                pairs.release[None, rows], eyes[..., 0], eyes[..., 1], bodies,
                model.body_half_width, PUCK_HALF_WIDTH,
            )  # fmt: skip
    return hidden


def fire(engine: Engine, of: Candidates) -> Array:
    """Return the goal chances (ways, n) of candidates, from one call of the kernel.

    Ways that do not exist get infinity, so that a minimum passes over them.
    """
    return _fire([engine], [of], threads=1)[0]


def losses_of_many(
    engines: list[Engine], poses: list[Array], *, threads: int = 1
) -> list[LossTable]:
    """Return the loss tables of several situations of one goaltender, in one call of the kernel.

    (Going round her, where it is an option, is worked out for each on its own.)

    The engines must share goaltender, parameters and grid; ``poses`` holds (m, 3) for each.
    """
    here = [_all_candidates(one, at) for one, at in zip(engines, poses, strict=True)]
    return [
        _table(engine, at, least_answer(chances))
        for engine, at, chances in zip(engines, poses, _fire(engines, here, threads), strict=True)
    ]


def _fire(engines: list[Engine], batches: list[Candidates], threads: int) -> list[Array]:
    """Return the goal chances (ways, n) of each batch; the engines share all but the situation."""
    if not engines:
        return []
    if len({one.room for one in engines}) > 1:
        return _fire_by_room(engines, batches, threads)
    engine = engines[0]
    rows = [np.nonzero(of.replies.usable) for of in batches]
    picked = list(zip(batches, rows, strict=True))
    pucks = np.concatenate([of.pairs.release[row] for of, (_, row) in picked])
    found = goal_chance_many(
        np.column_stack([pucks, np.full(len(pucks), PUCK_HEIGHT)]),
        np.concatenate([of.replies.pose[at] for of, at in picked]),
        stance_bodies(engine.goaltender.build),
        engine.grid,
        _early(engine.parameters.shot, engine.room),
        speed=np.concatenate([of.speed[row] for of, (_, row) in picked]),
        delay=np.concatenate([of.replies.delay[at] for of, at in picked]) + HEAD_START,
        hidden=np.concatenate([of.hidden[at] for of, at in picked]),
        held=np.concatenate([of.replies.held[at] for of, at in picked]),
        change=stance_changes(engine.goaltender.motion.drop),
        threads=threads,
    ).chance
    answers, first = [], 0
    for of, at in picked:
        chance = np.full(of.replies.usable.shape, np.inf)
        chance[at] = found[first : first + len(at[0])]
        first += len(at[0])
        answers.append(chance)
    return answers


def _fire_by_room(engines: list[Engine], batches: list[Candidates], threads: int) -> list[Array]:
    """Return what :func:`_fire` does, one call of the kernel for each amount of room."""
    answers: dict[int, Array] = {}
    for room in sorted({one.room for one in engines}):
        rows = [row for row, one in enumerate(engines) if one.room == room]
        found = _fire([engines[row] for row in rows], [batches[row] for row in rows], threads)
        answers.update(zip(rows, found, strict=True))
    return [answers[row] for row in range(len(engines))]


@lru_cache(maxsize=64)
def _early(shot: ShotParameters, room: float) -> ShotParameters:
    """Return the shot's parameters against a shooter with ``room``, the reaction moved ahead.

    So moved, delays stay positive.
    """
    return replace(shot.with_room(room), reaction=shot.reaction - HEAD_START)


def least_answer(chance: Array) -> Array:
    """Return the least (n,) over ways (ways, n); a way without an answer is passed over."""
    least = np.fmin.reduce(chance, axis=0)
    return np.where(np.isinf(least), np.nan, least)
