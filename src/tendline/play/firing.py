"""From replies to goals: every pair of place, option and reply in one call of the shot's kernel."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from tendline.body import Build, Capsules, capsules
from tendline.play.engine import Engine
from tendline.play.geometry import bodies_at
from tendline.play.lanes import Array, hidden_share
from tendline.play.loose import attackers_reach, second_chances
from tendline.play.options import COMING_IN, OptionKind, Threat
from tendline.play.reply import BUTTERFLY, READY, STANCES, Pairs, Replies, replies
from tendline.shot import NEVER, ShotParameters, goal_chance_many
from tendline.shot import constants as shots

PUCK_HEIGHT = shots.PUCK_THICKNESS.value / 2.0
"""Height of the centre of a puck lying on the ice [m]."""
PUCK_HALF_WIDTH = shots.PUCK_DIAMETER.value / 2.0
"""Half the puck's width [m]."""
HEAD_START = 1.25
"""No save is under way for longer than this before the release [s]: the longest reach and the
longest reaction that may be set."""


@dataclass(frozen=True, slots=True)
class Candidates:
    """Pairs with the shot each faces and her replies to it: all that the kernel needs.

    ``speed`` (n,) [m/s], ``hidden`` (ways, n) share of shots that she does not see, ``loose`` (n,)
    how much oftener than usual attackers get to what she leaves loose.
    """

    pairs: Pairs
    speed: Array
    replies: Replies
    hidden: Array
    loose: Array


@dataclass(frozen=True, slots=True)
class Fired:
    """What her replies leave, (ways, n): ``chance`` of a goal by the shot, ``cost`` with what may
    follow a save. Ways that do not exist hold infinity, those without an answer NaN.
    """

    chance: Array
    cost: Array

    def least(self) -> tuple[Array, Array]:
        """Return chance and cost (n,) of the reply that costs least; NaN where there is none."""
        known = np.where(np.isnan(self.cost), np.inf, self.cost)
        best, rows = known.argmin(axis=0), np.arange(known.shape[1])
        cost = known[best, rows]
        found = np.isfinite(cost)
        return (
            np.where(found, self.chance[best, rows], np.nan),
            np.where(found, cost, np.nan),
        )


@dataclass(frozen=True, slots=True)
class Part:
    """One threat against some starts, with the time ``late`` [s] that she has lost by then."""

    threat: Threat
    start: Array
    release: Array
    time: Array
    speed: Array
    late: float = 0.0


def candidates(engine: Engine, parts: list[Part]) -> Candidates:
    """Return her replies to all parts, of which there may be none, in one batch."""
    start = np.concatenate([np.empty((0, 3)), *(one.start for one in parts)])
    release = np.concatenate([np.empty((0, 2)), *(one.release for one in parts)])
    time = np.concatenate([np.empty(0), *(one.time for one in parts)])
    speed = np.concatenate([np.empty(0), *(one.speed for one in parts)])
    sizes = np.array([len(one.time) for one in parts], np.int64)
    motion = engine.goaltender.motion
    late = np.repeat(np.array([one.late + engine.late for one in parts]), sizes)
    feints = np.repeat(np.array([one.threat.wrong_foot for one in parts]), sizes)
    reaches = np.array([one.threat.option.kind is OptionKind.DEKE for one in parts], bool)
    late_drop = speed * (motion.drop + engine.parameters.shot.reaction)
    pairs = Pairs(
        start=start,
        release=release,
        time=time,
        wrong_foot=feints + late,
        drops=np.hypot(*(release - start[:, :2]).T) < late_drop,
        reaches=np.repeat(reaches, sizes),
    )
    found = replies(pairs, motion, engine.limits)
    found.delay[:] += np.where(pairs.time == 0.0, late, 0.0)
    loose = np.repeat(np.array([_loose(engine, one.threat) for one in parts]), sizes)
    return Candidates(pairs, speed, found, _hidden(engine, parts, pairs, found), loose)


