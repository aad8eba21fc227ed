"""From release to save: puck speed, flight, reaction, reach, aim, and the chance of a goal."""

from tendline.shot.chance import (
    NEVER,
    GoalChance,
    GoalChances,
    goal_chance,
    goal_chance_many,
)
from tendline.shot.parameters import (
    ShotParameters,
    puck_speed,
    release_time,
    shot_constants,
    shot_parameters,
)

__all__ = [
    "NEVER", "GoalChance", "GoalChances", "ShotParameters", "goal_chance", "goal_chance_many",
    "puck_speed", "release_time", "shot_constants", "shot_parameters",
]  # fmt: skip
