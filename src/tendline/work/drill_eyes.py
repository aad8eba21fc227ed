"""What the puck and the goaltender see at one moment of a drill's run."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from tendline.base import InputError, require_number
from tendline.body import Capsules, place, posed
from tendline.draw import Moment, goaltender_eye_svg, puck_eye_svg
from tendline.draw.goaltender_eye import PUCK_HEIGHT
from tendline.drill import Drill
from tendline.ice import rink
from tendline.shot import usual_build
from tendline.sight import eye_of, goaltender_eye, skater_body
from tendline.store import Store
from tendline.work.drill_export import FILM_RATE, ways_of
from tendline.work.drill_report import report_of

EYE_WIDTH = 420.0
NEAREST = 0.3
"""Closer to the goal line than this [m], or behind it, the mouth is not seen from the puck."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Eyes:
    """Two pictures of one moment; ``puck`` is empty where the puck does not see the mouth."""

    puck: str
    goaltender: str


def eyes_at(store: Store, drill: Drill, *, way: int, seconds: float) -> Eyes:
    """Return what puck and goaltender see ``seconds`` after the whistle of one way of a drill.

    Raises ``InputError`` for a way that there is not or a time before the whistle.
    """
    run = report_of(store, drill).run
    ways = ways_of(run)
    if not 0 <= way < len(ways):
        raise InputError("no such way through the drill", came=str(way), item=drill.id)
    require_number("time", seconds, low=0.0, high=3600.0, unit="s", item=drill.id)
    moments = ways[way].moments
    moment = moments[min(round(seconds * FILM_RATE), len(moments) - 1)]
    body = posed(usual_build(run.level), moment.pose)
    seen = moment.puck[0] > NEAREST and math.dist(moment.puck, (moment.pose.x, moment.pose.y)) > 1.0
    goal = rink(store.club.get().rule_set).goal
    return Eyes(
        puck=puck_eye_svg(moment.puck, body, goal, (), width=EYE_WIDTH, labels=False)
        if seen
        else "",
        goaltender=_her_eye(moment, body),
    )


def _her_eye(moment: Moment, body: Capsules) -> str:
    standing = skater_body()
    bodies = {
        name: place(standing, x=x, y=y, facing=math.atan2(-y, -x) if name[0] == "F" else 0.0)
        for name, (x, y) in moment.people
        if name[0] in "FD"
    }
    puck = np.array([*moment.puck, PUCK_HEIGHT])
    view = goaltender_eye(eye_of(body), puck, bodies)
    return goaltender_eye_svg(view, width=EYE_WIDTH)
