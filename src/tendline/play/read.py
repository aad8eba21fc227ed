"""Read the play: where she should stand, what each option costs there, and why."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from tendline.base import InputError, require_number
from tendline.body import Pose, Stance
from tendline.ice import require_on_ice
from tendline.play.answers import Weights, option_answers
from tendline.play.decision import depth_band, habit_shares, lowest_on_line, worst_case_share
from tendline.play.geometry import room_of
from tendline.play.ground import Line, puck_line
from tendline.play.lanes import Array
from tendline.play.losses import Engine, loss_table, post_poses, target_grid
from tendline.play.options import OptionKind
from tendline.play.parameters import PlayParameters
from tendline.play.recognise import attack, depth_name, numbers
from tendline.play.result import DepthCurve, OptionAnswer, Place, Read
from tendline.play.search import TIE, lowest_place
from tendline.play.situation import Goaltender, Situation
from tendline.play.threats import threats
from tendline.play.uncertainty import chance_spread, sensitivities
from tendline.play.words import answer_words, reasons

CURVE_STEP, QUICK_CURVE_STEP = 0.15, 0.3
"""Spacing of the depth curve [m], in full and while dragging."""


BODY_RADIUS = 0.25
"""A puck nearer than this to the middle of her place [m] lies inside her."""
MOST_RESTARTS = 4
LOOK_AROUND, LOOK_POINTS = 0.8, 17
"""How far either side of the answer [m] a moved assumption looks for its depth, and how often."""


def read(
    situation: Situation,
    goaltender: Goaltender,
    parameters: PlayParameters,
    *,
    habits: Mapping[OptionKind, int] | None = None,
    options: frozenset[OptionKind] | None = None,
    warm: Read | None = None,
    detail: bool = True,
) -> Read:
    """Return where to stand and why.

    Parameters
    ----------
    habits
        How often each kind of option was seen of this opponent (counts).
    options
        The kinds of option that are switched on; all when None.
    warm
        The previous answer, from which the search starts while the coach drags people about.
    detail
        False leaves out what dragging cannot wait for: intervals, sensitivities, the fine grid.

    Raises
    ------
    InputError
        No option is left, or the puck lies where she cannot be in front of it.
    """
    engine, weights = prepare(
        situation, goaltender, parameters, habits=habits, options=options, fine=False
    )
    near = (warm.depth, warm.offset) if warm is not None else None
    depth, offset, _ = lowest_place(engine.line, place_losses(engine, weights), near=near)
    if not detail:
        return _read_at(engine, weights, depth, offset, step=QUICK_CURVE_STEP)
    engine = engine.on_grid(target_grid(situation.rink.goal, fine=True))
    answer = _refined(engine, weights, (depth, offset))

    def solve(other: PlayParameters, her: Goaltender) -> tuple[float, float]:
        again, shares = prepare(situation, her, other, habits=habits, options=options, fine=False)
        return best_depth(again, shares, answer.depth, answer.offset)

    return replace(
        answer,
        options=_with_intervals(engine, answer),
        sensitivities=sensitivities(engine, solve),
    )


def best_depth(
    engine: Engine, weights: Weights, depth: float, offset: float
) -> tuple[float, float]:
    """Return the best depth [m] near ``depth`` at one ``offset`` from the line, and its loss.

    Between depths tried the losses of the options are taken as straight, as in ``decision``.
    """
    line = engine.line
    around = depth + np.linspace(-LOOK_AROUND, LOOK_AROUND, LOOK_POINTS)
    depths = np.array([one for one in around if line.allows(float(one), offset)])
    places = np.array([line.place(float(one), offset) for one in depths])
    table = loss_table(engine, line.poses(places)).loss
    best = lowest_on_line(depths, table, weights.shares, weights.worst_share, weights.tremble)
    row = np.array([[np.interp(best, depths, column) for column in table.T]])
    return best, float(weights.loss(row)[0])


def _refined(engine: Engine, weights: Weights, near: tuple[float, float]) -> Read:
    """Return the answer on the engine's own grid, from a start found on a coarser one.

    If the depth curve shows a better depth elsewhere, the search starts again from there.
    """
    losses = place_losses(engine, weights)
    for _ in range(MOST_RESTARTS):
        depth, offset, _ = lowest_place(engine.line, losses, near=near, first_step=4)
        answer = _read_at(engine, weights, depth, offset, step=CURVE_STEP)
        best = int(np.nanargmin(answer.curve.combined))
        if answer.curve.combined[best] >= answer.loss - TIE:
            break
        near = (float(answer.curve.depth[best]), offset)
    return answer


def _with_intervals(engine: Engine, answer: Read) -> tuple[OptionAnswer, ...]:
    """Return the options with the interval of each goal chance."""
    spot = np.array([[answer.spot.x, answer.spot.y, answer.spot.facing]])
    spread = {
        threat.option: float(value)
        for threat, value in zip(engine.threats, chance_spread(engine, spot), strict=True)
    }
    return tuple(
        replace(
            one,
            chance_low=max(one.goal_chance - spread[one.option], 0.0),
            chance_high=min(one.goal_chance + spread[one.option], 1.0),
        )
        for one in answer.options
    )


def evaluate_place(
    situation: Situation,
    goaltender: Goaltender,
    parameters: PlayParameters,
    pose: Pose,
    *,
    habits: Mapping[OptionKind, int] | None = None,
    options: frozenset[OptionKind] | None = None,
    late: float = 0.0,
) -> Place:
    """Return what each option costs from any given place (where she really stood, say).

    ``late`` [s] is the time still missing until she is set: 0 for standing still or drifting
    back, more for someone who is on her way or coming out.
    """
    require_number("time until set", late, low=0.0, high=2.0, unit="s", item="goaltender")
    require_clear(situation, pose)
    engine, weights = prepare(
        situation, goaltender, parameters, habits=habits, options=options, fine=True
    )
    engine = replace(engine, late=late)
    depth, offset = engine.line.depth_and_offset(pose.x, pose.y)
    loss, answers = option_answers(engine, pose, weights)
    return Place(pose=pose, depth=depth, offset=offset, loss=loss, options=answers)


def require_clear(situation: Situation, pose: Pose) -> None:
    """Raise ``InputError`` for a goaltender off the ice, in the net or on the puck."""
    require_on_ice(situation.rink, x=pose.x, y=pose.y, item="goaltender")
    if situation.rink.in_net(pose.x, pose.y):
        raise InputError(
            "she stands inside the net", came=f"x = {pose.x:g} m, y = {pose.y:g} m",
            allowed="in front of the goal line", item="goaltender",
        )  # fmt: skip
    room = math.dist((pose.x, pose.y), situation.puck_place)
    if room < BODY_RADIUS:
        raise InputError(
            "the puck lies inside the goaltender", came=f"{room:.2f} m from her middle",
            allowed=f"{BODY_RADIUS:g} m or more", hint="Move the puck or the goaltender.",
            item="goaltender",
        )  # fmt: skip


def prepare(
    situation: Situation,
    goaltender: Goaltender,
    parameters: PlayParameters,
    *,
    habits: Mapping[OptionKind, int] | None,
    options: frozenset[OptionKind] | None,
    fine: bool,
) -> tuple[Engine, Weights]:
    """Return the engine of a situation and the weights of its options."""
    found = threats(situation, parameters, options)
    if not found:
        raise InputError(
            "no option is left to the attack",
            came="every option switched off, or nobody who sees the goal",
            hint="Switch one of the attack's options on, or move the puck in front of the goal "
            "line.",
        )
    counts = {kind.value: count for kind, count in (habits or {}).items()}
    shares, observed = habit_shares(tuple(one.option.kind.value for one in found), counts)
    worst = worst_case_share(observed, parameters.model.habit_weight)
    goal = situation.rink.goal
    engine = Engine(
        situation=situation,
        goaltender=goaltender,
        parameters=parameters,
        threats=found,
        grid=target_grid(goal, fine=fine),
        line=puck_line(situation.puck_place, goal, parameters.model, _others(situation)),
        room=room_of(situation, parameters.model),
    )
    return engine, Weights(shares, worst, parameters.model.tremble, observed)


def _others(situation: Situation) -> tuple[tuple[float, float], ...]:
    return tuple((one.x, one.y) for one in situation.people if one is not situation.carrier)


def place_losses(engine: Engine, weights: Weights) -> Callable[[Array], Array]:
    """Return the function from places (m, 2) to combined losses (m,) that the search minimises."""

    def losses(places: Array) -> Array:
        return weights.loss(loss_table(engine, engine.line.poses(places)).loss)

    return losses


def depth_curve(
    engine: Engine, weights: Weights, line: Line, offset: float, step: float = CURVE_STEP
) -> DepthCurve:
    """Return what each option costs by depth, every ``step`` [m], at one offset from the line."""
    count = max(2, math.ceil((line.most_depth - line.least_depth) / step) + 1)
    depths = np.linspace(line.least_depth, line.most_depth, count)
    allowed = np.array([line.allows(one, offset) for one in depths])
    loss = np.full((len(engine.threats), count), np.nan)
    if allowed.any():
        places = np.array([line.place(one, offset) for one in depths[allowed]])
        loss[:, allowed] = loss_table(engine, engine.line.poses(places)).loss.T
    combined = weights.loss(loss.T)
    for array in (depths, loss, combined):
        array.flags.writeable = False
    return DepthCurve(
        depth=depths,
        names=tuple(one.option.key for one in engine.threats),
        loss=loss,
        combined=combined,
    )


def waiting_stance(engine: Engine, x: float, y: float) -> Stance:
    """Return the stance she waits in at a place: on a post beside it if the puck is that sharp."""
    bearing = math.atan2(engine.puck[1], engine.puck[0])
    if abs(bearing) < math.radians(engine.parameters.model.seal_from):
        return Stance.READY
    standing = post_poses(engine.goaltender.build, engine.situation.rink.goal)[0]
    for post, stance in zip(
        standing, (Stance.POST_STAND_LEFT, Stance.POST_STAND_RIGHT), strict=True
    ):
        if math.hypot(x - post[0], y - post[1]) <= engine.parameters.model.seal_near:
            return stance
    return Stance.READY


def _read_at(engine: Engine, weights: Weights, depth: float, offset: float, *, step: float) -> Read:
    line = engine.line
    situation, model = engine.situation, engine.parameters.model
    x, y = line.place(depth, offset)
    facing = float(line.poses(np.array([[x, y]]))[0, 2])
    spot = Pose(x, y, facing, waiting_stance(engine, x, y))
    loss, answers = option_answers(engine, spot, weights)
    curve = depth_curve(engine, weights, line, offset, step)
    order = np.argsort(np.append(curve.depth, depth), kind="stable")
    band = depth_band(
        np.append(curve.depth, depth)[order], np.append(curve.combined, loss)[order],
        model.band_cost,
    )  # fmt: skip
    made = Read(
        situation=situation,
        goaltender=engine.goaltender,
        spot=spot,
        depth=depth,
        offset=offset,
        depth_name=depth_name(
            depth, line.bearing, situation.rink.crease,
            model.base_depth_tolerance,
        ),
        band=band,
        loss=loss,
        options=answers,
        curve=curve,
        answer=(),
        reasons=reasons(situation, depth=depth, band=band, options=answers, curve=curve),
        threats=tuple(one.words for one in answers),
        numbers=numbers(situation),
        attack=attack(situation),
        sensitivities=(),
        worst_share=weights.worst_share,
        observed=weights.observed,
    )  # fmt: skip
    return replace(made, answer=answer_words(made))
