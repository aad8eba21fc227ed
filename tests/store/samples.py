"""A few fixed things that the tests of the store share; everybody in them is invented."""

from datetime import UTC, date, datetime

from tendline.base import Level, ShotResult
from tendline.log import GameSetUp, ShotTaken

EVENING = datetime(2026, 11, 25, 20, 0, tzinfo=UTC)


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


def shot(name, result=ShotResult.SAVE, **more):
    return ShotTaken(id=name, x=6.0, y=2.0, result=result, **more)
