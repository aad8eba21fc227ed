"""The answer and the reasons in a coach's words, each with its number and what is behind it."""

from __future__ import annotations

import numpy as np

from tendline.base import LengthUnit, Level, show_length, show_seconds
from tendline.body import sealed_post
from tendline.play.decision import DepthBand
from tendline.play.options import OptionKind
from tendline.play.recognise import numbers_word
from tendline.play.reply import Way
from tendline.play.result import Attack, DepthCurve, DepthName, OptionAnswer, Read, Reason
from tendline.play.situation import Situation

ON_THE_LINE = 0.05
"""Nearer to the line than this [m] is called on the line."""
LEAST_RISE = 0.002
"""A rise of an option's loss smaller than this gives no reason."""
LOOK_ASIDE = 0.3
"""How much further out or deeper the reasons look [m]."""

_DEPTH_PLACE = {
    DepthName.DEFENSIVE: "back by the goal line",
    DepthName.CONSERVATIVE: "inside the crease",
    DepthName.BASE: "at the top of the crease",
    DepthName.AGGRESSIVE: "beyond the crease",
}
_PASS = ("play.pass_speed.{level}", "motion.reaction.{level_}")
_SKATED = ("play.top_speed.{level}", "play.carry_share", "motion.reaction.{level_}")
_BEHIND: dict[OptionKind, tuple[str, ...]] = {
    OptionKind.SHOOT: ("shot.wrist_speed.{level}", "shot.reaction.{level}"),
    OptionKind.ONE_TIMER: (*_PASS, "puck.onetimer_delay", "play.one_timer_open"),
    OptionKind.SETTLE: (*_PASS, "play.settle_time"),
    OptionKind.CARRY: (*_SKATED, "play.carry_time"),
    OptionKind.COME_IN: (
        "shot.wrist_speed.{level}", "shot.reaction.{level}", "play.come_in_gap", "play.deke_open",
    ),
    OptionKind.DEKE: (
        "play.deke_open", "play.deke_forehand", "play.deke_share", "play.deke_feint",
    ),
    OptionKind.TIP: ("play.tip_share", "play.tip_reach", "shot.wrist_speed.{level}"),
    OptionKind.NET_DRIVE: (*_SKATED, "play.drive_out", "play.drive_open"),
    OptionKind.POINT_SHOT: (*_PASS, "play.settle_time"),
    OptionKind.TRAILER: (*_PASS, "play.drop_share"),
    OptionKind.LOW_PASS: (*_PASS, "puck.onetimer_delay", "play.one_timer_open"),
    OptionKind.HIGH_PASS: (*_PASS, "puck.onetimer_delay", "play.one_timer_open"),
    OptionKind.WALK_OUT: (*_SKATED, "play.walk_out_open"),
    OptionKind.WRAP: (*_SKATED, "play.wrap_open"),
}  # fmt: skip


def keys_behind(kind: OptionKind, level: Level) -> tuple[str, ...]:
    """Return the keys of the constants that decide an option most."""
    names = {"level": level.value, "level_": level.value.replace(" ", "_")}
    return tuple(one.format(**names) for one in _BEHIND[kind])


def per_hundred(chance: float) -> str:
    """Return a chance of a goal as ``'12 goals in 100'``; small ones with one digit more."""
    count = 100.0 * chance
    text = f"{count:.0f}" if count >= 2.0 else f"{count:.1f}"
    return f"{text} goal in 100" if text in ("1", "1.0") else f"{text} goals in 100"


def stand_words(read: Read, unit: LengthUnit) -> str:
    """Return where to stand as one sentence."""
    post = sealed_post(read.stance)
    if post is not None:
        return f"Stand on her {post.value} post."
    depth, offset, name = read.depth, read.offset, read.depth_name
    if read.attack is Attack.INDIRECT:
        side = "left" if read.spot.y > 0 else "right"
        aside = f"{show_length(abs(read.spot.y), unit)} to her {side} of the middle"
        middle = "in the middle" if abs(read.spot.y) < ON_THE_LINE else aside
        return f"Stand {show_length(read.spot.x, unit)} in front of the goal line, {middle}."
    where = "on the line"
    if abs(offset) >= ON_THE_LINE:
        side = "left" if offset > 0 else "right"
        where = f"{show_length(abs(offset), unit)} to her {side} of the line"
    return f"Stand {show_length(depth, unit)} out, {where}, {_DEPTH_PLACE[name]}."


def set_words(answer: OptionAnswer) -> str:
    """Return whether she is set for an option, with the time."""
    if answer.release_time == 0.0:
        return "she is set for it"
    if answer.reply.way is Way.REACH:
        if answer.set_margin > 0.0:
            return f"she has {show_seconds(answer.set_margin, 2)} to reach across"
        return "the shot leaves before she has reacted"
    if answer.set_margin >= 0.0:
        return f"she is set {show_seconds(answer.set_margin, 2)} before the shot"
    if answer.is_set:
        return (
            f"she cannot reach the new line: {show_seconds(-answer.set_margin, 2)} short, "
            "so she stops and sets"
        )
    return f"she is {show_seconds(-answer.set_margin, 2)} short of being set"