def _loose(engine: Engine, threat: Threat) -> float:
    """Return how much oftener than usual attackers get to a loose puck.

    A carrier who comes in has none: what may follow is part of the share that comes off.
    """
    if threat.option.kind in COMING_IN:
        return 0.0
    return attackers_reach(engine.situation, threat, engine.parameters.model)


def _hidden(engine: Engine, parts: list[Part], pairs: Pairs, found: Replies) -> Array:
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


def fire(engine: Engine, of: Candidates) -> Fired:
    """Return what candidates cost, from one call of the kernel."""
    return fire_all([engine], [of], threads=1)[0]


def fire_all(engines: list[Engine], batches: list[Candidates], threads: int) -> list[Fired]:
    """Return what each batch costs; the engines share all but the situation."""
    if not engines:
        return []
    if len({one.room for one in engines}) > 1:
        return _fire_by_room(engines, batches, threads)
    engine = engines[0]
    rows = [np.nonzero(of.replies.usable) for of in batches]
    picked = list(zip(batches, rows, strict=True))
    pucks = np.concatenate([of.pairs.release[row] for of, (_, row) in picked])
    poses = np.concatenate([of.replies.pose[at] for of, at in picked])
    found = goal_chance_many(
        np.column_stack([pucks, np.full(len(pucks), PUCK_HEIGHT)]),
        poses,
        stance_bodies(engine.goaltender.build),
        engine.grid,
        _early(engine.parameters.shot, engine.room),
        speed=np.concatenate([of.speed[row] for of, (_, row) in picked]),
        delay=np.concatenate([of.replies.delay[at] for of, at in picked]) + HEAD_START,
        hidden=np.concatenate([of.hidden[at] for of, at in picked]),
        held=np.concatenate([of.replies.held[at] for of, at in picked]),
        change=stance_changes(engine.goaltender.motion.drop),
        threads=threads,
    )
    second = second_chances(
        np.hypot(poses[:, 0], poses[:, 1]), engine.goaltender.build, engine.situation.rink.goal,
        engine.parameters.level, engine.parameters.settings,
    ) * np.concatenate([of.loose[row] for of, (_, row) in picked])  # fmt: skip
    saved = np.maximum(found.on_net - found.chance, 0.0)
    cost = found.chance + saved * np.minimum(second, 1.0)
    answers, first = [], 0
    for of, at in picked:
        mine = slice(first, first + len(at[0]))
        first = mine.stop
        made = Fired(*(np.full(of.replies.usable.shape, np.inf) for _ in range(2)))
        made.chance[at], made.cost[at] = found.chance[mine], cost[mine]
        answers.append(made)
    return answers


def _fire_by_room(engines: list[Engine], batches: list[Candidates], threads: int) -> list[Fired]:
    """Return what :func:`fire_all` does, one call of the kernel for each amount of room."""
    answers: dict[int, Fired] = {}
    for room in sorted({one.room for one in engines}):
        rows = [row for row, one in enumerate(engines) if one.room == room]
        found = fire_all([engines[row] for row in rows], [batches[row] for row in rows], threads)
        answers.update(zip(rows, found, strict=True))
    return [answers[row] for row in range(len(engines))]


@lru_cache(maxsize=64)
def _early(shot: ShotParameters, room: float) -> ShotParameters:
    """Return the shot's parameters against a shooter with ``room``, the reaction moved ahead.

    So moved, delays stay positive.
    """
    return replace(shot.with_room(room), reaction=shot.reaction - HEAD_START)


@lru_cache(maxsize=64)
def stance_bodies(build: Build) -> tuple[Capsules, ...]:
    """Return her body in the stances that replies use, in the order of ``reply``."""
    return tuple(capsules(build, one) for one in STANCES)


@lru_cache(maxsize=64)
def stance_changes(drop: float) -> Array:
    """Return the seconds (stances, stances) from one stance into another within a save."""
    table = np.full((len(STANCES), len(STANCES)), NEVER)
    np.fill_diagonal(table, 0.0)
    table[READY, BUTTERFLY] = drop
    return table
