"""The loss table: for each place she may stand at and each option, the chance of a goal.

    L(g, o) = comes_off(o) * min over her replies of cost + (1 - comes_off(o)) * cut_loss
    cost = goal chance + saved * chance that a second shot goes in (see ``loose``)

Every pair of place, option and reply goes into one batch for the shot's kernel; a carrier who
comes in is worked out apart (see ``coming``).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tendline.play.coming import coming_part, met_coming_in
from tendline.play.engine import Engine
from tendline.play.firing import Candidates, Fired, Part, candidates, fire, fire_all
from tendline.play.lanes import Array, Point
from tendline.play.options import COMING_IN
from tendline.play.reply import Way


@dataclass(frozen=True, slots=True)
class LossTable:
    """Losses, goal chances of the first shot, and of a second one after a save, all (places,
    options)."""

    loss: Array
    chance: Array
    after: Array


@dataclass(frozen=True, slots=True)
class Meeting:
    """How one option meets her at one place: the shot, her best reply and the loss.

    ``start`` and ``pose`` are x, y, facing when the option begins and when the shot leaves;
    ``time`` [s] from its first sign to the release; ``line_time`` [s] when she could be set on the
    new line, even if she does something else; ``after`` is the chance of a goal by a second shot
    after a save; other fields as in ``reply``.
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
    after: float
    loss: float


def loss_table(engine: Engine, poses: Array) -> LossTable:
    """Return the loss of each pose (m, 3) against each threat of the engine.

    A pose without an answer (NaN) gets NaN.
    """
    return _table(engine, poses, fire(engine, _all_candidates(engine, poses)))


def _table(engine: Engine, poses: Array, fired: Fired) -> LossTable:
    least_chance, least_cost = fired.least()
    chance, cost = (np.empty((len(poses), len(engine.threats))) for _ in range(2))
    row = 0
    for column, threat in enumerate(engine.threats):
        if threat.option.kind in COMING_IN:
            met = met_coming_in(engine, poses).chance
            chance[:, column] = cost[:, column] = met[COMING_IN.index(threat.option.kind)]
        else:
            rows = slice(row, row + len(poses))
            chance[:, column], cost[:, column] = least_chance[rows], least_cost[rows]
            row += len(poses)
    comes_off = np.array([one.comes_off for one in engine.threats])
    cut = engine.parameters.model.cut_loss
    return LossTable(comes_off * cost + (1.0 - comes_off) * cut, chance, cost - chance)


def meetings(engine: Engine, pose: Array) -> tuple[Meeting, ...]:
    """Return how each threat meets her at one ``pose`` (1, 3)."""
    here = _all_candidates(engine, pose)
    fired = fire(engine, here)
    table = _table(engine, pose, fired)
    found, row = [], 0
    for column, threat in enumerate(engine.threats):
        values = (table.chance[0, column], table.after[0, column], table.loss[0, column])
        if threat.option.kind in COMING_IN:
            there = candidates(*coming_part(engine, threat, pose))
            his = fire(engine, there)
            worst = int(his.least()[1].argmax())
            found.append(_meeting(there, his, worst, values))
        else:
            found.append(_meeting(here, fired, row, values))
            row += 1
    return tuple(found)


def _meeting(of: Candidates, fired: Fired, row: int, values: tuple[float, float, float]) -> Meeting:
    chance, after, loss = map(float, values)
    ways = np.where(np.isnan(fired.cost[:, row]), np.inf, fired.cost[:, row])
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
        chance=chance,
        after=after,
        loss=loss,
    )


def _triple(values: Array) -> tuple[float, float, float]:
    return (float(values[0]), float(values[1]), float(values[2]))


def _all_candidates(engine: Engine, poses: Array) -> Candidates:
    parts = []
    count = len(poses)
    for threat in engine.threats:
        if threat.option.kind not in COMING_IN:
            release = np.broadcast_to(np.array(threat.release), (count, 2))
            time, speed = np.full(count, threat.time), np.full(count, threat.speed)
            parts.append(Part(threat, poses, release, time, speed))
    return candidates(engine, parts)


def losses_of_many(
    engines: list[Engine], poses: list[Array], *, threads: int = 1
) -> list[LossTable]:
    """Return the loss tables of several situations of one goaltender, in one call of the kernel.

    (A carrier who comes in, where that is an option, is worked out for each on its own.)

    The engines must share goaltender, parameters and grid; ``poses`` holds (m, 3) for each.
    """
    here = [_all_candidates(one, at) for one, at in zip(engines, poses, strict=True)]
    return [
        _table(engine, at, fired)
        for engine, at, fired in zip(engines, poses, fire_all(engines, here, threads), strict=True)
    ]