def answer_words(read: Read, unit: LengthUnit = LengthUnit.METRES) -> tuple[str, ...]:
    """Return the answer as two sentences: where to stand, and what costs most there."""
    worst = read.worst
    return (
        stand_words(read, unit),
        f"What costs most is '{worst.words}': {per_hundred(worst.loss)}; {set_words(worst)}.",
    )


def reasons(
    situation: Situation,
    *,
    depth: float,
    band: DepthBand,
    options: tuple[OptionAnswer, ...],
    curve: DepthCurve,
    unit: LengthUnit = LengthUnit.METRES,
) -> tuple[Reason, ...]:
    """Return the reasons: what stops her going out, what staying deep costs, lanes, the band."""
    level = situation.level
    found: list[Reason] = []
    for step, way in ((LOOK_ASIDE, "further out"), (-LOOK_ASIDE, "deeper")):
        one = _beside(curve, depth, step, options)
        if one is None:
            continue
        answer, here, there = one
        found.append(
            Reason(
                text=f"{show_length(abs(step), unit)} {way}, '{answer.words}' would cost "
                f"{per_hundred(there)} instead of {per_hundred(here)}.",
                value=there - here,
                unit="share",
                keys=keys_behind(answer.option.kind, level),
            )
        )
    for answer in options[:3]:
        found.extend(_time_reason(answer, level, unit))
    found.extend(_save_reason(options))
    found.extend(_pass_reasons(options))
    found.append(
        Reason(
            text=f"Anywhere from {show_length(band.low, unit)} to {show_length(band.high, unit)} "
            f"costs at most {per_hundred(band.cost)} more.",
            value=band.width,
            unit="m",
            keys=("play.band_cost",),
        )
    )
    found.append(
        Reason(
            text=f"Read as {numbers_word(situation)} from where people are; the numbers decide "
            "nothing by themselves.",
            value=float(len(situation.attackers)),
            unit="count",
        )
    )
    return tuple(found)


def _save_reason(options: tuple[OptionAnswer, ...]) -> list[Reason]:
    """Return what the save of the option leaves whose second shot costs most, if it matters."""
    worst = max(options, key=lambda one: one.comes_off * one.after_save)
    if worst.comes_off * worst.after_save < LEAST_RISE:
        return []
    return [
        Reason(
            text=f"Saving '{worst.words}' leaves a puck that goes in by a second shot: "
            f"{per_hundred(worst.after_save)} such saves. From mid-crease on that grows with every "
            "step out.",
            value=worst.after_save,
            unit="share",
            keys=("play.loose_near", "play.loose_nobody", "shot.second_reach"),
        )
    ]


def _pass_reasons(options: tuple[OptionAnswer, ...]) -> list[Reason]:
    """Return how often the pass to each mate ends in a shot."""
    passes: dict[str, float] = {}
    for answer in options:
        if answer.option.kind.is_pass:
            to = answer.option.to
            passes[to] = max(passes.get(to, 0.0), answer.comes_off)
    return [
        Reason(
            text=f"The pass to {to} ends in a shot {10 * chance:.0f} times in 10.",
            value=chance,
            unit="share",
            keys=("play.open_pass", "play.stick_reach", "play.defender_reaction"),
        )
        for to, chance in sorted(passes.items())
    ]


def _beside(
    curve: DepthCurve, depth: float, step: float, options: tuple[OptionAnswer, ...]
) -> tuple[OptionAnswer, float, float] | None:
    """Return the option whose cost rises most ``step`` further out; its loss here and there."""
    there = depth + step
    usable = ~np.isnan(curve.combined)
    if usable.sum() < 2 or not curve.depth[usable][0] <= there <= curve.depth[usable][-1]:
        return None
    by_name = {one.option.key: one for one in options}
    rises = []
    for name, row in zip(curve.names, curve.loss, strict=True):
        now, then = np.interp([depth, there], curve.depth[usable], row[usable])
        rises.append((float(then - now), name, float(now), float(then)))
    rise, name, here, then = max(rises, key=lambda one: one[0])
    return (by_name[name], here, then) if rise >= LEAST_RISE else None


def _time_reason(answer: OptionAnswer, level: Level, unit: LengthUnit) -> list[Reason]:
    if answer.release_time == 0.0:
        return []
    moves = ", ".join(dict.fromkeys(step.move.value for step in answer.reply.chain.steps))
    moves = moves or "no move"
    return [
        Reason(
            text=f"'{answer.words}': the shot leaves {show_seconds(answer.release_time, 2)} after "
            f"{answer.cue}; she has {show_length(answer.reply.distance, unit)} to go ({moves}) "
            f"and {set_words(answer)}.",
            value=answer.set_margin,
            unit="s",
            keys=keys_behind(answer.option.kind, level),
        )
    ]
