"""From release to save: puck speed, flight, reaction, reach, aim, and the chance of a goal."""

from tendline.shot.chance import (
    NEVER,
    GoalChance,
    GoalChances,
    goal_chance,
    goal_chance_many,
    warm_up,
)
from tendline.shot.flight import Flight, flight, flight_time, highest_at, slide_time, slide_times
from tendline.shot.many import (
    ReboundShares,
    TippedShots,
    flight_many,
    rebounds_many,
    tipped_chance_many,
)
from tendline.shot.ordinary import OrdinaryChance, OrdinaryPlay, ordinary_chance, usual_build
from tendline.shot.parameters import (
    ShotParameters,
    puck_speed,
    release_time,
    shot_constants,
    shot_parameters,
)
from tendline.shot.rebounds import Rebounds, SurfaceShare, rebounds
from tendline.shot.release import release_point
from tendline.shot.sighting import Sighting, screened
from tendline.shot.tips import TippedShot, tipped_chance

__all__ = [
    "NEVER", "Flight", "GoalChance", "GoalChances", "OrdinaryChance", "OrdinaryPlay",
    "ReboundShares", "Rebounds", "ShotParameters", "Sighting", "SurfaceShare", "TippedShot",
    "TippedShots", "flight", "flight_many", "flight_time", "goal_chance", "goal_chance_many",
    "highest_at", "ordinary_chance", "puck_speed", "rebounds", "rebounds_many", "release_point",
    "release_time", "screened", "shot_constants", "shot_parameters", "slide_time", "slide_times",
    "tipped_chance", "tipped_chance_many", "usual_build", "warm_up",
]  # fmt: skip
