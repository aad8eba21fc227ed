"""A few fixed events that the tests of the log share; everybody in them is invented."""

from datetime import UTC, date, datetime

from tendline.base import Level, ShotResult
from tendline.log import Frame, GameSetUp, RinkEnd, ShotTaken

NOON = datetime(2026, 11, 21, 12, 0, tzinfo=UTC)
FAR_NET = 54.254
"""Goal line to goal line on the NHL sheet [m]: 178 ft (by hand, rule-book figures)."""


def set_up(**changes):
    given = {
        "id": "start",
        "day": date(2026, 11, 21),
        "team": "Kettle Harbour U15",
        "opponent": "Harrow Lake",
        "goaltender": "ronja",
        "level": Level.U15,
    }
    return GameSetUp(**{**given, **changes})


def shot(name, x=6.0, y=2.0, result=ShotResult.SAVE, frame=Frame.NET, **more):
    return ShotTaken(id=name, x=x, y=y, result=result, frame=frame, **more)


NEAR, FAR = RinkEnd.NEAR, RinkEnd.FAR
