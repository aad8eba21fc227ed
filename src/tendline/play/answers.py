"""One place in full: what each option costs from it and what she does about each."""

from __future__ import annotations

import math

import numpy as np

from tendline.base import InputError
from tendline.body import Pose, Stance
from tendline.ice import off_line
from tendline.motion import quickest_chain
from tendline.play.decision import Weights
from tendline.play.engine import Engine
from tendline.play.losses import Meeting, meetings
from tendline.play.options import Threat
from tendline.play.reply import BUTTERFLY, Way
from tendline.play.result import OptionAnswer, Reply

SHORT_OF_LINE = 0.05
"""Further from the new line than this [m] she has not reached it."""


def option_answers(
    engine: Engine, pose: Pose, weights: Weights
) -> tuple[float, tuple[OptionAnswer, ...]]:
    """Return the combined loss at ``pose`` and every option's answer, the costliest first.

    Raises ``InputError`` if the goaltender at this place cannot answer (a puck inside her).
    """
    found = meetings(engine, np.array([[pose.x, pose.y, pose.facing]]))
    losses = np.array([[one.loss for one in found]])
    if np.isnan(losses).any():
        raise InputError(
            "she cannot stand there", came=f"x = {pose.x:.2f} m, y = {pose.y:.2f} m",
            allowed="in front of the goal line and clear of the puck", item="goaltender",
        )  # fmt: skip
    answers = [
        _answer(engine, threat, one, pose, float(weight))
        for threat, one, weight in zip(engine.threats, found, weights.shares, strict=True)
    ]
    loss = float(weights.loss(losses)[0])
    return loss, tuple(sorted(answers, key=lambda one: -one.loss))


def _answer(
    engine: Engine, threat: Threat, meeting: Meeting, pose: Pose, weight: float
) -> OptionAnswer:
    down = meeting.held == BUTTERFLY
    begin = Pose(*meeting.start, pose.stance)
    end = Pose(
        meeting.target[0], meeting.target[1],
        math.atan2(meeting.release[1] - meeting.target[1], meeting.release[0] - meeting.target[0]),
        Stance.BUTTERFLY if meeting.way is Way.SLIDE else pose.stance,
    )  # fmt: skip
    moves = meeting.time > 0.0
    motion = engine.goaltender.motion
    chain = quickest_chain(
        begin, end if moves else begin, motion,
        reaction=motion.reaction + threat.wrong_foot if moves else 0.0,
    )  # fmt: skip
    set_time = meeting.set_time if moves else 0.0
    set_there = meeting.way in (Way.STOP_SHORT, Way.DROP)
    short = moves and set_there and abs(off_line(*meeting.target, meeting.release)) > SHORT_OF_LINE
    at_release = Pose(*meeting.pose, Stance.BUTTERFLY if down else pose.stance)
    return OptionAnswer(
        option=threat.option,
        comes_off=threat.comes_off,
        goal_chance=meeting.chance,
        after_save=meeting.after,
        loss=meeting.loss,
        weight=weight,
        release=meeting.release,
        release_time=meeting.time,
        reply=Reply(
            start=begin, at_release=at_release, target=end if moves else begin,
            arrival=meeting.arrival if moves else 0.0, set_time=set_time,
            distance=math.hypot(end.x - begin.x, end.y - begin.y) if moves else 0.0,
            chain=chain, way=meeting.way,
        ),
        set_margin=meeting.time - (meeting.line_time if short else set_time),
        is_set=meeting.delay <= 0.0,
        words=threat.option.words,
        cue=threat.cue,
        chance_low=meeting.chance,
        chance_high=meeting.chance,
    )  # fmt: skip
