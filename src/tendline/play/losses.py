"""The loss table: for each place she may stand at and each option, the chance of a goal.

    L(g, o) = comes_off(o) * min over her replies of goal chance + (1 - comes_off(o)) * cut_loss

Every pair of place, option and reply goes into one batch for the shot's kernel.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tendline.body import Build, Capsules, Stance, capsules
from tendline.ice import Goal
from tendline.play.deke import BLOCKS, best_commit, commit_depths, moves_from, retreats
from tendline.play.lanes import Array, Point, hidden_share
from tendline.play.options import OptionKind, Threat, bodies_at
from tendline.play.parameters import PlayParameters
from tendline.play.reply import Pairs, Replies, Way, replies
from tendline.play.situation import Goaltender, Situation
from tendline.shot import NEVER, ShotParameters, goal_chance_many
from tendline.sight import MouthGrid, mouth_grid

PUCK_HEIGHT = 0.0127
"""Height of the centre of a puck lying on the ice [m]: half its thickness."""
PUCK_HALF_WIDTH = 0.0381
"""Half the puck's diameter [m]."""
HEAD_START = 1.0
"""No save is under way for longer than this before the release [s]."""
FINE, COARSE = (37, 25), (19, 13)
"""Columns and rows of targets on the goal mouth: for answers, and for the search."""


@dataclass(frozen=True, slots=True)
class Engine:
    """What every evaluation of one situation shares."""

    situation: Situation
    goaltender: Goaltender
    parameters: PlayParameters
    threats: tuple[Threat, ...]
    grid: MouthGrid

    @property
    def puck(self) -> Point:
        """Return where the puck lies [m]."""
        return self.situation.puck_place


@dataclass(frozen=True, slots=True)
class LossTable:
    """Losses and goal chances, both (places, options)."""

    loss: Array
    chance: Array


@lru_cache(maxsize=64)
def stance_bodies(build: Build) -> tuple[Capsules, ...]:
    """Return her body in the stances that replies use, in the order of ``reply``."""
    return (capsules(build, Stance.READY), capsules(build, Stance.BUTTERFLY))


def target_grid(goal: Goal, *, fine: bool) -> MouthGrid:
    """Return the targets on the goal mouth: fine for answers, coarse for the search."""
    columns, rows = FINE if fine else COARSE
    return mouth_grid(goal, columns=columns, rows=rows)


def poses_at(places: Array, puck: Point) -> Array:
    """Return poses (m, 3) x, y, facing of someone at ``places`` (m, 2) who faces the puck."""
    facing = np.arctan2(puck[1] - places[:, 1], puck[0] - places[:, 0])
    return np.column_stack([places, facing])


def loss_table(engine: Engine, poses: Array) -> LossTable:
    """Return the loss of each pose (m, 3) against each threat of the engine.

    A pose without an answer (NaN) gets NaN.
    """
    model = engine.parameters.model
    jobs = _jobs(engine, poses)
    chances = fire(engine, [job.candidates for job in jobs])
    chance = np.column_stack([job.answer(found) for job, found in zip(jobs, chances, strict=True)])
    comes_off = np.array([one.comes_off for one in engine.threats])
    return LossTable(comes_off * chance + (1.0 - comes_off) * model.cut_loss, chance)


@dataclass(frozen=True, slots=True)
class Meeting:
    """How one option meets her at one place: the shot, her best reply and the loss.

    ``start`` and ``pose`` are x, y, facing when the option begins and when the shot leaves;
    ``time`` [s] from its first sign to the release; other fields as in ``reply``.
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
    chance: float
    loss: float


def meetings(engine: Engine, pose: Array) -> tuple[Meeting, ...]:
    """Return how each threat meets her at one ``pose`` (1, 3)."""
    model = engine.parameters.model
    jobs = _jobs(engine, pose)
    chances = fire(engine, [job.candidates for job in jobs])
    found = []
    for threat, job, chance in zip(engine.threats, jobs, chances, strict=True):
        value = float(job.answer(chance)[0])
        row = job.row_of(chance)
        ways = np.where(np.isnan(chance[:, row]), np.inf, chance[:, row])
        way = Way(int(ways.argmin()))
        one, of = job.candidates.replies, job.candidates
        off = threat.comes_off
        found.append(
            Meeting(
                release=(float(of.release[row, 0]), float(of.release[row, 1])),
                time=float(of.time[row]),
                start=_triple(of.start[row]),
                pose=_triple(one.pose[way, row]),
                target=(float(one.target[way, row, 0]), float(one.target[way, row, 1])),
                way=way,
                held=int(one.held[way, row]),
                delay=float(one.delay[way, row]),
                arrival=float(one.arrival[way, row]),
                set_time=float(one.set_time[way, row]),
                chance=value,
                loss=off * value + (1.0 - off) * model.cut_loss,
            )
        )
    return tuple(found)


def _triple(values: Array) -> tuple[float, float, float]:
    return (float(values[0]), float(values[1]), float(values[2]))


def _jobs(engine: Engine, poses: Array) -> list[_Fixed | _Deke]:
    return [
        _Deke(engine, one, poses)
        if one.option.kind is OptionKind.DEKE
        else _Fixed(engine, one, poses)
        for one in engine.threats
    ]


@dataclass(frozen=True, slots=True)
class Candidates:
    """Replies to be tried (ways, n) with the shots that they face."""

    replies: Replies
    start: Array
    release: Array
    time: Array
    speed: Array
    hidden: Array


class _Fixed:
    """A threat whose release does not depend on her place."""

    def __init__(self, engine: Engine, threat: Threat, poses: Array) -> None:
        count = len(poses)
        release = np.broadcast_to(np.array(threat.release), (count, 2))
        self.candidates = candidates(
            engine, threat, poses, release, np.full(count, threat.time),
            np.full(count, threat.speed),
        )  # fmt: skip

    def answer(self, chance: Array) -> Array:
        """Return the goal chance (m,) of her best reply, from ``chance`` (ways, m)."""
        return least_answer(chance)

    def row_of(self, chance: Array) -> int:
        """Return which row of the candidates answers for the first place."""
        del chance
        return 0


class _Deke:
    """Going round her: from her place, or from one she has backed up to."""

    def __init__(self, engine: Engine, threat: Threat, poses: Array) -> None:
        model, puck = engine.parameters.model, engine.puck
        unit = np.array(puck) / np.hypot(*puck)
        self.depths = commit_depths(puck, model)
        line = poses_at(self.depths[:, None] * unit, puck)
        self.count = len(poses)
        both = np.concatenate([poses, line])
        moves = moves_from(both, engine.situation, engine.parameters)
        self.candidates = candidates(
            engine, threat, moves.start, moves.release, moves.time, moves.speed
        )
        self.backed = retreats(
            puck, self.depths, engine.situation, engine.goaltender, engine.parameters
        )
        self.along = poses[:, 0] * unit[0] + poses[:, 1] * unit[1]
        self.aside = poses[:, 1] * unit[0] - poses[:, 0] * unit[1]

    def answer(self, chance: Array) -> Array:
        """Return the goal chance (m,): his better side, her better place to be met at."""
        found, _ = self._best(chance)
        return found

    def row_of(self, chance: Array) -> int:
        """Return the row that answers for the first place: where he commits, and his side."""
        found, stays = self._best(chance)
        blocks = least_answer(chance).reshape(BLOCKS, -1)
        place = 0
        if not stays[0]:
            place = self.count + int(
                np.nanargmin(np.abs(blocks.max(axis=0)[self.count :] - found[0]))
            )
        return int(blocks[:, place].argmax()) * blocks.shape[1] + place

    def _best(self, chance: Array) -> tuple[Array, NDArray[np.bool_]]:
        worse = least_answer(chance).reshape(BLOCKS, -1).max(axis=0)
        return best_commit(
            self.along, self.aside, worse[: self.count], self.depths, worse[self.count :],
            self.backed,
        )  # fmt: skip


@lru_cache(maxsize=64)
def _early(shot: ShotParameters) -> ShotParameters:
    """Return the shot's parameters with the reaction moved ahead, so that delays stay positive."""
    return replace(shot, reaction=shot.reaction - HEAD_START)


