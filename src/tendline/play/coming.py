"""What a carrier who comes in can make of every place of hers, kept while others are dragged."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from tendline.motion import MoveKind
from tendline.play.deke import (
    BLOCKS,
    COMMIT_OFFSETS,
    Moves,
    Surface,
    best_commit,
    bridged,
    commit_depths,
    late_releases,
    moves_from,
    retreats,
)
from tendline.play.engine import Engine, target_grid
from tendline.play.firing import Part, candidates, fire
from tendline.play.lanes import Array
from tendline.play.options import COMING_IN, OptionKind, Threat
from tendline.play.threats import coming_threats


@dataclass(frozen=True, slots=True)
class Met:
    """Where she is met: ``chance`` (2, m) of going round her and of the late shot, ``along`` and
    ``aside`` (m,) [m] of the puck's line."""

    chance: Array
    along: Array
    aside: Array


def met_coming_in(engine: Engine, poses: Array) -> Met:
    """Return how a carrier who comes in meets her, waiting at ``poses`` (m, 3)."""
    ux, uy = np.array(engine.puck) / np.hypot(*engine.puck)
    along = poses[:, 0] * ux + poses[:, 1] * uy
    aside = poses[:, 1] * ux - poses[:, 0] * uy
    return Met(*best_commit(surface_of(engine), along, aside))


def coming_part(engine: Engine, threat: Threat, pose: Array) -> tuple[Engine, list[Part]]:
    """Return the engine and the shots of one such threat where she is met, waiting at a pose."""
    met = met_coming_in(engine, pose)
    x, y = engine.puck_line_place(float(met.along[0]), float(met.aside[0]))
    close = _close(engine)
    return close, [_part(close, threat, engine.line.poses(np.array([[x, y]])))]


def surface_of(engine: Engine) -> Surface:
    """Return his chances wherever she is met.

    They hang on the carrier, on her and on the parameters, not on the other people.
    """
    kinds = {one.option.kind for one in engine.threats}
    alone = replace(engine.situation, mates=(), defenders=())
    line = replace(engine.line, people=())
    blank = replace(_close(engine), situation=alone, line=line, threats=())
    return _surface(blank, tuple(one in kinds for one in COMING_IN))


def _close(engine: Engine) -> Engine:
    """Return the engine near her: a shooter with room, and coarse targets (his chances are
    interpolated between places anyway).
    """
    return replace(
        engine,
        room=engine.parameters.model.deke_room,
        grid=target_grid(engine.situation.rink.goal, fine=False),
    )


@lru_cache(maxsize=128)
def _surface(engine: Engine, on: tuple[bool, ...]) -> Surface:
    situation, model = engine.situation, engine.parameters.model
    depths = commit_depths(engine.puck, model)
    places = [engine.puck_line_place(one, aside) for aside in COMMIT_OFFSETS for one in depths]
    poses = engine.line.poses(np.array(places))
    settle = engine.goaltender.motion.law(MoveKind.C_CUT_BACK).settle
    round_her, late_shot = coming_threats(situation, engine.parameters)
    on_line = poses[COMMIT_OFFSETS.index(0.0) * len(depths) :][: len(depths)]
    parts = [
        _part(engine, one, at, late)
        for at, late in ((poses, 0.0), (on_line, settle))
        for one in (round_her, late_shot)
    ]
    chance, _ = fire(engine, candidates(engine, parts)).least()
    split = (BLOCKS + 1) * len(poses)
    standing = bridged(chance[:split].reshape(BLOCKS + 1, len(COMMIT_OFFSETS), -1))
    moving = bridged(chance[split:].reshape(BLOCKS + 1, 1, -1))
    set_again, backed = retreats(
        engine.puck, depths, situation, engine.goaltender, engine.parameters
    )
    return Surface(
        depths=depths,
        round_her=standing[:BLOCKS],
        late_shot=standing[BLOCKS:],
        round_her_moving=moving[:BLOCKS, 0],
        late_shot_moving=moving[BLOCKS, 0],
        weights=np.array([round_her.struck, late_shot.struck]) * on,
        set_again=set_again,
        backed=backed,
    )


def _part(engine: Engine, threat: Threat, poses: Array, late: float = 0.0) -> Part:
    if threat.option.kind is OptionKind.COME_IN:
        count = len(poses)
        release = late_releases(engine.puck, poses, engine.parameters.model.come_in_gap)
        return Part(threat, poses, release, np.zeros(count), np.full(count, threat.speed), late)
    moves: Moves = moves_from(poses, engine.situation, engine.parameters)
    return Part(threat, moves.start, moves.release, moves.time, moves.speed, late)
