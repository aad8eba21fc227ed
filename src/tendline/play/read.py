"""Read the play: where she should stand, what each option costs there, and why."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from tendline.base import InputError, require_number
from tendline.body import Pose, Stance
from tendline.ice import require_on_ice
from tendline.play.answers import option_answers
from tendline.play.decision import Weights, habit_shares, worst_case_share
from tendline.play.engine import Engine, post_poses, target_grid
from tendline.play.geometry import room_of
from tendline.play.ground import BODY_RADIUS, puck_line
from tendline.play.lanes import Array
from tendline.play.losses import loss_table
from tendline.play.options import OptionKind
from tendline.play.parameters import PlayParameters
from tendline.play.recognise import attack, depth_name, numbers
from tendline.play.result import DepthCurve, OptionAnswer, Place, Read
from tendline.play.search import FINE_KNOT, KNOT, Field, lowest_place
from tendline.play.situation import SAME_SPOT, Goaltender, Situation
from tendline.play.threats import threats
from tendline.play.uncertainty import chance_spread, sensitivities
from tendline.play.words import answer_words, reasons


def read(
    situation: Situation,
    goaltender: Goaltender,
    parameters: PlayParameters,
    *,
    habits: Mapping[OptionKind, int] | None = None,
    options: frozenset[OptionKind] | None = None,
    detail: bool = True,
) -> Read:
    """Return where to stand and why.

    Parameters
    ----------
    habits
        How often each kind of option was seen of this opponent (counts).
    options
        The kinds of option that are switched on; all when None.
    detail
        False leaves out what dragging cannot wait for: intervals, sensitivities, the fine grid.

    Raises
    ------
    InputError
        No option is left, the puck lies at her feet, or there is no room for her to stand.
    """
    engine, weights = prepare(
        situation, goaltender, parameters, habits=habits, options=options, fine=detail
    )
    knot = FINE_KNOT if detail else KNOT
    answer = _read_at(
        engine, weights, lowest_place(engine.line, place_losses(engine), weights, knot=knot)
    )
    if not detail:
        return answer

    def solve(other: PlayParameters, her: Goaltender) -> tuple[float, float]:
        again, shares = prepare(situation, her, other, habits=habits, options=options, fine=False)
        return best_depth(again, shares, answer.offset)

    return replace(
        answer,
        options=_with_intervals(engine, answer),
        sensitivities=sensitivities(engine, solve),
    )


def best_depth(engine: Engine, weights: Weights, offset: float) -> tuple[float, float]:
    """Return the advised depth [m] at one ``offset`` [m] from the line, and the least loss."""
    found = lowest_place(engine.line, place_losses(engine), weights, only=offset)
    return found.band.middle, found.least


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
    model = parameters.model
    weights = Weights(
        shares,
        worst,
        model.tremble,
        observed,
        place_error=model.place_error,
        band_cost=model.band_cost,
        tie=model.place_tie,
    )
    return engine, weights


def _others(situation: Situation) -> tuple[tuple[float, float], ...]:
    """Return where everyone stands but the one on the puck, whom the room to it keeps off."""
    on_it = math.dist(situation.carrier.place, situation.puck_place) < SAME_SPOT
    return tuple(
        (one.x, one.y) for one in situation.people if not (on_it and one is situation.carrier)
    )


def place_losses(engine: Engine) -> Callable[[Array], Array]:
    """Return the function from places (m, 2) to losses (m, options) that the search asks."""

    def losses(places: Array) -> Array:
        return loss_table(engine, engine.line.poses(places)).loss

    return losses


def depth_curve(engine: Engine, field: Field) -> DepthCurve:
    """Return what each option costs by depth, at one offset from the line."""
    combined = field.at(field.knots)
    loss = np.where(np.isfinite(combined)[None, :], field.table.T, np.nan)
    for array in (loss, combined):
        array.flags.writeable = False
    return DepthCurve(
        depth=field.knots,
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


def _read_at(engine: Engine, weights: Weights, field: Field) -> Read:
    line, offset = engine.line, field.offset
    depth = field.band.middle
    situation, model = engine.situation, engine.parameters.model
    x, y = line.place(depth, offset)
    facing = float(line.poses(np.array([[x, y]]))[0, 2])
    spot = Pose(x, y, facing, waiting_stance(engine, x, y))
    loss, answers = option_answers(engine, spot, weights)
    curve = depth_curve(engine, field)
    band = field.band
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