def least_answer(chance: Array) -> Array:
    """Return the least (n,) over ways (ways, n); a way without an answer is passed over."""
    least = np.fmin.reduce(chance, axis=0)
    return np.where(np.isinf(least), np.nan, least)


def candidates(
    engine: Engine, threat: Threat, start: Array, release: Array, time: Array, speed: Array
) -> Candidates:
    """Return her replies to one threat from ``start`` (n, 3), with the shots they face."""
    model = engine.parameters.model
    pairs = Pairs(
        start=start,
        release=np.asarray(release, dtype=np.float64),
        time=time,
        wrong_foot=np.full(len(time), threat.wrong_foot),
        least_depth=model.depth_least,
        most_depth=model.reply_depth_most,
        puck_gap=model.puck_gap,
    )
    motion = engine.goaltender.motion
    close = np.hypot(*(pairs.release - start[:, :2]).T) < speed * (
        motion.drop + engine.parameters.shot.reaction
    )
    found = replies(
        pairs, motion, most_delay=model.moving_delay_most,
        save_reaction=engine.parameters.shot.reaction, drops=close,
        reaches=threat.option.kind is OptionKind.DEKE,
    )  # fmt: skip
    shooter = threat.shooter or engine.situation.carrier.name
    bodies = bodies_at(engine.situation, threat.time, shooter)
    hidden = np.zeros(found.delay.shape)
    if len(bodies):
        eyes = found.pose
        hidden = model.screen_blind * hidden_share(
            pairs.release[None, :, :], eyes[..., 0], eyes[..., 1], bodies,
            model.body_half_width, PUCK_HALF_WIDTH,
        )  # fmt: skip
    return Candidates(found, start, pairs.release, time, speed, hidden)


def fire(engine: Engine, batches: list[Candidates]) -> list[Array]:
    """Return the goal chances (ways, n) of each batch, from one call of the kernel.

    Ways that do not exist get infinity, so that a minimum passes over them.
    """
    pucks, poses, speeds, delays, hidden, held = [], [], [], [], [], []
    for one in batches:
        usable = one.replies.usable
        ways = np.nonzero(usable)
        puck = np.empty((len(ways[0]), 3))
        puck[:, :2] = one.release[ways[1]]
        puck[:, 2] = PUCK_HEIGHT
        pucks.append(puck)
        poses.append(one.replies.pose[ways])
        speeds.append(one.speed[ways[1]])
        delays.append(one.replies.delay[ways])
        hidden.append(one.hidden[ways])
        held.append(one.replies.held[ways])
    motion = engine.goaltender.motion
    change = np.array([[0.0, motion.drop], [NEVER, 0.0]])
    found = goal_chance_many(
        np.concatenate(pucks),
        np.concatenate(poses),
        stance_bodies(engine.goaltender.build),
        engine.grid,
        _early(engine.parameters.shot),
        speed=np.concatenate(speeds),
        delay=np.concatenate(delays) + HEAD_START,
        hidden=np.concatenate(hidden),
        held=np.concatenate(held),
        change=change,
    ).chance
    answers: list[Array] = []
    first = 0
    for one in batches:
        exists = one.replies.usable
        count = int(exists.sum())
        chance = np.full(exists.shape, np.inf)
        chance[exists] = found[first : first + count]
        answers.append(chance)
        first += count
    return answers
